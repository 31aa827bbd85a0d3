import type { Cut } from '../model/plan';
import type { Tool } from '../model/shop';
import type { EngineContext } from './context';
import { type CutForce, type CutSpec, computeCutForce, getCutSizes, NO_FORCE } from './cut-force';
import { KIENZLE_SOURCE } from './cutting-force';
import type { Figure, WhyInput } from './figure';
import { getDeepestCutOff } from './release-depth';
import type { CutForceResult } from './results';
import type { SectionSetup, Setup } from './setup';
import { getFigure, getInput, getTextInput } from './workings';

/**
 * Forces of every cut of the plan, in its order. A cut whose tool is missing or that cuts nothing is there with
 * `feasible` false and zero forces.
 */
export function computeCutForces(context: EngineContext, setup: Setup): CutForceResult[] {
  const deepest = getDeepestCutOff(context, setup);
  return context.plan.cuts.map((cut) => {
    const spec = getCutSpec(context, setup, cut, deepest);
    const force = spec === null ? NO_FORCE : computeCutForce(spec);
    const loadHeights = setup.blanks.map((blank) => computeLoadHeight(cut, setup.cutter.kerf, blank.stack));
    return getResult(context, cut, spec, force, Math.max(0, ...loadHeights));
  });
}

/**
 * A cut as the force formulas take it; null when its tool or the material is missing.
 *
 * @param deepestCutOff depth the cut-off goes to from each side, mm: a pass never cuts deeper than that
 */
export function getCutSpec(
  context: EngineContext,
  setup: Pick<SectionSetup, 'cutter'>,
  cut: Cut,
  deepestCutOff: number,
): CutSpec | null {
  const tool = getCutTool(context, setup, cut);
  if (tool === null || context.material === null) return null;
  const sizes = getCutSizes(cut);
  const engaged = cut.kind === 'cutOff' ? getPassDepth(cut, deepestCutOff) : sizes.sideEngagement;
  return {
    ...sizes,
    sideEngagement: engaged,
    tool,
    material: context.material,
    radialRatio: context.rules.radialForceRatio,
  };
}

/** Tool of a cut: its own, or for a cut-off without one the release cutter; null when it cannot be found. */
export function getCutTool(context: EngineContext, setup: Pick<SectionSetup, 'cutter'>, cut: Cut): Tool | null {
  if (cut.kind === 'cutOff' && cut.toolId === '') return setup.cutter.tool;
  return context.toolById.get(cut.toolId) ?? null;
}

/** Radial depth of one pass of the cut-off: what the plan asks, no more than the whole depth; the whole when it asks nothing. */
export function getPassDepth(cut: Cut, depthPerSide: number): number {
  return cut.sideEngagement > 0 ? Math.min(cut.sideEngagement, depthPerSide) : depthPerSide;
}

/**
 * Height above the jaw tops at which a cut pushes on a blank, where it is worst: half a step-down below the top, for the
 * cut-off the middle of its slot, for a tool that is fed down the top itself, where it starts.
 *
 * @returns mm, 0 or more
 */
export function computeLoadHeight(
  cut: Pick<Cut, 'kind' | 'stepDown'>,
  kerf: number,
  stack: { clearance: number; proudHeight: { nominal: number } },
): number {
  if (cut.kind === 'cutOff') return Math.max(0, stack.clearance + kerf / 2);
  const isFedDown = cut.kind === 'drill' || cut.kind === 'plunge';
  const depth = isFedDown ? 0 : Math.max(0, cut.stepDown);
  return Math.max(0, stack.proudHeight.nominal - depth / 2);
}

function getResult(
  context: EngineContext,
  cut: Cut,
  spec: CutSpec | null,
  force: CutForce,
  loadHeight: number,
): CutForceResult {
  return {
    cutId: cut.id,
    name: cut.name,
    kind: cut.kind,
    toolId: spec?.tool.id ?? cut.toolId,
    feasible: force.feasible,
    engagementAngleRad: force.engagementAngleRad,
    meanChip: force.meanChip,
    specificForceMPa: force.specificForceMPa,
    tangentialForceN: force.tangentialForceN,
    sideForceN: getSideForceFigure(context, spec, force),
    liftForceN: force.liftForceN,
    powerKw: getPowerFigure(spec, force),
    torqueNm: force.torqueNm,
    spindleRpm: force.spindleRpm,
    feedMmPerMin: force.feedMmPerMin,
    loadHeight,
  };
}

/** Names of the families of Kienzle constants, as printed beside every force. */
export const KIENZLE_FAMILY_NAMES = {
  vdi3323: 'constants by VDI 3323 group',
  germanTextbook: 'constants of the German textbooks',
} as const;

function getSideForceFigure(context: EngineContext, spec: CutSpec | null, force: CutForce): Figure {
  const kienzle = context.material?.kienzle;
  const family = kienzle === undefined ? 'no material' : KIENZLE_FAMILY_NAMES[kienzle.family];
  return getFigure('force', force.sideForceN, {
    rule: `Side force of the cut by Kienzle, ${family}; the two families differ by 40-60 %, so this is an estimate`,
    formula: 'F = kc b hmax max(1, teeth) √(1 + ρ²), kc = kc1.1 (hm / 1 mm)^-mc wear, lift Fz = Ft tan β',
    inputs: spec === null ? [] : getForceInputs(spec, force),
    source: kienzle === undefined ? KIENZLE_SOURCE : `${KIENZLE_SOURCE}; ${kienzle.source}`,
  });
}

function getForceInputs(spec: CutSpec, force: CutForce): WhyInput[] {
  const { kienzle } = spec.material;
  return [
    getTextInput('tool', spec.tool.name),
    getInput('D', spec.tool.diameter, 'length'),
    getInput('ae', spec.sideEngagement, 'length'),
    getInput('fz', spec.feedPerTooth, 'length'),
    getInput('φ', force.engagementAngleRad, 'angle'),
    getInput('hm', force.meanChip, 'length'),
    getInput('hmax', force.largestChip, 'length'),
    getInput('b', force.chipWidth, 'length'),
    getInput('teeth', force.teethEngaged, 'ratio'),
    getInput('kc1.1', kienzle.kc11MPa, 'stress'),
    getInput('mc', kienzle.mc, 'ratio'),
    getInput('wear', spec.tool.wearFactor * spec.tool.coatingFactor, 'ratio'),
    getInput('kc', force.specificForceMPa, 'stress'),
    getInput('Ft', force.tangentialForceN, 'force'),
    getInput('ρ', spec.radialRatio, 'ratio'),
    getInput('β', (force.helixDeg * Math.PI) / 180, 'angle'),
    getInput('Fz', force.liftForceN, 'force'),
  ];
}

function getPowerFigure(spec: CutSpec | null, force: CutForce): Figure {
  return getFigure('power', force.powerKw, {
    rule: 'Power at the spindle, without losses',
    formula: 'P = A vf kc, M = P / (2 π n)',
    inputs: [
      getInput('A', force.sweptAreaMm2, 'area'),
      getInput('vf', force.feedMmPerMin, 'feed'),
      getInput('n', force.spindleRpm, 'spindleSpeed'),
      getInput('kc', force.specificForceMPa, 'stress'),
      getInput('M', force.torqueNm, 'torque'),
      ...(spec === null ? [] : [getInput('vc asked', spec.cuttingSpeedMPerMin, 'speed')]),
    ],
    source: KIENZLE_SOURCE,
  });
}
