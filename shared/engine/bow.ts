import { getFinite, getNonNegative } from './workings';

/**
 * Bow of a part when it is released, scaled from one that was seen: `δ = k L² / h`, `k = δref href / Lref²`.
 * For a uniform curve bow goes with L² (beam geometry); with depth as layer removal does (Treuting and Read).
 */
export const BOW_SOURCE = 'beam geometry: constant curvature, bow = κ L² / 8; curvature by layer removal goes with 1/h';

/** A bow seen on a part of a known length and height, mm. */
export interface BowReference {
  bow: number;
  length: number;
  height: number;
}

/**
 * The constant k of `δ = k L² / h`.
 *
 * @returns dimensionless (mm of bow × mm of height over mm² of length); 0 for a reference without a size
 */
export function computeBowConstant(reference: BowReference): number {
  const { bow, length, height } = reference;
  return length > 0 ? getFinite((getNonNegative(bow) * getNonNegative(height)) / length ** 2) : 0;
}

/**
 * Bow of a part by the constant k.
 *
 * @param bowConstant k of {@link computeBowConstant}
 * @param length L, mm
 * @param height depth of the part in the direction it bows, mm, over 0
 * @returns mm; 0 without a height
 */
export function computeReleaseBow(bowConstant: number, length: number, height: number): number {
  return height > 0 ? getFinite((getNonNegative(bowConstant) * getNonNegative(length) ** 2) / height) : 0;
}

/** Height of an arc of constant curvature over a length: `κ L² / 8`, mm, for κ in 1/mm. */
export function computeCurvatureBow(curvaturePerMm: number, length: number): number {
  return (curvaturePerMm * length ** 2) / 8;
}

/**
 * Curvature left when a layer under uniform stress is taken off one face: `κ = 6 σ a h0 / (E h1³)`, `h1 = h0 - a`.
 * Derived from equilibrium of the remaining section; the thin limit is Stoney's.
 *
 * @param stressMPa σ in the removed layer, N/mm²
 * @param layer a, mm, less than `height`
 * @param height h0 before removal, mm
 * @returns 1/mm; 0 where nothing is left
 */
export function computeLayerCurvature(
  stressMPa: number,
  layer: number,
  height: number,
  youngsModulusMPa: number,
): number {
  const left = height - layer;
  return left > 0 && youngsModulusMPa > 0 ? (6 * stressMPa * layer * height) / (youngsModulusMPa * left ** 3) : 0;
}

/**
 * A cold-rolled flat 6.35 × 38.1 mm, milled on one face to 5.59 mm, curled 1.27 mm over 152.4 mm once let go. One
 * measured report of a machinist; a guess for anything else. The height is what was left.
 */
export const ONE_SIDED_REFERENCE: BowReference = { bow: 1.27, length: 152.4, height: 5.59 };
