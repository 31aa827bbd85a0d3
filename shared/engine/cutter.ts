import { getPinned } from '../model/choice';
import { keepByPair } from '../model/memo';
import type { Part, Release } from '../model/plan';
import type { CutOffCutter } from '../model/shop';
import { type EngineContext, getAllowance, isSize } from './context';
import { computeCutterReach, getNeck } from './cutter-reach';
import { getDecided, getLengthInput } from './decide';
import type { Decided, WhyInput } from './figure';
import type { CutterChoice } from './setup';
import { getLeastStickOut, getMostStickOut } from './tool-length';
import { getWidestWidth } from './width-profile';
import { COMMON_PRACTICE, GEOMETRY, getInput, getTextInput } from './workings';

/** Sides a piece is cut off from. */
export function getSideCount(sides: Release['sides']): 1 | 2 {
  return sides === 'both' ? 2 : 1;
}

/** Rib aimed at: pinned by the plan, else the shop's rule, mm. */
export function computeRibTarget(context: EngineContext): Decided<number> {
  return getDecided(context.plan.release.ribTarget, context.rules.ribTarget, {
    rule: 'Rib aimed at, by the shop’s rule',
    formula: 'rib = rule',
    inputs: [getLengthInput('rule', context.rules.ribTarget)],
    source: COMMON_PRACTICE,
  });
}

/** Width of the work where it is cut off, at the part's widest, with what the sides still carry, mm. */
export const getWidthAtCut = keepByPair((context: EngineContext, part: Part): number => {
  const allowance = getAllowance(context, part);
  return getWidestWidth(part) + allowance.fixedSide + allowance.movingSide;
});

/** Height of the work beside the cutter's neck, from the slot up, mm. */
export function getWallAboveCut(context: EngineContext, part: Part): number {
  const allowance = getAllowance(context, part);
  return allowance.bottom + part.height + allowance.top;
}

interface CutterOffer {
  cutter: CutOffCutter;
  /** Least reach over the parts less the depth they ask: negative when it is too short by so much. */
  spare: number;
  /** 0 is best. */
  rank: number;
}

/**
 * The cut-off cutter: of those the shop has, the narrowest that reaches deep enough on every part to leave the rib
 * aimed at and is long enough to stand clear of it; among equals the smallest. Key-seat cutters come before slitting
 * saws, whose arbor screw stands below the saw and over the jaws. Where none reaches, the one that comes nearest. A
 * pinned cutter that the shop does not have is left out of account.
 */
export function computeCutter(context: EngineContext): CutterChoice {
  const needs = getNeeds(context);
  const offers = context.cutOffCutters
    .filter((cutter) => isSize(cutter.diameter) && isSize(cutter.width))
    .map((cutter) => getOffer(context, cutter, needs));
  const best = offers.reduce<CutterOffer | undefined>(prefer, undefined);
  const auto = best?.cutter ?? null;

  const pinnedId = getPinned(context.plan.release.cutterId);
  const pinned = offers.find((offer) => offer.cutter.id === pinnedId)?.cutter ?? null;
  const tool = pinned ?? auto;
  return {
    tool,
    id: {
      value: tool?.id ?? '',
      pinned: pinned !== null,
      auto: auto?.id ?? '',
      why: {
        rule: best === undefined ? 'The shop has no cutter that can part a piece off' : (RANK_WORDS[best.rank] ?? ''),
        formula: 'reach = (D - neck)/2 - running clearance >= (width - rib)/sides',
        inputs: getWhyInputs(context, best, offers),
        source: GEOMETRY,
      },
    },
    clearance: decideClearance(context, tool),
    kerf: tool?.width ?? 0,
  };
}

/** A saw's screw stands between saw and jaws, so it needs more room there than the shop's rule. */
function decideClearance({ plan, rules }: EngineContext, tool: CutOffCutter | null): Decided<number> {
  const screw = tool?.kind === 'slittingSaw' ? Math.max(0, tool.screwHeight) : 0;
  const rule = getLengthInput('rule', rules.clearance);
  if (screw === 0) {
    return getDecided(plan.release.clearance, rules.clearance, {
      rule: 'Gap kept between the cut-off cutter and the jaw tops, by the shop’s rule',
      formula: 'c = rule',
      inputs: [rule],
      source: COMMON_PRACTICE,
    });
  }
  return getDecided(plan.release.clearance, Math.max(rules.clearance, screw + rules.runningClearance), {
    rule: 'Gap kept between the saw and the jaw tops: the shop’s rule, and room for the screw below the saw',
    formula: 'c = max(rule, screw + running clearance)',
    inputs: [rule, getLengthInput('screw', screw), getLengthInput('running clearance', rules.runningClearance)],
    source: COMMON_PRACTICE,
  });
}

const RANK_WORDS = [
  'The narrowest key-seat cutter the shop has that leaves the rib aimed at on every part and is long enough',
  'No key-seat cutter serves; the narrowest slitting saw that leaves the rib aimed at and is long enough',
  'No cutter that leaves the rib aimed at is long enough: the narrowest that reaches',
  'No cutter the shop has reaches far enough to leave the rib aimed at: the one that comes nearest',
];
const FALLS_SHORT = 3;

/** What one part asks of the cutter. */
interface CutterNeed {
  width: number;
  wallAbove: number;
  depth: number;
}

function getNeeds(context: EngineContext): CutterNeed[] {
  const sides = getSideCount(context.plan.release.sides);
  const rib = getPinned(context.plan.release.keep) === 'tabs' ? 0 : computeRibTarget(context).value;
  return context.parts.map((part) => {
    const width = getWidthAtCut(context, part);
    return { width, wallAbove: getWallAboveCut(context, part), depth: Math.max(0, width - rib) / sides };
  });
}

function getOffer(context: EngineContext, cutter: CutOffCutter, needs: readonly CutterNeed[]): CutterOffer {
  const { runningClearance, holderClearance } = context.rules;
  const spares = needs.map((need) => computeCutterReach(cutter, need.wallAbove, runningClearance).reach - need.depth);
  const spare = spares.length > 0 ? Math.min(...spares) : 0;
  const tallest = Math.max(0, ...needs.map((need) => need.wallAbove)) + cutter.width + Math.max(0, holderClearance);
  const isLong = getMostStickOut(cutter) >= Math.max(tallest, getLeastStickOut(cutter)) - 1e-6;
  const rank = spare < -1e-6 ? FALLS_SHORT : isLong ? (cutter.kind === 'keySeat' ? 0 : 1) : 2;
  return { cutter, spare, rank };
}

function prefer(best: CutterOffer | undefined, offer: CutterOffer): CutterOffer {
  if (best === undefined) return offer;
  if (offer.rank !== best.rank) return offer.rank < best.rank ? offer : best;
  if (offer.rank === FALLS_SHORT) return offer.spare > best.spare + 1e-6 ? offer : best;
  const byWidth = offer.cutter.width - best.cutter.width;
  if (Math.abs(byWidth) > 1e-6) return byWidth < 0 ? offer : best;
  return offer.cutter.diameter < best.cutter.diameter - 1e-6 ? offer : best;
}

function getWhyInputs(
  context: EngineContext,
  best: CutterOffer | undefined,
  offers: readonly CutterOffer[],
): WhyInput[] {
  const inputs = [
    getLengthInput('width', Math.max(0, ...context.parts.map((part) => getWidthAtCut(context, part)))),
    getLengthInput('rib', computeRibTarget(context).value),
    getInput('sides', getSideCount(context.plan.release.sides), 'count'),
    getLengthInput('running clearance', context.rules.runningClearance),
    getInput('cutters in the shop', offers.length, 'count'),
    getInput('that reach', offers.filter((offer) => offer.rank < FALLS_SHORT).length, 'count'),
  ];
  if (best === undefined) return inputs;
  const { cutter } = best;
  return [
    getTextInput('cutter', cutter.name),
    getLengthInput('D', cutter.diameter),
    getLengthInput('neck', getNeck(cutter).diameter),
    getLengthInput('kerf', cutter.width),
    ...inputs,
  ];
}
