/** Lengths closer than this are the same length: far under anything a shop can measure, far over double rounding. */
export const SAME_LENGTH = 1e-6;

/**
 * Largest multiple of a step that is not over the value; a value within rounding error of a multiple counts as that multiple.
 *
 * @param value mm
 * @param step mm, over 0
 * @example roundDownToStep(13.4620, 0.254) // 13.462
 */
export function roundDownToStep(value: number, step: number): number {
  return Math.floor((value + SAME_LENGTH) / step) * step;
}

/** Nearest multiple of a step, mm. */
export function roundToStep(value: number, step: number): number {
  return Math.round(value / step) * step;
}

/** The value, or the nearer of two limits; `least` wins where the limits cross. */
export function clamp(value: number, least: number, most: number): number {
  return Math.max(least, Math.min(most, value));
}
