import { getPinned } from '../model/choice';
import type { Part, Release } from '../model/plan';
import type { CutOffCutter } from '../model/shop';
import { type EngineContext, getAllowance, isSize } from './context';
import { computeCutterReach, getNeck } from './cutter-reach';
import { getDecided, getLengthInput } from './decide';
import type { Decided, WhyInput } from './figure';
import type { CutterChoice } from './setup';
import { computeWidthProfile } from './width-profile';
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
export function getWidthAtCut(context: EngineContext, part: Part): number {
  const allowance = getAllowance(context, part);
  const widest = Math.max(0, ...computeWidthProfile(part, null).map((at) => at.width));
  return widest + allowance.fixedSide + allowance.movingSide;
}

/** Height of the work beside the cutter's neck, from the slot up, mm. */
export function getWallAboveCut(context: EngineContext, part: Part): number {
  const allowance = getAllowance(context, part);
  return allowance.bottom + part.height + allowance.top;
}

interface CutterOffer {
  cutter: CutOffCutter;
  /** Least reach over the parts less the depth they ask: negative when it is too short by so much. */
  spare: number;
}

/**
 * The cut-off cutter: of those the shop has, the narrowest that reaches deep enough on every part to leave the rib
 * aimed at; among equals the smallest, whose neck is the stiffest for its head. Where none reaches, the one that comes
 * nearest. A pinned cutter that the shop does not have is left out of account.
 */
export function computeCutter(context: EngineContext): CutterChoice {
  const ribTarget = computeRibTarget(context).value;
  const offers = context.cutOffCutters
    .filter((cutter) => isSize(cutter.diameter) && isSize(cutter.width))
    .map((cutter) => ({ cutter, spare: getSpareReach(context, cutter, ribTarget) }));
  const reaching = offers.filter((offer) => offer.spare >= -1e-6);
  const best = reaching.length > 0 ? reaching.reduce(preferNarrow) : offers.reduce(preferFar, offers[0]);
  const auto = best?.cutter ?? null;

  const pinnedId = getPinned(context.plan.release.cutterId);
  const pinned = offers.find((offer) => offer.cutter.id === pinnedId)?.cutter ?? null;
  const tool = pinned ?? auto;
  const why = {
    rule:
      reaching.length > 0
        ? 'The narrowest cutter the shop has that reaches far enough to leave the rib aimed at on every part'
        : 'No cutter the shop has reaches far enough: the one that comes nearest',
    formula: 'reach = (D - neck)/2 - running clearance >= (width - rib)/sides',
    inputs: getWhyInputs(context, auto, ribTarget, offers.length, reaching.length),
    source: GEOMETRY,
  };
  const autoId = auto?.id ?? '';
  return {
    tool,
    id: { value: tool?.id ?? '', pinned: pinned !== null, auto: autoId, why },
    clearance: getDecided(context.plan.release.clearance, context.rules.clearance, {
      rule: 'Gap kept between the cut-off cutter and the jaw tops, by the shop’s rule',
      formula: 'c = rule',
      inputs: [getLengthInput('rule', context.rules.clearance)],
      source: COMMON_PRACTICE,
    }),
    kerf: tool?.width ?? 0,
  };
}

function getSpareReach(context: EngineContext, cutter: CutOffCutter, ribTarget: number): number {
  const sides = getSideCount(context.plan.release.sides);
  const through = getPinned(context.plan.release.keep) === 'tabs';
  const spares = context.parts.map((part) => {
    const width = getWidthAtCut(context, part);
    const { reach } = computeCutterReach(cutter, getWallAboveCut(context, part), context.rules.runningClearance);
    return reach - Math.max(0, width - (through ? 0 : ribTarget)) / sides;
  });
  return spares.length > 0 ? Math.min(...spares) : 0;
}

function preferNarrow(best: CutterOffer, offer: CutterOffer): CutterOffer {
  const byWidth = offer.cutter.width - best.cutter.width;
  if (Math.abs(byWidth) > 1e-6) return byWidth < 0 ? offer : best;
  return offer.cutter.diameter < best.cutter.diameter - 1e-6 ? offer : best;
}

function preferFar(best: CutterOffer | undefined, offer: CutterOffer): CutterOffer | undefined {
  return best === undefined || offer.spare > best.spare + 1e-6 ? offer : best;
}

function getWhyInputs(
  context: EngineContext,
  cutter: CutOffCutter | null,
  ribTarget: number,
  count: number,
  reachingCount: number,
): WhyInput[] {
  const widest = Math.max(0, ...context.parts.map((part) => getWidthAtCut(context, part)));
  const inputs = [
    getLengthInput('width', widest),
    getLengthInput('rib', ribTarget),
    getInput('sides', getSideCount(context.plan.release.sides), 'count'),
    getLengthInput('running clearance', context.rules.runningClearance),
    getInput('cutters in the shop', count, 'count'),
    getInput('cutters that reach', reachingCount, 'count'),
  ];
  if (cutter === null) return inputs;
  const neck = getNeck(cutter);
  return [
    getTextInput('cutter', cutter.name),
    getLengthInput('D', cutter.diameter),
    getLengthInput('neck', neck.diameter),
    getLengthInput('kerf', cutter.width),
    ...inputs,
  ];
}
