import type { CutOffCutter } from '../model/shop';
import { getNonNegative } from './workings';

/**
 * How deep a cut-off cutter reaches beside a wall: `(D - neck) / 2 - running clearance`, with the shank in place of the
 * neck where the neck is shorter than the wall above the slot. Geometry.
 *
 * @param diameter D, mm, measured
 * @param besideDiameter diameter of what runs beside the wall: neck, or shank, mm
 * @param runningClearance mm, 0 or more
 * @returns mm, 0 or more
 * @example computeReach(22.225, 9.525, 0.254) // 6.096
 */
export function computeReachBeside(diameter: number, besideDiameter: number, runningClearance: number): number {
  return Math.max(0, (diameter - besideDiameter) / 2 - runningClearance);
}

/**
 * Least cutter diameter that leaves a rib: `neck + 2 ((width - rib) / sides + running clearance)`.
 *
 * @param width of the work at the cut, mm
 * @param rib to be left, mm
 * @param sides 2 when it is cut from both sides, else 1
 */
export function computeDiameterNeeded(
  width: number,
  rib: number,
  sides: 1 | 2,
  neckDiameter: number,
  runningClearance: number,
): number {
  return neckDiameter + 2 * (Math.max(0, width - rib) / sides + runningClearance);
}

/**
 * Depth to cut from each side: `(width - rib) / sides`, no deeper than the reach.
 *
 * @returns mm, 0 or more
 */
export function computeDepthPerSide(width: number, rib: number, sides: 1 | 2, reach: number): number {
  return Math.min(getNonNegative(reach), Math.max(0, width - rib) / sides);
}

/** Rib left at full reach, mm: `width - sides × depth`; negative means that the cuts would meet. */
export function computeRibAtDepth(width: number, sides: 1 | 2, depthPerSide: number): number {
  return width - sides * depthPerSide;
}

/** Diameter and length of the narrow part above a cutter's head: the neck, or the flange of a saw on its arbor. */
export interface Neck {
  diameter: number;
  length: number;
  /** Diameter above it. */
  shankDiameter: number;
}

/** The neck of a cut-off cutter. */
export function getNeck(cutter: CutOffCutter): Neck {
  return cutter.kind === 'keySeat'
    ? { diameter: cutter.neckDiameter, length: cutter.neckLength, shankDiameter: cutter.shankDiameter }
    : { diameter: cutter.flangeDiameter, length: cutter.arborLength, shankDiameter: cutter.shankDiameter };
}

/** What a cutter reaches beside a wall, and what stops it there. */
export interface CutterReach {
  reach: number;
  besideDiameter: number;
  limitedBy: 'neck' | 'shank';
}

/**
 * Reach of a cutter beside a wall of a height.
 *
 * @param wallAbove height of the work above the slot, mm
 */
export function computeCutterReach(cutter: CutOffCutter, wallAbove: number, runningClearance: number): CutterReach {
  const neck = getNeck(cutter);
  const byShank = getNonNegative(neck.length) < wallAbove;
  const besideDiameter = byShank ? Math.max(neck.diameter, neck.shankDiameter) : neck.diameter;
  const limitedBy = byShank && neck.shankDiameter > neck.diameter ? 'shank' : 'neck';
  return {
    reach: computeReachBeside(cutter.diameter, besideDiameter, getNonNegative(runningClearance)),
    besideDiameter,
    limitedBy,
  };
}
