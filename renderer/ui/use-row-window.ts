import { type RefObject, useEffect, useLayoutEffect, useState } from 'react';

/** Up to here every row is there: nothing is gained by leaving some out. */
const ALL_ROWS = 60;
/** Rows kept beyond what is seen, so that the Tab key and a short scroll find the next one there. */
const SPARE_ROWS = 12;
/** A row's height before the first was measured, px. */
const FIRST_GUESS = 50;

export interface RowWindow {
  /** Rows that are there, ascending. */
  readonly rows: readonly number[];
  /** Height of a row, px. */
  readonly rowHeight: number;
  /** False while some rows are left out. */
  readonly isWhole: boolean;
}

/**
 * Which rows of a long table are drawn: those that are seen, some beyond, and one that must not go, such as the one with
 * the focus. All rows are taken to be as high as the first.
 *
 * @param box what scrolls; its table's body holds the rows
 * @param kept a row that stays wherever the table is scrolled to; under 0 for none
 */
export function useRowWindow(box: RefObject<HTMLElement | null>, count: number, kept: number): RowWindow {
  const isWhole = count <= ALL_ROWS;
  const [seen, setSeen] = useState({ from: 0, to: ALL_ROWS });
  const [rowHeight, setRowHeight] = useState(FIRST_GUESS);

  useLayoutEffect(() => {
    const measured = box.current?.querySelector<HTMLElement>('tbody tr[data-row]')?.offsetHeight ?? 0;
    if (!isWhole && measured > 0) setRowHeight(measured);
  }, [box, isWhole]);

  useEffect(() => {
    const element = box.current;
    if (element === null || isWhole) return;
    const follow = (): void => {
      const from = Math.floor(element.scrollTop / rowHeight);
      const to = Math.ceil((element.scrollTop + element.clientHeight) / rowHeight);
      // While these are there, nothing has to be drawn anew.
      const isThere = (now: typeof seen): boolean =>
        now.from <= Math.max(0, from - 2) && now.to >= Math.min(count, to + 2);
      setSeen((now) => (isThere(now) ? now : { from: from - SPARE_ROWS, to: to + SPARE_ROWS }));
    };
    follow();
    element.addEventListener('scroll', follow, { passive: true });
    const observer = new ResizeObserver(follow);
    observer.observe(element);
    return () => {
      element.removeEventListener('scroll', follow);
      observer.disconnect();
    };
  }, [box, isWhole, rowHeight, count]);

  const [from, to] = isWhole ? [0, count] : [Math.max(0, seen.from), Math.min(count, seen.to)];
  const range = Array.from({ length: Math.max(0, to - from) }, (_, index) => from + index);
  const isKeptOutside = kept >= 0 && kept < count && (kept < from || kept >= to);
  return { rows: isKeptOutside ? [...range, kept].sort((a, b) => a - b) : range, rowHeight, isWhole };
}
