import { getFactor, getNonNegative } from './workings';

/**
 * Slip and tip of a bar in a vise. Simple statics; friction on two faces, clamp force as entered or by the screw.
 * A planner's estimate, not a guarantee of holding.
 */
export const GRIP_SOURCE = 'statics: friction on two jaw faces, rigid-block pressure on one';

/** What holds a blank against one cut. */
export interface GripState {
  /** Clamp force of the vises that touch the blank, scatter taken off, N. */
  clampForceN: number;
  /** Coefficient of friction between jaw and bar. */
  friction: number;
  /** Height of the band the jaws grip on flat metal, mm. */
  flatGrip: number;
  /** True when both jaw faces may be counted as rigid against tipping. */
  bothFaces: boolean;
}

/** What one cut puts on a blank. */
export interface GripLoad {
  sideForceN: number;
  /** Upward, N; a downward force counts as 0. */
  liftForceN: number;
  /** Height of the load above the jaw tops, mm. */
  loadHeight: number;
}

/**
 * Factor against slipping, the side force along the jaws: `2 μ N / √(F² + Fz²)`.
 *
 * @returns 0 to 1000
 */
export function computeSlipFactor(grip: GripState, load: GripLoad): number {
  const holding = 2 * getNonNegative(grip.friction) * getNonNegative(grip.clampForceN);
  return getFactor(holding, Math.hypot(load.sideForceN, getNonNegative(load.liftForceN)));
}

/**
 * Factor against being pulled up, the side force straight away from the fixed jaw, which takes that much off the force
 * on one face: `s Fz = μ (2 N - s F)`, so `s = 2 μ N / (Fz + μ F)`.
 *
 * @returns 0 to 1000; the largest where the cut does not lift
 */
export function computeLiftFactor(grip: GripState, load: GripLoad): number {
  const lift = getNonNegative(load.liftForceN);
  const friction = getNonNegative(grip.friction);
  return lift === 0
    ? getFactor(1, 0)
    : getFactor(2 * friction * getNonNegative(grip.clampForceN), lift + friction * load.sideForceN);
}

/** Tipping moment about the middle of the gripped band, N·mm: `F (z + g/2)`. */
export function computeTipMomentNmm(grip: GripState, load: GripLoad): number {
  return load.sideForceN * (getNonNegative(load.loadHeight) + getNonNegative(grip.flatGrip) / 2);
}

/** Moment at which the grip begins to open at the lower edge, N·mm: `N g / 6`, doubled when both faces count. */
export function computeOpeningMomentNmm(grip: GripState): number {
  return (getFaceCount(grip) * getNonNegative(grip.clampForceN) * getNonNegative(grip.flatGrip)) / 6;
}

/** Moment at which the bar rolls out of the jaws, N·mm: `N g / 2`, doubled when both faces count. */
export function computeRollOutMomentNmm(grip: GripState): number {
  return (getFaceCount(grip) * getNonNegative(grip.clampForceN) * getNonNegative(grip.flatGrip)) / 2;
}

/** Factor against rolling out of the jaws, 0 to 1000. */
export function computeTipFactor(grip: GripState, load: GripLoad): number {
  return getFactor(computeRollOutMomentNmm(grip), computeTipMomentNmm(grip, load));
}

/**
 * Clamp force that holds a side force with a factor: `C = S F / (2 μ)`, on two faces.
 *
 * @returns N; 0 without friction, where no force would hold
 */
export function computeClampForceNeededN(factor: number, sideForceN: number, friction: number): number {
  return friction > 0 ? (factor * sideForceN) / (2 * friction) : 0;
}

/** Mean pressure of one jaw on the bar, N/mm²: clamp force of one vise over its contact length × flat grip. */
export function computeJawPressureMPa(clampForceN: number, contactLength: number, flatGrip: number): number {
  const areaMm2 = getNonNegative(contactLength) * getNonNegative(flatGrip);
  return areaMm2 > 0 ? getNonNegative(clampForceN) / areaMm2 : 0;
}

function getFaceCount(grip: GripState): number {
  return grip.bothFaces ? 2 : 1;
}
