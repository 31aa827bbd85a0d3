import { fromNanometres, toNanometres } from '../units/exact';

/** How one bar is cut into equal blanks: the saw and the two ends. Lengths in mm. */
export interface BarCutting {
  kerf: number;
  squaringTrim: number;
  badEnd: number;
  stub: number;
}

/** Longest length taken into exact sums, mm: a kilometre. Anything longer is a slip of the keys and is cut to it. */
export const LONGEST = 1e6;

/** Whole nanometres of a length that may be anything: what is under 0 or no number counts as 0. */
export function toExactLength(mm: number): number {
  return mm > 0 ? toNanometres(Math.min(mm, LONGEST)) : 0;
}

/**
 * Equal blanks from one bar, exact in nanometres. Where something has to stay behind the last blank (a bad
 * end, a stub to hold) that blank takes a cut of its own; where nothing has to, the last cut is free.
 *
 * @param barLength as delivered, mm
 * @param blankLength over 0, mm
 * @returns blanks, and the drop behind the last cut, mm
 * @example getBlanksPerBar(3657.6, 303.276, { kerf: 1.5875, squaringTrim: 0, badEnd: 0, stub: 0 }).blanks // 12
 */
export function getBlanksPerBar(
  barLength: number,
  blankLength: number,
  cutting: BarCutting,
): { blanks: number; drop: number } {
  const kerf = toExactLength(cutting.kerf);
  const blank = toExactLength(blankLength);
  const bar = toExactLength(barLength);
  const trim = toExactLength(Math.max(cutting.squaringTrim, cutting.badEnd));
  const head = trim > 0 ? trim + kerf : 0;
  const tail = toExactLength(Math.max(cutting.badEnd, cutting.stub));
  const usable = bar - head - tail;
  if (!(blank > 0) || usable < blank) return { blanks: 0, drop: Math.max(0, fromNanometres(bar - head)) };
  const blanks = Math.floor((usable + (tail > 0 ? 0 : kerf)) / (blank + kerf));
  const drop = Math.max(0, bar - head - blanks * (blank + kerf));
  return { blanks, drop: fromNanometres(drop) };
}
