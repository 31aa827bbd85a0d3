import { getNonNegative } from './workings';

/**
 * Time to part a piece off with a cutter: path over feed, for each pass.
 *
 * @param pathLength of one pass, run-in and run-out counted, mm
 * @param passes whole number, 1 or more
 * @param feedMmPerMin over 0
 * @returns min; 0 when there is no feed
 * @example two passes of 508 mm at 50.8 mm/min take 20 min
 */
export function computeCutOffMinutes(pathLength: number, passes: number, feedMmPerMin: number): number {
  return feedMmPerMin > 0 ? (getNonNegative(pathLength) * Math.max(1, Math.ceil(passes))) / feedMmPerMin : 0;
}

/**
 * Time to saw through a section.
 *
 * @param areaMm2 section sawn, mm²
 * @param rateMm2PerMin the saw's own rate in this metal, over 0
 * @returns min; 0 when the rate is not known
 */
export function computeSawMinutes(areaMm2: number, rateMm2PerMin: number): number {
  return rateMm2PerMin > 0 ? getNonNegative(areaMm2) / rateMm2PerMin : 0;
}
