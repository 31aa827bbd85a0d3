import type { Cut, Part } from '../model/plan';
import type { MetalGroup } from '../model/shop';
import type { EngineContext } from './context';
import { getPassDepth } from './cut-forces';
import { computeCutOffMinutes, computeSawMinutes } from './cut-off-time';
import { computeRibTarget } from './cutter';
import { getDecided } from './decide';
import type { Decided, Figure } from './figure';
import { type CutOffDepth, computeCutOffDepth } from './release-depth';
import type { CutForceResult, ReleaseResult } from './results';
import { computeRibResult, computeRibSnapForceN } from './rib';
import type { SectionSetup } from './setup';
import { COMMON_PRACTICE, GEOMETRY, getFigure, getInput, getTextInput } from './workings';

/**
 * How the pieces come off: the cutter's reach, the depth from each side, the rib or tabs of every part and what they
 * bear, and the time it takes beside sawing.
 */
export function computeRelease(
  context: EngineContext,
  setup: SectionSetup,
  cuts: readonly CutForceResult[],
): ReleaseResult {
  const keep = decideKeep(context, setup);
  const depths = context.parts.map((part) => ({ part, depth: computeCutOffDepth(context, setup, part, keep.value) }));
  const longest = context.parts.reduce<Part | undefined>(
    (found, part) => (found === undefined || part.length > found.length ? part : found),
    undefined,
  );
  return {
    cutterId: setup.cutter.id,
    clearance: setup.cutter.clearance,
    ribTarget: computeRibTarget(context),
    keep,
    reach: getReachFigure(context, setup, depths),
    depthPerSide: getDepthFigure(depths, keep.value),
    parts: context.parts.map((part) => computeRibResult(context, setup, part, keep.value, cuts)),
    cutOffMinutes: getCutOffFigure(context, setup, longest, cuts, keep.value),
    sawMinutes: getSawFigure(context, setup, longest),
  };
}

/**
 * A rib, unless it would not even be pried off and the cutter reaches far enough to cut right through between tabs.
 */
export function decideKeep(context: EngineContext, setup: Pick<SectionSetup, 'cutter'>): Decided<'rib' | 'tabs'> {
  const limit = context.rules.prySnapForce;
  const hardest = Math.max(0, ...context.parts.map((part) => computeRibSnapForceN(context, setup, part)));
  const throughSpare = Math.min(
    ...context.parts.map((part) => {
      const depth = computeCutOffDepth(context, setup, part);
      return depth.reach.reach - depth.width / depth.sides;
    }),
  );
  const isTabs = context.parts.length > 0 && hardest > limit && throughSpare >= 0;
  return getDecided<'rib' | 'tabs'>(context.plan.release.keep, isTabs ? 'tabs' : 'rib', {
    rule: isTabs
      ? 'A continuous rib would not break off, and the cutter reaches through: tabs'
      : 'A continuous rib holds the part all along',
    formula: 'tabs where snap force > most a pry bar breaks and reach >= width / sides',
    inputs: [
      getInput('snap force of a continuous rib', hardest, 'force'),
      getInput('most a pry bar breaks', limit, 'force'),
      getInput('reach beyond the middle', Number.isFinite(throughSpare) ? throughSpare : 0, 'length'),
    ],
    source: COMMON_PRACTICE,
  });
}

interface PartDepth {
  part: Part;
  depth: CutOffDepth;
}

function getReachFigure(context: EngineContext, setup: SectionSetup, depths: readonly PartDepth[]): Figure {
  const least = depths.reduce<PartDepth | undefined>(
    (found, one) => (found === undefined || one.depth.reach.reach < found.depth.reach.reach ? one : found),
    undefined,
  );
  const { tool } = setup.cutter;
  const limitedBy = least?.depth.reach.limitedBy ?? 'neck';
  return getFigure('length', least?.depth.reach.reach ?? 0, {
    rule:
      limitedBy === 'shank'
        ? 'Reach of the cutter beside the work; the neck is shorter than the wall above the slot, so the shank counts'
        : 'Reach of the cutter beside the work',
    formula: `reach = max(0, (D - ${limitedBy}) / 2 - running clearance)`,
    inputs: [
      getTextInput('cutter', tool?.name ?? 'none'),
      getInput('D', tool?.diameter ?? 0, 'length'),
      getInput(limitedBy, least?.depth.reach.besideDiameter ?? 0, 'length'),
      getInput('running clearance', context.rules.runningClearance, 'length'),
      getInput('wall above the slot', least?.depth.wallAbove ?? 0, 'length'),
    ],
    source: GEOMETRY,
  });
}

function getDepthFigure(depths: readonly PartDepth[], keep: 'rib' | 'tabs'): Figure {
  const deepest = depths.reduce<PartDepth | undefined>(
    (found, one) => (found === undefined || one.depth.depthPerSide > found.depth.depthPerSide ? one : found),
    undefined,
  );
  return getFigure('length', deepest?.depth.depthPerSide ?? 0, {
    rule: 'Depth from each side at the full width, no deeper than the cutter reaches',
    formula: 'depth = min(reach, max(0, width - rib) / sides)',
    inputs: [
      getTextInput('part', deepest?.part.name ?? ''),
      getInput('width', deepest?.depth.width ?? 0, 'length'),
      getInput('rib', deepest?.depth.ribTarget ?? 0, 'length'),
      getInput('sides', deepest?.depth.sides ?? 2, 'count'),
      getInput('reach', deepest?.depth.reach.reach ?? 0, 'length'),
      getTextInput('leaves', keep),
    ],
    source: GEOMETRY,
  });
}

/** The plan's cut-off with its force, or undefined when the order of work has none that can be made. */
function getCutOff(
  context: EngineContext,
  cuts: readonly CutForceResult[],
): { cut: Cut; force: CutForceResult } | undefined {
  for (const cut of context.plan.cuts) {
    const force = cuts.find((one) => one.cutId === cut.id);
    if (cut.kind === 'cutOff' && force?.feasible === true) return { cut, force };
  }
  return undefined;
}

function getCutOffFigure(
  context: EngineContext,
  setup: SectionSetup,
  part: Part | undefined,
  cuts: readonly CutForceResult[],
  keep: 'rib' | 'tabs',
): Figure {
  const made = getCutOff(context, cuts);
  const diameter = setup.cutter.tool?.diameter ?? 0;
  const depth = part === undefined ? undefined : computeCutOffDepth(context, setup, part, keep);
  const sides = depth?.sides ?? 2;
  const deep = depth?.depthPerSide ?? 0;
  const passDepth = made === undefined ? 0 : getPassDepth(made.cut, deep);
  const passes = passDepth > 0 ? Math.ceil(deep / passDepth - 1e-9) : 0;
  const path = part === undefined ? 0 : sides * (part.length + diameter);
  const feed = made?.force.feedMmPerMin ?? 0;
  return getFigure('time', passes > 0 ? computeCutOffMinutes(path, passes, feed) : 0, {
    rule: 'Time to mill the longest piece off: both sides, with run-in, in so many passes',
    formula: 't = passes × sides (L + D) / vf',
    inputs: [
      getTextInput('part', part?.name ?? ''),
      getInput('passes', passes, 'count'),
      getInput('sides', sides, 'count'),
      getInput('L', part?.length ?? 0, 'length'),
      getInput('D', diameter, 'length'),
      getInput('vf', feed, 'feed'),
      getInput('n', made?.force.spindleRpm ?? 0, 'spindleSpeed'),
      getTextInput('leaves', keep),
    ],
    source: GEOMETRY,
  });
}

/** Sawing rate over that in low-carbon steel. Typical of band saws, from memory: measure your own. */
const SAW_RATE_BY_METAL: Readonly<Record<MetalGroup, number>> = {
  lowCarbonSteel: 1,
  carbonSteel: 0.75,
  alloySteel: 0.6,
  stainless: 0.35,
  aluminium: 3,
  copperAlloy: 1,
  castIron: 0.8,
  titanium: 0.2,
};

function getSawFigure(context: EngineContext, setup: SectionSetup, part: Part | undefined): Figure {
  const width = part === undefined ? 0 : computeCutOffDepth(context, setup, part).width;
  const length = part?.length ?? 0;
  const share = context.material === null ? 1 : SAW_RATE_BY_METAL[context.material.metalGroup];
  const rate = Math.max(0, context.saw?.areaRateMm2PerMin ?? 0) * share;
  return getFigure('time', computeSawMinutes(length * width, rate), {
    rule: 'Time to saw the longest piece off along the same line, at the saw’s rate in low-carbon steel times the share the metal takes, without setting it up',
    formula: 't = L × width / (rate × metal)',
    inputs: [
      getInput('L', length, 'length'),
      getInput('width', width, 'length'),
      getTextInput('saw', context.saw?.name ?? 'none'),
      getInput('rate', context.saw?.areaRateMm2PerMin ?? 0, 'areaRate'),
      getInput('metal', share, 'ratio'),
    ],
    source: 'rate of the saw as entered; share by metal typical, from memory: measure your own',
  });
}
