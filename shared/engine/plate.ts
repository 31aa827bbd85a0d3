import { computeBeamDeflection } from './beam';
import { getNonNegative } from './workings';

/** A wall clamped along its foot and loaded across its face near the top, lengths in mm. */
export interface Wall {
  /** Height of the load above the foot. */
  loadHeight: number;
  thickness: number;
  /** Length of the wall along its foot. */
  length: number;
  /** Distance of the load from the nearer end of the wall, 0 or more. */
  loadFromEnd: number;
}

/**
 * Length of wall that carries a point load: the load spreads at 45° to each side on its way to the foot, as far as the
 * wall goes. Common practice, no source. Against a series solution of the plate equation the deflection it gives is 13 % low to
 * 15 % high in the middle of a wall, and 6 to 26 % low at its end; for a load below the top edge it errs high.
 *
 * @returns mm
 */
export function computeCarryingLength(wall: Omit<Wall, 'thickness'>): number {
  const height = getNonNegative(wall.loadHeight);
  const length = getNonNegative(wall.length);
  const near = Math.min(getNonNegative(wall.loadFromEnd), length / 2);
  return Math.min(height, near) + Math.min(height, length - near);
}

/** Thickness of a wall along its foot, linear between points; a step has two points at one length. Lengths mm. */
export interface WallPoint {
  x: number;
  thickness: number;
}

/**
 * Second moment of the stretch of a wall that carries a load: `I = Σ T³ dx / 12` over its changing thickness.
 *
 * @param points ascending in x
 * @param from where the stretch begins
 * @param to where it ends
 * @returns mm⁴; exact for thickness linear between points
 */
export function computeWallSecondMoment(points: readonly WallPoint[], from: number, to: number): number {
  let sum = 0;
  let start = points[0];
  for (let index = 1; index < points.length && start !== undefined; index += 1) {
    const end = points[index];
    if (end === undefined) break;
    const low = Math.max(from, start.x);
    const high = Math.min(to, end.x);
    if (end.x > start.x && high > low) {
      const a = getThickness(start, end, low);
      const b = getThickness(start, end, high);
      sum += ((high - low) * (a + b) * (a ** 2 + b ** 2)) / 4;
    }
    start = end;
  }
  return sum / 12;
}

function getThickness(start: WallPoint, end: WallPoint, x: number): number {
  return getNonNegative(start.thickness + ((end.thickness - start.thickness) * (x - start.x)) / (end.x - start.x));
}

/** A wall of changing thickness, loaded across its face at one place, lengths in mm. */
export interface ShapedWall {
  /** Ascending in x; the wall ends at the first and the last. */
  points: readonly WallPoint[];
  /** Place of the load along the wall. */
  x: number;
  /** Height of the load above the foot. */
  loadHeight: number;
}

/** How far a wall bends, and what carries it. */
export interface WallBend {
  deflection: number;
  carrying: number;
  secondMomentMm4: number;
}

/**
 * Deflection of a proud wall under a force across it, as a cantilever of the carrying length: `F z³ / (3 E I)`,
 * `I = Σ T³ dx / 12`. An estimate; see {@link computeCarryingLength} for how far it is off.
 *
 * @param forceN F, N
 * @param youngsModulusMPa E, N/mm²
 * @returns mm and mm⁴; a deflection of 0 for a wall that has no height
 */
export function computeShapedWallBend(forceN: number, youngsModulusMPa: number, wall: ShapedWall): WallBend {
  const { points, x, loadHeight } = wall;
  const left = points[0]?.x ?? 0;
  const right = points.at(-1)?.x ?? 0;
  const loadFromEnd = Math.min(x - left, right - x);
  const carrying = computeCarryingLength({ loadHeight, length: right - left, loadFromEnd });
  const secondMomentMm4 = computeWallSecondMoment(points, x - loadHeight, x + loadHeight);
  const deflection = computeBeamDeflection('cantileverEnd', forceN, loadHeight, { youngsModulusMPa, secondMomentMm4 });
  return { deflection, carrying, secondMomentMm4 };
}

/**
 * The same for a wall of one thickness: `I = b T³ / 12`.
 *
 * @param wall see {@link Wall}
 * @returns mm; 0 for a wall that has no height
 */
export function computeWallDeflection(forceN: number, youngsModulusMPa: number, wall: Wall): number {
  const { thickness, length, loadFromEnd, loadHeight } = wall;
  const points = [
    { x: 0, thickness },
    { x: length, thickness },
  ];
  return computeShapedWallBend(forceN, youngsModulusMPa, { points, x: loadFromEnd, loadHeight }).deflection;
}
