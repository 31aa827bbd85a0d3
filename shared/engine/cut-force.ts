import type { Cut, CutKind } from '../model/plan';
import type { Material, Tool } from '../model/shop';
import {
  computeEngagementAngle,
  computeFeedRate,
  computeLargestChip,
  computeLiftForce,
  computeMeanChip,
  computePeakTangentialForce,
  computePowerKw,
  computeSegmentArea,
  computeSideForce,
  computeSpecificForce,
  computeSpindleRpm,
  computeTeethEngaged,
  computeTorqueNm,
} from './cutting-force';
import { getNonNegative } from './workings';

/** Helix of the staggered teeth of a key-seat cutter or saw; one tooth at a time pulls by it. From memory, measure your own. */
const CUT_OFF_TOOTH_HELIX_DEG = 10;

/** Helix of a jobber drill; as the point breaks through, a lip can screw the work up it. From memory, usual range 25-35. */
const DRILL_HELIX_DEG = 30;

/** A cut with all that its force hangs on. Lengths mm. */
export interface CutSpec {
  kind: CutKind;
  tool: Tool;
  material: Pick<Material, 'kienzle'>;
  stepDown: number;
  sideEngagement: number;
  feedPerTooth: number;
  cuttingSpeedMPerMin: number;
  /** Radial over tangential force. */
  radialRatio: number;
}

/** Force, power and speed of one cut. */
export interface CutForce {
  feasible: boolean;
  engagementAngleRad: number;
  meanChip: number;
  largestChip: number;
  chipWidth: number;
  /** Section of metal the feed sweeps. */
  sweptAreaMm2: number;
  teethEngaged: number;
  specificForceMPa: number;
  tangentialForceN: number;
  sideForceN: number;
  /** Upward, never negative: a force down into the seat is not counted on. */
  liftForceN: number;
  helixDeg: number;
  powerKw: number;
  torqueNm: number;
  spindleRpm: number;
  feedMmPerMin: number;
}

/** The chip of one kind of cut. */
interface ChipShape {
  engagementAngleRad: number;
  teethEngaged: number;
  meanChip: number;
  largestChip: number;
  chipWidth: number;
  /** Section of metal the feed sweeps. */
  sweptAreaMm2: number;
  helixDeg: number;
}

type ShapeChip = (spec: CutSpec) => ChipShape;

/** Side milling, and a chamfer taken as a side cut of its own width and depth. */
const shapeSide: ShapeChip = (spec) => {
  const { tool } = spec;
  return getPeripheralChip(spec, spec.stepDown, spec.sideEngagement, tool.kind === 'endMill' ? tool.helixDeg : 0);
};

const CHIP_SHAPES: Readonly<Record<CutKind, ShapeChip>> = {
  side: shapeSide,
  chamfer: shapeSide,
  slot: (spec) => shapeSide({ ...spec, sideEngagement: spec.tool.diameter }),
  cutOff: (spec) => {
    const width = spec.tool.kind === 'keySeat' || spec.tool.kind === 'slittingSaw' ? spec.tool.width : spec.stepDown;
    return getPeripheralChip(spec, width, spec.sideEngagement, CUT_OFF_TOOTH_HELIX_DEG);
  },
  // Fed down beside the edge: the end teeth cut a chip as thick as the feed and as wide as the step-over.
  plunge: (spec) => {
    const { tool } = spec;
    const engaged = Math.min(getNonNegative(spec.sideEngagement), tool.diameter);
    const angle = 2 * computeEngagementAngle(engaged, tool.diameter);
    return {
      engagementAngleRad: angle,
      teethEngaged: computeTeethEngaged(tool.flutes, angle),
      meanChip: spec.feedPerTooth,
      largestChip: spec.feedPerTooth,
      chipWidth: spec.stepDown > 0 ? Math.min(engaged, tool.diameter / 2) : 0,
      sweptAreaMm2: computeSegmentArea(engaged, tool.diameter),
      helixDeg: 0,
    };
  },
  // One lip's force: the lips balance until one of them catches.
  drill: (spec) => {
    const { tool } = spec;
    const halfPoint = tool.kind === 'drill' ? (tool.pointAngleDeg * Math.PI) / 360 : Math.PI / 2;
    const chip = spec.feedPerTooth * Math.sin(halfPoint);
    return {
      engagementAngleRad: 2 * Math.PI,
      teethEngaged: 1,
      meanChip: chip,
      largestChip: chip,
      chipWidth: Math.sin(halfPoint) > 0 ? tool.diameter / 2 / Math.sin(halfPoint) : 0,
      sweptAreaMm2: (Math.PI * tool.diameter ** 2) / 4,
      helixDeg: DRILL_HELIX_DEG,
    };
  },
};

/**
 * Force of one cut by Kienzle: chip, specific force with the tool's wear, peak tangential force, side force, lift,
 * power and torque.
 *
 * @param spec the cut; what cannot be cut (no engagement, no feed, no speed) gives `feasible` false and zero forces
 */
export function computeCutForce(spec: CutSpec): CutForce {
  const { tool, material } = spec;
  const shape = CHIP_SHAPES[spec.kind](clean(spec));
  const factor = getNonNegative(tool.wearFactor) * getNonNegative(tool.coatingFactor);
  const specificForceMPa = computeSpecificForce(material.kienzle.kc11MPa, material.kienzle.mc, shape.meanChip, factor);
  const tangentialForceN = computePeakTangentialForce(
    specificForceMPa,
    shape.chipWidth,
    shape.largestChip,
    shape.teethEngaged,
  );
  const spindleRpm = computeSpindleRpm(spec.cuttingSpeedMPerMin, tool.diameter);
  const feedMmPerMin = computeFeedRate(spindleRpm, spec.feedPerTooth, tool.flutes);
  const powerKw = computePowerKw(shape.sweptAreaMm2, feedMmPerMin, specificForceMPa);
  const cut: CutForce = {
    feasible: tangentialForceN > 0 && spindleRpm > 0,
    engagementAngleRad: shape.engagementAngleRad,
    meanChip: shape.meanChip,
    largestChip: shape.largestChip,
    chipWidth: shape.chipWidth,
    sweptAreaMm2: shape.sweptAreaMm2,
    teethEngaged: shape.teethEngaged,
    specificForceMPa,
    tangentialForceN,
    sideForceN: computeSideForce(tangentialForceN, spec.radialRatio),
    liftForceN: computeLiftForce(tangentialForceN, shape.helixDeg),
    helixDeg: shape.helixDeg,
    powerKw,
    torqueNm: computeTorqueNm(powerKw, spindleRpm),
    spindleRpm,
    feedMmPerMin,
  };
  return Object.values(cut).every((value) => typeof value === 'boolean' || Number.isFinite(value)) ? cut : NO_FORCE;
}

/** What a plan's cut asks of one pass. */
export function getCutSizes(
  cut: Cut,
): Pick<CutSpec, 'kind' | 'stepDown' | 'sideEngagement' | 'feedPerTooth' | 'cuttingSpeedMPerMin'> {
  const { kind, stepDown, sideEngagement, feedPerTooth, cuttingSpeedMPerMin } = cut;
  return { kind, stepDown, sideEngagement, feedPerTooth, cuttingSpeedMPerMin };
}

/** A cut that cannot be made: no force is known. */
export const NO_FORCE: CutForce = {
  feasible: false,
  engagementAngleRad: 0,
  meanChip: 0,
  largestChip: 0,
  chipWidth: 0,
  sweptAreaMm2: 0,
  teethEngaged: 0,
  specificForceMPa: 0,
  tangentialForceN: 0,
  sideForceN: 0,
  liftForceN: 0,
  helixDeg: 0,
  powerKw: 0,
  torqueNm: 0,
  spindleRpm: 0,
  feedMmPerMin: 0,
};

function getPeripheralChip(spec: CutSpec, chipWidth: number, sideEngagement: number, helixDeg: number): ChipShape {
  const { diameter, flutes } = spec.tool;
  const engaged = Math.min(getNonNegative(sideEngagement), diameter);
  const engagementAngleRad = computeEngagementAngle(engaged, diameter);
  return {
    engagementAngleRad,
    teethEngaged: computeTeethEngaged(flutes, engagementAngleRad),
    meanChip: computeMeanChip(spec.feedPerTooth, engaged, diameter),
    largestChip: computeLargestChip(spec.feedPerTooth, engagementAngleRad),
    chipWidth,
    sweptAreaMm2: chipWidth * engaged,
    helixDeg,
  };
}

function clean(spec: CutSpec): CutSpec {
  return {
    ...spec,
    stepDown: getNonNegative(spec.stepDown),
    sideEngagement: getNonNegative(spec.sideEngagement),
    feedPerTooth: getNonNegative(spec.feedPerTooth),
  };
}
