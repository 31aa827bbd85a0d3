import type { BarOffer } from '../model/shop';

/** Sizes of bar come in 1/64 in or in whole millimetres; a size nearer than this to a step stands on it, mm. */
const ON_STEP = 0.001;
const STEP_OF: Record<'in' | 'mm', number> = { in: 25.4 / 64, mm: 1 };

/**
 * The units a bar is sized in, by its width and thickness; null where both fit or neither does, as with a measured bar.
 *
 * @example getBarMeasure({ width: 50.8, thickness: 12.7 }) // 'in'
 */
export function getBarMeasure({ width, thickness }: Pick<BarOffer, 'width' | 'thickness'>): 'in' | 'mm' | null {
  const isIn = (units: 'in' | 'mm'): boolean =>
    [width, thickness].every((size) => Math.abs(size - Math.round(size / STEP_OF[units]) * STEP_OF[units]) <= ON_STEP);
  const [isInch, isMetric] = [isIn('in'), isIn('mm')];
  if (isInch === isMetric) return null;
  return isInch ? 'in' : 'mm';
}
