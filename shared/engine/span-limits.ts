import { computeLongestOverhang, computeRectangleSecondMoment, type Stiffness } from './beam';
import type { EngineContext } from './context';
import { computeCutForce } from './cut-force';
import { getCutSpec } from './cut-forces';
import { getDeepestCutOff } from './release-depth';
import type { SectionResult } from './results';
import type { SectionSetup } from './setup';
import type { SpanLimits } from './vises';

/** Bending stiffness of the bar sideways: `E`, `I = H T³ / 12` of the nominal bar. */
export function getBarStiffness(context: EngineContext, section: SectionResult): Stiffness {
  return {
    youngsModulusMPa: context.material?.youngsModulusMPa ?? 0,
    secondMomentMm4: computeRectangleSecondMoment(section.height.nominal, section.thickness.nominal),
  };
}

/** Largest side force any cut of the plan puts on the bar, N; 0 when no cut can be computed. */
export function getLargestSideForceN(setup: SectionSetup): number {
  const { context } = setup;
  const deepest = getDeepestCutOff(context, setup);
  const forces = context.plan.cuts.map((cut) => {
    const spec = getCutSpec(context, setup, cut, deepest);
    return spec === null ? 0 : computeCutForce(spec).sideForceN;
  });
  return Math.max(0, ...forces.filter(Number.isFinite));
}

/** A gap between jaws is clamped at both ends and bends `F L³ / 192EI`, an overhang `F L³ / 3EI`: 64 times stiffer, so four times as long. */
const GAP_TO_OVERHANG = 4;

/**
 * Longest overhang and gap between jaws within the shop's deflection limit under a side force.
 *
 * @param sideForceN N; without one the limits are infinite
 */
export function getSpanLimits(context: EngineContext, section: SectionResult, sideForceN: number): SpanLimits {
  const overhang = computeLongestOverhang(
    sideForceN,
    context.rules.deflectionLimit,
    getBarStiffness(context, section),
    Number.POSITIVE_INFINITY,
  );
  return { overhang, gap: GAP_TO_OVERHANG * overhang };
}
