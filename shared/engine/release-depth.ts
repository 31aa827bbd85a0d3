import { getPinned } from '../model/choice';
import { keepByPair } from '../model/memo';
import type { Part } from '../model/plan';
import type { EngineContext } from './context';
import { computeRibTarget, getSideCount, getWallAboveCut, getWidthAtCut } from './cutter';
import { type CutterReach, computeCutterReach, computeDepthPerSide } from './cutter-reach';
import type { CutterChoice, SectionSetup } from './setup';

/** How deep the cut-off goes into one part. */
export interface CutOffDepth {
  /** Width of the work where it is cut, at its widest, mm. */
  width: number;
  wallAbove: number;
  sides: 1 | 2;
  ribTarget: number;
  reach: CutterReach;
  /** Depth from each side, mm; capped by the reach. */
  depthPerSide: number;
}

const NO_REACH: CutterReach = { reach: 0, besideDiameter: 0, limitedBy: 'neck' };

/**
 * Depth of the cut-off into a part, by its width, the rib aimed at and the cutter's reach.
 *
 * @param keep what is left; between tabs it is cut right through
 */
export function computeCutOffDepth(
  context: EngineContext,
  setup: Pick<SectionSetup, 'cutter'>,
  part: Part,
  keep: 'rib' | 'tabs' = getPinned(context.plan.release.keep) ?? 'rib',
): CutOffDepth {
  const { tool } = setup.cutter;
  const sides = getSideCount(context.plan.release.sides);
  const ribTarget = keep === 'tabs' ? 0 : computeRibTarget(context).value;
  const width = getWidthAtCut(context, part);
  const wallAbove = getWallAboveCut(context, part);
  const reach =
    tool === null ? NO_REACH : computeCutterReach(tool, wallAbove, Math.max(0, context.rules.runningClearance));
  return {
    width,
    wallAbove,
    sides,
    ribTarget,
    reach,
    depthPerSide: computeDepthPerSide(width, ribTarget, sides, reach.reach),
  };
}

const computeDeepest = keepByPair((context: EngineContext, cutter: CutterChoice) =>
  Math.max(0, ...context.parts.map((part) => computeCutOffDepth(context, { cutter }, part).depthPerSide)),
);

/** Deepest cut-off over the parts of the plan, mm per side; 0 without parts. */
export function getDeepestCutOff(context: EngineContext, setup: Pick<SectionSetup, 'cutter'>): number {
  return computeDeepest(context, setup.cutter);
}
