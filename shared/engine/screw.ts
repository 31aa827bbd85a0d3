import type { ViseScrew } from '../model/shop';
import { getNonNegative } from './workings';

export const SCREW_SOURCE = 'Shigley, Mechanical Engineering Design, 9th ed., eq. 8-1, 8-2, 8-6 and Table 8-15';

/** Torques of a power screw, N·m. */
export interface ScrewTorque {
  /** To raise the load, that is to tighten, thread and collar together. */
  tightenNm: number;
  threadNm: number;
  collarNm: number;
  /** To lower the load, that is to loosen; negative thread torque would mean that the screw lets go by itself. */
  loosenNm: number;
  /** Work done on the load over work put in: `F l / (2π T)`. */
  efficiency: number;
}

/**
 * Torque on a power screw for an axial force: `T = (F dm/2)(l + π f dm sec α)/(π dm - f l sec α) + F fc dc / 2`.
 *
 * @param screw mean diameter and lead in mm over 0, half thread angle in degrees, coefficients of friction, collar diameter in mm
 * @param axialForceN F, N, 0 or more
 * @returns torques in N·m; all 0 for a screw that cannot be turned (friction × lead over π dm)
 */
export function computeScrewTorque(screw: ViseScrew, axialForceN: number): ScrewTorque {
  const perNewton = getTorquePerNewtonMm(screw);
  const force = getNonNegative(axialForceN);
  if (perNewton === null) return { tightenNm: 0, threadNm: 0, collarNm: 0, loosenNm: 0, efficiency: 0 };
  const tighten = perNewton.thread + perNewton.collar;
  return {
    tightenNm: (force * tighten) / 1000,
    threadNm: (force * perNewton.thread) / 1000,
    collarNm: (force * perNewton.collar) / 1000,
    loosenNm: (force * (perNewton.loosenThread + perNewton.collar)) / 1000,
    efficiency: screw.lead / (2 * Math.PI * tighten),
  };
}

/**
 * Axial force of a screw for a torque on its handle, by the full screw equation.
 *
 * @param screw see {@link computeScrewTorque}
 * @param torqueNm N·m, 0 or more
 * @returns N; 0 for a screw that cannot be turned
 */
export function computeScrewForceN(screw: ViseScrew, torqueNm: number): number {
  const perNewton = getTorquePerNewtonMm(screw);
  if (perNewton === null) return 0;
  return (getNonNegative(torqueNm) * 1000) / (perNewton.thread + perNewton.collar);
}

/**
 * Axial force by a nut factor: `F = T / (K d)`.
 *
 * @param torqueNm T, N·m
 * @param nutFactor K, over 0; 0.20 where nothing is known
 * @param nominalDiameter d, mm, over 0
 * @returns N; 0 for factors that cannot be used
 */
export function computeNutFactorForceN(torqueNm: number, nutFactor: number, nominalDiameter: number): number {
  return nutFactor > 0 && nominalDiameter > 0 ? (getNonNegative(torqueNm) * 1000) / (nutFactor * nominalDiameter) : 0;
}

/**
 * Nut factor K = T / (F d) that the full screw equation amounts to.
 *
 * @returns ratio; 0 for a screw that cannot be turned
 */
export function computeNutFactor(screw: ViseScrew): number {
  const perNewton = getTorquePerNewtonMm(screw);
  return perNewton === null || !(screw.nominalDiameter > 0)
    ? 0
    : (perNewton.thread + perNewton.collar) / screw.nominalDiameter;
}

/** Lead angle at the mean diameter, rad: `tan λ = l / (π dm)`. */
export function computeLeadAngle(screw: Pick<ViseScrew, 'lead' | 'meanDiameter'>): number {
  return screw.meanDiameter > 0 ? Math.atan(getNonNegative(screw.lead) / (Math.PI * screw.meanDiameter)) : 0;
}

/** N·mm of torque for each newton of axial force; null where the equation has no answer. */
function getTorquePerNewtonMm(screw: ViseScrew): { thread: number; collar: number; loosenThread: number } | null {
  const { meanDiameter, lead } = screw;
  const halfAngle = (screw.threadHalfAngleDeg * Math.PI) / 180;
  const friction = getNonNegative(screw.threadFriction) / Math.cos(halfAngle);
  const around = Math.PI * meanDiameter;
  const denominator = around - friction * lead;
  const usable = meanDiameter > 0 && lead > 0 && friction >= 0 && denominator > 0;
  if (!usable || !Number.isFinite(friction)) return null;
  return {
    thread: ((meanDiameter / 2) * (lead + friction * around)) / denominator,
    collar: (getNonNegative(screw.collarFriction) * getNonNegative(screw.collarMeanDiameter)) / 2,
    loosenThread: ((meanDiameter / 2) * (friction * around - lead)) / (around + friction * lead),
  };
}
