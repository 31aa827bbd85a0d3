import { computeBeamDeflection, computeRectangleSecondMoment } from './beam';
import { getNonNegative } from './workings';

/** What it takes to pull a bent bar straight in the vises, and what comes back. */
export interface ForcedStraight {
  /** Force at the middle that takes the bow out, ends held: `48 E I δ / L³`, N. */
  forceN: number;
  /** Bow of the part once it is let go, mm: all of it, as the bar bent elastically. */
  springBack: number;
  /** Bending stress while it is held straight: `4 E δ T / L²`, N/mm². */
  stressMPa: number;
}

/**
 * A bent bar pulled straight. Its curve is taken as uniform; the bar bends across its thickness.
 *
 * @param bow δ of the bar over the clamped span, mm
 * @param span L between the outermost grips, mm
 * @param section height along Z and thickness across Y of the bar, mm
 * @param partLength length of the part that is cut from it, mm
 */
export function computeForcedStraight(
  bow: number,
  span: number,
  section: { height: number; thickness: number },
  partLength: number,
  youngsModulusMPa: number,
): ForcedStraight {
  const bent = getNonNegative(bow);
  const secondMomentMm4 = computeRectangleSecondMoment(section.height, section.thickness);
  const perNewton = computeBeamDeflection('simpleCentre', 1, span, { youngsModulusMPa, secondMomentMm4 });
  if (!(span > 0) || !(perNewton > 0)) return { forceN: 0, springBack: 0, stressMPa: 0 };
  return {
    forceN: bent / perNewton,
    springBack: bent * (getNonNegative(partLength) / span) ** 2,
    stressMPa: (4 * youngsModulusMPa * bent * section.thickness) / span ** 2,
  };
}
