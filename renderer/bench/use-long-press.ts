import { useEffect, useMemo, useRef } from 'react';
import type { Point } from '../../shared/drawing/marks';

/** As long as people hold a finger for a menu; common practice, no source. */
const HOLD_MS = 500;
const SLOP_PX = 8;

/** A finger that rests: what the right button is to a mouse. */
export interface LongPress {
  begin(at: Point): void;
  move(at: Point): void;
  end(): void;
}

export function useLongPress(onHeld: (at: Point) => void): LongPress {
  const latest = useRef(onHeld);
  latest.current = onHeld;
  const press = useMemo(() => createLongPress((at) => latest.current(at)), []);
  useEffect(() => press.end, [press]);
  return press;
}

function createLongPress(onHeld: (at: Point) => void): LongPress {
  let from: Point | null = null;
  let timer = 0;
  const end = (): void => {
    window.clearTimeout(timer);
    from = null;
  };
  return {
    begin(at) {
      end();
      from = at;
      timer = window.setTimeout(() => {
        end();
        onHeld(at);
      }, HOLD_MS);
    },
    move(at) {
      if (from !== null && Math.hypot(at.x - from.x, at.y - from.y) >= SLOP_PX) end();
    },
    end,
  };
}
