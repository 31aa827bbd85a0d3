import { getFinite, getNonNegative } from './workings';

export const BEAM_SOURCE =
  "Mechanical Engineer's Data Handbook, beam coefficients (cantilever 1/3, fixed both ends 1/192)";

/** A straight bar in bending: Young's modulus in N/mm² and second moment of area in mm⁴. */
export interface Stiffness {
  youngsModulusMPa: number;
  secondMomentMm4: number;
}

/** How a beam is held and loaded. Uniform loads are given as their total. */
export type BeamCase =
  | 'cantileverEnd'
  | 'cantileverUniform'
  | 'simpleCentre'
  | 'simpleUniform'
  | 'fixedCentre'
  | 'fixedUniform';

/** Deflection = coefficient × F L³ / (E I); moment = coefficient × F L. */
const BEAM_COEFFICIENTS: Readonly<Record<BeamCase, { deflection: number; moment: number }>> = {
  cantileverEnd: { deflection: 1 / 3, moment: 1 },
  cantileverUniform: { deflection: 1 / 8, moment: 1 / 2 },
  simpleCentre: { deflection: 1 / 48, moment: 1 / 4 },
  simpleUniform: { deflection: 5 / 384, moment: 1 / 8 },
  fixedCentre: { deflection: 1 / 192, moment: 1 / 8 },
  fixedUniform: { deflection: 1 / 384, moment: 1 / 12 },
};

/**
 * Largest deflection of a beam.
 *
 * @param beamCase supports and load
 * @param forceN load, N (total for a uniform load)
 * @param span L, mm, 0 or more
 * @param stiffness E in N/mm² and I in mm⁴, each over 0
 * @returns mm; 0 for a stiffness that cannot be used
 * @example computeBeamDeflection('cantileverEnd', 500, 100, { youngsModulusMPa: 210000, secondMomentMm4: 360 }) // 2.20459
 */
export function computeBeamDeflection(beamCase: BeamCase, forceN: number, span: number, stiffness: Stiffness): number {
  const flexuralNmm2 = stiffness.youngsModulusMPa * stiffness.secondMomentMm4;
  if (!(flexuralNmm2 > 0)) return 0;
  return getFinite((BEAM_COEFFICIENTS[beamCase].deflection * forceN * getNonNegative(span) ** 3) / flexuralNmm2);
}

/** Largest bending moment of a beam, N·mm; `forceN` in N, `span` in mm. */
export function computeBeamMoment(beamCase: BeamCase, forceN: number, span: number): number {
  return BEAM_COEFFICIENTS[beamCase].moment * forceN * getNonNegative(span);
}

/**
 * Longest cantilever whose end bends no more than a limit: `∛(3 E I δ / F)`.
 *
 * @param forceN F at the end, N
 * @param limit δ, mm
 * @param longest returned where no force acts, mm
 * @returns mm, 0 to `longest`
 */
export function computeLongestOverhang(forceN: number, limit: number, stiffness: Stiffness, longest: number): number {
  const flexuralNmm2 = getNonNegative(stiffness.youngsModulusMPa * stiffness.secondMomentMm4);
  if (!(forceN > 0)) return longest;
  return Math.min(longest, Math.cbrt((3 * flexuralNmm2 * getNonNegative(limit)) / forceN));
}

/** Second moment of a rectangle about its middle, bent across `depth`: `b h³ / 12`, mm⁴. */
export function computeRectangleSecondMoment(width: number, depth: number): number {
  return (getNonNegative(width) * getNonNegative(depth) ** 3) / 12;
}

/** Second moment of a round bar: `π d⁴ / 64`, mm⁴. */
export function computeRoundSecondMoment(diameter: number): number {
  return (Math.PI * getNonNegative(diameter) ** 4) / 64;
}

/** A length of a round cantilever of one diameter, counted from the loaded end. */
export interface RoundStep {
  length: number;
  diameter: number;
}

/**
 * End deflection of a stepped round cantilever loaded at its free end: `Σ F (s₂³ - s₁³) / (3 E I)`, the sum over the
 * steps with s measured from the load. Castigliano; equals `F L³ / 3EI` for one step.
 *
 * @param forceN F, N
 * @param youngsModulusMPa E, N/mm²
 * @param steps from the loaded end to the holder; lengths and diameters in mm
 * @returns mm
 */
export function computeSteppedDeflection(
  forceN: number,
  youngsModulusMPa: number,
  steps: readonly RoundStep[],
): number {
  if (!(youngsModulusMPa > 0)) return 0;
  let from = 0;
  let deflection = 0;
  for (const step of steps) {
    const secondMoment = computeRoundSecondMoment(step.diameter);
    const to = from + getNonNegative(step.length);
    if (to > from && secondMoment > 0) {
      deflection += (forceN * (to ** 3 - from ** 3)) / (3 * youngsModulusMPa * secondMoment);
    }
    from = to;
  }
  return getFinite(deflection);
}
