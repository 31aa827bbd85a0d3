import { useEffect } from 'react';
import { useApp } from '../state/hooks';
import type { ViewState } from '../state/view';
import { NARROW } from './open-panels';

type Panels = Pick<ViewState, 'leftOpen' | 'rightOpen' | 'foldedForRoom'>;

/** In a narrow window one side panel of the Bench is open at a time: the one that was opened last. */
export function useOnePanelWhenNarrow(): void {
  const { view } = useApp();
  useEffect(() => {
    const query = window.matchMedia(NARROW);
    const follow = (before: Panels): void => {
      const change = computePanelChange(view.store.getState(), before, query.matches);
      if (change !== null) view.store.setState(change);
    };
    const handleWidth = (): void => follow(view.store.getState());
    handleWidth();
    query.addEventListener('change', handleWidth);
    const stop = view.store.subscribe((_, before) => follow(before));
    return () => {
      query.removeEventListener('change', handleWidth);
      stop();
    };
  }, [view]);
}

/**
 * What the width of the window makes of the side panels: in a narrow one all but the one opened last fold, in a wide one
 * what was folded for want of room opens again.
 *
 * @param before the panels before the last change, which tell the one opened last; of two that were open the right one folds
 * @returns null where the panels stand as they should
 */
export function computePanelChange(now: Panels, before: Panels, isNarrow: boolean): Partial<Panels> | null {
  const { leftOpen, rightOpen, foldedForRoom } = now;
  if (isNarrow && leftOpen && rightOpen) {
    return before.rightOpen ? { rightOpen: false, foldedForRoom: 'right' } : { leftOpen: false, foldedForRoom: 'left' };
  }
  if (foldedForRoom === null) return null;
  const isOpen = foldedForRoom === 'left' ? leftOpen : rightOpen;
  if (isNarrow && !isOpen) return null;
  return foldedForRoom === 'left' ? { leftOpen: true, foldedForRoom: null } : { rightOpen: true, foldedForRoom: null };
}
