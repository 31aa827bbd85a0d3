import { useEffect, useReducer, useRef } from 'react';
import { useApp } from '../state/hooks';

/** Longer than the panels take from one look at a drag to the next, or none of them would count as still. */
const STILL_MS = 500;

/**
 * A value that is dear to draw: while something is dragged it stays what it was, until the hand rests or lets go. Else
 * it is always the value given.
 */
export function useAtRest<T>(value: T): T {
  const { documents } = useApp();
  const isHeld = documents.isGesturing();
  const rested = useRef(value);
  const [, drawAgain] = useReducer((count: number) => count + 1, 0);
  if (!isHeld) rested.current = value;
  useEffect(() => {
    if (!isHeld || rested.current === value) return;
    const timer = window.setTimeout(() => {
      rested.current = value;
      drawAgain();
    }, STILL_MS);
    return () => window.clearTimeout(timer);
  }, [isHeld, value]);
  return rested.current;
}
