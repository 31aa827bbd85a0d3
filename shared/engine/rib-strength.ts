import { getNonNegative } from './workings';

export const RIB_SOURCE = 'von Mises shear yield 0.577 σy; elastic b² / 6 and plastic b² / 4 section of a rectangle';

/** Shear yield over tensile yield by von Mises: 1/√3. */
export const SHEAR_YIELD_RATIO = 1 / Math.sqrt(3);

/** A stretch of rib: its length along X and its thickness across Y at each end, linear between, mm. */
export interface RibPiece {
  length: number;
  thickness: number;
  thicknessEnd: number;
}

/** Sums over the stretches of a rib that its strength goes with. */
export interface RibSection {
  /** Σ b ℓ, mm². */
  areaMm2: number;
  /** Σ ℓ b², mm³: six times the elastic, four times the plastic section modulus. */
  squareMm3: number;
  /** Σ ℓ of the stretches that carry, mm. */
  length: number;
}

/** Adds up the stretches of a rib, tapers included. */
export function computeRibSection(pieces: readonly RibPiece[]): RibSection {
  const section: RibSection = { areaMm2: 0, squareMm3: 0, length: 0 };
  for (const { length, thickness, thicknessEnd } of pieces) {
    const carries = length > 0 && thickness >= 0 && thicknessEnd >= 0 && thickness + thicknessEnd > 0;
    if (!carries) continue;
    section.areaMm2 += (length * (thickness + thicknessEnd)) / 2;
    section.squareMm3 += (length * (thickness ** 2 + thickness * thicknessEnd + thicknessEnd ** 2)) / 3;
    section.length += length;
  }
  return section;
}

/** An even rib. */
export function getEvenRib(length: number, thickness: number): RibSection {
  return computeRibSection([{ length, thickness, thicknessEnd: thickness }]);
}

/** Side force at which the rib yields in shear: `0.577 σy Σ b ℓ`, N. */
export function computeRibShearN(section: RibSection, yieldStrengthMPa: number): number {
  return SHEAR_YIELD_RATIO * getNonNegative(yieldStrengthMPa) * section.areaMm2;
}

/**
 * Bending stress at the foot of the rib under a side force: `6 F z / Σ ℓ b²`.
 *
 * @param sideForceN F, N
 * @param loadHeight z of the force above the foot of the rib, mm
 * @returns N/mm²; 0 where no rib stands
 * @example S11: 5 lbf at 0.0625 in on a rib 0.010 × 1.500 in gives 12 500 psi
 */
export function computeRibStressMPa(section: RibSection, sideForceN: number, loadHeight: number): number {
  return section.squareMm3 > 0 ? (6 * getNonNegative(sideForceN) * getNonNegative(loadHeight)) / section.squareMm3 : 0;
}

/**
 * Even rib thickness that carries a side force: `√(6 F z / (σ ℓ))`.
 *
 * @param allowedStressMPa σ, N/mm², over 0
 * @param length ℓ of rib that carries, mm, over 0
 * @returns mm; 0 where nothing is allowed or nothing carries
 */
export function computeRibNeeded(
  sideForceN: number,
  loadHeight: number,
  allowedStressMPa: number,
  length: number,
): number {
  return allowedStressMPa > 0 && length > 0
    ? Math.sqrt((6 * getNonNegative(sideForceN) * getNonNegative(loadHeight)) / (allowedStressMPa * length))
    : 0;
}

/**
 * Force across the top of the part that folds the rib over: plastic moment `σu Σ ℓ b² / 4` over the lever.
 *
 * @param tensileStrengthMPa σu, N/mm²
 * @param lever height of the push above the rib, mm, over 0
 * @returns N
 */
export function computeSnapForceN(section: RibSection, tensileStrengthMPa: number, lever: number): number {
  return lever > 0 ? (getNonNegative(tensileStrengthMPa) * section.squareMm3) / 4 / lever : 0;
}

/** How a rib is broken. */
export type SnapBy = 'falls off' | 'hand' | 'mallet' | 'pry' | 'will not snap';

/** Largest force of each way to break a rib, N: the shop's own scale. */
export interface SnapScale {
  handN: number;
  malletN: number;
  pryN: number;
}

/** Places a snap force on the shop's scale. */
export function getSnapBy(snapForceN: number, scale: SnapScale): SnapBy {
  if (!(snapForceN > 0)) return 'falls off';
  if (snapForceN <= scale.handN) return 'hand';
  if (snapForceN <= scale.malletN) return 'mallet';
  return snapForceN <= scale.pryN ? 'pry' : 'will not snap';
}
