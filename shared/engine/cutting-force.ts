import { getNonNegative } from './workings';

/**
 * Kienzle cutting force. Sources of the formulas: Tschätsch, Praxis der Zerspanungstechnik, 11th ed. 2014 (milling);
 * El-Hofy, Fundamentals of Machining Processes (engagement angle). The constants kc1.1 and mc come in families that
 * differ by 40-60 %, so every result must name the family of its constants.
 */
export const KIENZLE_SOURCE =
  'Tschätsch, Praxis der Zerspanungstechnik, 11th ed. 2014; El-Hofy, Fundamentals of Machining Processes';

/**
 * Angle over which a tooth of a milling cutter is in the work: `cos φ = 1 - 2 ae / D`.
 *
 * @param sideEngagement radial width of cut ae, mm; 0 to D, clipped to it
 * @param diameter cutter diameter D, mm, over 0
 * @returns angle in rad, 0 (no cut) to π (slot)
 * @example computeEngagementAngle(5, 20) // 1.0472, 60°
 */
export function computeEngagementAngle(sideEngagement: number, diameter: number): number {
  if (!(diameter > 0)) return 0;
  const engaged = Math.min(getNonNegative(sideEngagement), diameter);
  return Math.acos(1 - (2 * engaged) / diameter);
}

/**
 * Mean chip thickness of side milling: `hm = 2 fz ae sin κ / (D φ)`, exact for a circular tooth path.
 *
 * @param feedPerTooth fz, mm, 0 or more
 * @param sideEngagement ae, mm; 0 to D, clipped to it
 * @param diameter D, mm, over 0
 * @param cuttingEdgeAngleRad κ, rad; π/2 for a square shoulder. The textbook takes 90° less the helix
 * @returns mm; 0 when nothing is cut
 * @example computeMeanChip(0.08, 5, 20) // 0.0381972
 */
export function computeMeanChip(
  feedPerTooth: number,
  sideEngagement: number,
  diameter: number,
  cuttingEdgeAngleRad: number = Math.PI / 2,
): number {
  const angle = computeEngagementAngle(sideEngagement, diameter);
  if (angle === 0) return 0;
  const engaged = Math.min(sideEngagement, diameter);
  return (2 * getNonNegative(feedPerTooth) * engaged * Math.sin(cuttingEdgeAngleRad)) / (diameter * angle);
}

/**
 * Thickest chip of side milling: `fz sin φ`, and `fz` past half engagement.
 *
 * @param feedPerTooth fz, mm, 0 or more
 * @param engagementAngleRad φ, rad, 0 to π
 * @returns mm
 * @example computeLargestChip(0.1, Math.PI / 3) // 0.0866025
 */
export function computeLargestChip(feedPerTooth: number, engagementAngleRad: number): number {
  const feed = getNonNegative(feedPerTooth);
  return engagementAngleRad >= Math.PI / 2 ? feed : feed * Math.sin(Math.max(0, engagementAngleRad));
}

/**
 * Specific cutting force: `kc = kc1.1 h^-mc × factor` (Kienzle).
 *
 * @param kc11MPa force at 1 mm × 1 mm chip, N/mm², over 0
 * @param mc exponent, 0 to 1
 * @param chip chip thickness h, mm; below 1 µm the law is not valid and h is held there
 * @param factor product of the corrections that apply (wear, coating, rake, speed); 1 for none
 * @returns N/mm²; 0 for constants that cannot be used
 * @example computeSpecificForce(1500, 0.22, 0.0381972) // 3076.4
 */
export function computeSpecificForce(kc11MPa: number, mc: number, chip: number, factor = 1): number {
  const usable = kc11MPa > 0 && mc >= 0 && mc <= 1 && Number.isFinite(kc11MPa);
  if (!usable || !(chip > 0)) return 0;
  return kc11MPa * Math.max(chip, LEAST_CHIP) ** -mc * getNonNegative(factor);
}

/** Below this chip thickness an edge rubs more than it cuts; the Kienzle law has no meaning there. From memory. */
const LEAST_CHIP = 0.001;

/**
 * Teeth in the cut at one time, on average: `z φ / 2π`.
 *
 * @param flutes number of teeth z, 1 or more
 * @param engagementAngleRad φ, rad
 */
export function computeTeethEngaged(flutes: number, engagementAngleRad: number): number {
  return (getNonNegative(flutes) * getNonNegative(engagementAngleRad)) / (2 * Math.PI);
}

/**
 * Peak tangential force on the cutter: `Ft = kc ap hmax max(1, teeth engaged)`.
 *
 * @param specificForceMPa kc, N/mm²
 * @param chipWidth axial width of the chip ap, mm
 * @param largestChip hmax, mm
 * @param teethEngaged teeth in the cut on average; one tooth at least is always counted
 * @returns N
 */
export function computePeakTangentialForce(
  specificForceMPa: number,
  chipWidth: number,
  largestChip: number,
  teethEngaged: number,
): number {
  return specificForceMPa * getNonNegative(chipWidth) * largestChip * Math.max(1, teethEngaged);
}

/**
 * Resultant in the plane of the table: `F = Ft √(1 + ρ²)`.
 *
 * @param tangentialForceN Ft, N
 * @param radialRatio ρ, radial over tangential force, 0 to 2
 * @returns N
 */
export function computeSideForce(tangentialForceN: number, radialRatio: number): number {
  return tangentialForceN * Math.hypot(1, getNonNegative(radialRatio));
}

/**
 * Upward pull of a right-hand helix on the work: `Fz = Ft tan β`.
 *
 * @param tangentialForceN Ft, N
 * @param helixDeg β, degrees, 0 to 60; clipped to it
 * @returns N
 */
export function computeLiftForce(tangentialForceN: number, helixDeg: number): number {
  const helix = Math.min(60, getNonNegative(helixDeg));
  return tangentialForceN * Math.tan((helix * Math.PI) / 180);
}

/**
 * Spindle speed: `n = 1000 vc / (π D)`.
 *
 * @param cuttingSpeedMPerMin vc, m/min
 * @param diameter D, mm
 * @returns rpm; 0 without a diameter
 * @example computeSpindleRpm(120, 20) // 1909.86
 */
export function computeSpindleRpm(cuttingSpeedMPerMin: number, diameter: number): number {
  return diameter > 0 ? (1000 * getNonNegative(cuttingSpeedMPerMin)) / (Math.PI * diameter) : 0;
}

/** Feed rate `vf = n fz z`, mm/min. */
export function computeFeedRate(spindleRpm: number, feedPerTooth: number, flutes: number): number {
  return spindleRpm * getNonNegative(feedPerTooth) * getNonNegative(flutes);
}

/**
 * Mean cutting power: `P = A vf kc / 60e6`, A the section of metal the feed sweeps (ap × ae for milling).
 *
 * @param sweptAreaMm2 mm²
 * @param feedMmPerMin vf, mm/min
 * @param specificForceMPa kc, N/mm²
 * @returns kW at the spindle, without losses
 */
export function computePowerKw(sweptAreaMm2: number, feedMmPerMin: number, specificForceMPa: number): number {
  return (sweptAreaMm2 * feedMmPerMin * specificForceMPa) / 60e6;
}

/** Torque at the spindle: `M = 30000 P / (π n)`, N·m for P in kW and n in rpm; 0 at standstill. */
export function computeTorqueNm(powerKw: number, spindleRpm: number): number {
  return spindleRpm > 0 ? (30000 * powerKw) / (Math.PI * spindleRpm) : 0;
}

/**
 * Section of metal a round tool takes from an edge it plunges along: the segment of a circle of diameter D cut off by
 * a straight edge at the depth ae. Geometry.
 *
 * @param sideEngagement ae, mm; 0 to D, clipped to it
 * @param diameter D, mm
 * @returns mm²
 * @example computeSegmentArea(20, 20) // 314.159, the whole circle
 */
export function computeSegmentArea(sideEngagement: number, diameter: number): number {
  const half = computeEngagementAngle(sideEngagement, diameter);
  return (diameter / 2) ** 2 * (half - Math.sin(half) * Math.cos(half));
}
