import { inchesToMm } from '../../units/exact';
import type { SizeBand } from '../shop';

/** One row of a tolerance table: sizes up to and including `upTo`, by how much they may be under and over. */
export type BandRow = readonly [upTo: number, minus: number, plus: number];

/** Bands from rows in rising order, in mm; the first starts at 0. */
export function getBands(rows: readonly BandRow[]): SizeBand[] {
  return rows.map(([upTo, minus, plus], index) => ({ over: rows[index - 1]?.[0] ?? 0, upTo, minus, plus }));
}

/** Bands from rows in inches. */
export function getInchBands(rows: readonly BandRow[]): SizeBand[] {
  return getBands(rows.map(([upTo, minus, plus]) => [inchesToMm(upTo), inchesToMm(minus), inchesToMm(plus)]));
}

/** Bands that allow as much over as under, from rows of size and tolerance. */
export function getEvenBands(rows: readonly (readonly [upTo: number, tolerance: number])[]): SizeBand[] {
  return getBands(rows.map(([upTo, tolerance]) => [upTo, tolerance, tolerance]));
}

/** Bands that lie wholly under nominal, from rows of size and tolerance. */
export function getMinusBands(rows: readonly (readonly [upTo: number, tolerance: number])[]): SizeBand[] {
  return getBands(rows.map(([upTo, tolerance]) => [upTo, tolerance, 0]));
}
