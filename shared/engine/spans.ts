import type { Span } from '../model/plan';

/** Places closer than this are one place: far under anything that can be measured, far over rounding. mm */
export const SAME_PLACE = 1e-7;

/**
 * Common stretches of two ascending rows of stretches. Stretches that only touch, or miss each other by rounding, meet in
 * one place.
 */
export function intersectSpans(a: readonly Span[], b: readonly Span[]): Span[] {
  const common: Span[] = [];
  for (const one of a) {
    for (const other of b) {
      const from = Math.max(one.from, other.from);
      const to = Math.min(one.to, other.to);
      if (to >= from) common.push({ from, to });
      else if (to >= from - SAME_PLACE) common.push({ from: (from + to) / 2, to: (from + to) / 2 });
    }
  }
  return common;
}

/** Every place between `least` and `most` after a place of the row, as ascending stretches that do not overlap. */
export function shiftSpans(spans: readonly Span[], least: number, most: number): Span[] {
  const shifted: Span[] = [];
  for (const span of spans) {
    const next = { from: span.from + least, to: span.to + most };
    const last = shifted.at(-1);
    if (last !== undefined && next.from <= last.to) last.to = Math.max(last.to, next.to);
    else shifted.push(next);
  }
  return shifted;
}

/** The row seen from the other end of a length. */
export function mirrorSpans(spans: readonly Span[], length: number): Span[] {
  return spans.map((span) => ({ from: length - span.to, to: length - span.from })).reverse();
}

/** What a row of closed stretches leaves of a length, ascending. */
export function getFreeSpans(from: number, to: number, closed: readonly Span[]): Span[] {
  const free: Span[] = [];
  let at = from;
  for (const span of closed.filter((one) => one.to > one.from).toSorted((a, b) => a.from - b.from)) {
    if (Math.min(span.from, to) >= at) free.push({ from: at, to: Math.min(span.from, to) });
    at = Math.max(at, span.to);
  }
  return at <= to ? [...free, { from: at, to }] : free;
}

/**
 * Place of the row nearest to another. Of two that are equally near, the one further from `middle`; of two that are that
 * as well, the one nearer to `centroid`. What mirrors the row mirrors the answer.
 *
 * @returns undefined for an empty row
 */
export function getNearestPlace(
  spans: readonly Span[],
  wanted: number,
  middle: number,
  centroid: number,
): number | undefined {
  const places = spans.map((span) => Math.min(span.to, Math.max(span.from, wanted)));
  return places.reduce<number | undefined>((best, place) => {
    if (best === undefined) return place;
    const steps = [
      Math.abs(best - wanted) - Math.abs(place - wanted),
      Math.abs(place - middle) - Math.abs(best - middle),
      Math.abs(best - centroid) - Math.abs(place - centroid),
    ];
    const deciding = steps.find((step) => Math.abs(step) > EQUALLY_NEAR) ?? 0;
    return deciding > 0 ? place : best;
  }, undefined);
}

/** Distances closer than this are equal, mm. */
const EQUALLY_NEAR = 1e-4;

/** Middle of all the places of a row, by their length; of single places, their mean. */
export function getCentroid(spans: readonly Span[]): number {
  const total = spans.reduce((sum, span) => sum + span.to - span.from, 0);
  const middles = spans.map((span) => (span.from + span.to) / 2);
  if (total <= SAME_PLACE) return middles.reduce((sum, at) => sum + at, 0) / Math.max(1, middles.length);
  return spans.reduce((sum, span, index) => sum + (span.to - span.from) * (middles[index] ?? 0), 0) / total;
}
