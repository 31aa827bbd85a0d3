import { getPinned } from '../model/choice';
import type { SeatChoice } from '../model/plan';
import type { EngineContext } from './context';
import { getDecided, getLengthInput } from './decide';
import type { Decided } from './figure';
import { computeParallels, type ParallelAnswer } from './parallels';
import type { SeatResult, SectionResult } from './results';
import { clamp, roundDownToStep, SAME_LENGTH } from './rounding';
import type { CutterChoice } from './setup';
import { computeDeepestShelf, computeShelfRecipe, type ShelfDepthLimit } from './shelf';
import { COMMON_PRACTICE, GEOMETRY, getTextInput } from './workings';

/**
 * The seat of the plan: one for all blanks, since the jaws are milled or the parallels laid once.
 *
 * The grip aimed at is what the *smallest* bar leaves under the tallest stack, rounded down to the shop's step: then no
 * bar within its class lets the cut-off reach the jaws, and a larger bar only widens the clearance.
 *
 * @param mostGrip `Hmin` less what the tallest part needs above the jaws, mm; may be negative
 */
export function computeSeat(
  context: EngineContext,
  section: SectionResult,
  cutter: CutterChoice,
  mostGrip: number,
): SeatResult {
  const { jawHeight, jawSet, rules, plan } = context;
  const deepest = computeDeepestShelf(context);
  const shelfDepth = decideShelfDepth(context, deepest, mostGrip);
  const targetGrip = getDecided(plan.holding.targetGrip, jawSet?.comfortableGrip ?? 0, {
    rule: 'Grip aimed at: what this jaw face holds comfortably',
    formula: '',
    inputs: [getTextInput('jaw', jawSet?.name ?? 'none')],
    source: jawSet?.source ?? COMMON_PRACTICE,
  });
  const leastGrip = getPinned(plan.holding.targetGrip) ?? (jawSet?.leastFlatGrip ?? 0) + section.cornerRadius;
  const wantedGrip = clamp(targetGrip.value, 0, Math.max(0, mostGrip));
  const parallels = computeParallels(
    { jawHeight, leastGrip, mostGrip, thickness: section.thickness.least, fingerRoom: rules.fingerRoom },
    context.parallels,
    wantedGrip,
  );
  const choice = decideSeat(context, parallels, targetGrip.value, mostGrip, deepest.depth.value);
  const grip = getGrip(context, choice.value, shelfDepth.value);
  const recipe = computeShelfRecipe(context, section, shelfDepth.value);

  return {
    choice,
    grip,
    shelfDepth,
    deepestLegalShelf: deepest.depth,
    deepestLimitedBy: deepest.limitedBy,
    ...recipe,
    jawHeight,
    parallels: parallels.rows,
    nextLower: parallels.nextLower,
    nextHigher: parallels.nextHigher,
    shim: parallels.shim,
    flatGrip: Math.max(0, grip - section.cornerRadius),
    targetGrip,
    mostGrip,
    stumpHeight: grip + cutter.kerf + Math.max(0, cutter.clearance.value),
    holesOverSupport: getHolesOverSupport(context, section, choice.value, recipe.ledge.value),
  };
}

function decideShelfDepth(context: EngineContext, deepest: ShelfDepthLimit, mostGrip: number): Decided<number> {
  const most = Math.min(mostGrip, deepest.depth.value);
  const auto = Math.max(0, roundDownToStep(most, context.shelfStep));
  return getDecided(context.plan.holding.shelfDepth, auto, {
    rule: 'All the grip the smallest bar leaves, no deeper than the jaw allows, rounded down to the step',
    formula: 'S = floor(min(g, deepest) / step) step',
    inputs: [
      getLengthInput('g', mostGrip),
      getLengthInput('deepest', deepest.depth.value),
      getLengthInput('step', context.shelfStep),
      getTextInput('deepest is limited by', deepest.limitedBy),
    ],
    source: GEOMETRY,
  });
}

/**
 * Auto: the bed where the bar may stand on it; parallels that reach the grip aimed at; else a shelf; else the parallels
 * with the most grip. A shelf costs the jaws metal, so parallels come first where they serve.
 */
function decideSeat(
  context: EngineContext,
  parallels: ParallelAnswer,
  targetGrip: number,
  mostGrip: number,
  deepestShelf: number,
): Decided<SeatChoice> {
  const { jawHeight } = context;
  const { best } = parallels;
  const take = (auto: SeatChoice, rule: string): Decided<SeatChoice> =>
    getDecided(context.plan.holding.seat, auto, {
      rule,
      formula: 'grip = S, J - P or J',
      inputs: [
        getLengthInput('J', jawHeight),
        getLengthInput('grip aimed at', targetGrip),
        getLengthInput('most grip', mostGrip),
        getLengthInput('best parallels give', best?.grip ?? 0),
        getLengthInput('deepest shelf', deepestShelf),
      ],
      source: COMMON_PRACTICE,
    });
  const onParallels: SeatChoice | null =
    best === null ? null : { kind: 'parallels', parallelId: best.parallelId, count: best.count };
  if (jawHeight > 0 && jawHeight <= mostGrip + SAME_LENGTH) {
    return take({ kind: 'bed' }, 'The bar is tall enough to stand on the vise bed');
  }
  if (onParallels !== null && best !== null && best.grip >= targetGrip - SAME_LENGTH) {
    return take(onParallels, 'Parallels in the drawer give the grip aimed at: no jaw has to be milled');
  }
  const shelfGrip = Math.min(mostGrip, deepestShelf);
  if (context.jawSet?.millable === true && shelfGrip >= (best?.grip ?? 0)) {
    return take({ kind: 'shelf' }, 'No parallels in the drawer give the grip aimed at: a shelf gives the most grip');
  }
  if (onParallels !== null) return take(onParallels, 'The parallels in the drawer that give the most grip');
  if (context.jawSet?.millable === true) {
    return take({ kind: 'shelf' }, 'No parallels in the drawer serve: a shelf gives what grip there is');
  }
  const lower = parallels.nextHigher ?? parallels.nextLower;
  return lower === null
    ? take({ kind: 'bed' }, 'No parallels that go under the bar and a jaw that is not to be milled')
    : take({ kind: 'parallels', parallelId: lower.parallelId, count: 2 }, 'The nearest parallels in the drawer');
}

function getGrip(context: EngineContext, choice: SeatChoice, shelfDepth: number): number {
  switch (choice.kind) {
    case 'shelf':
      return Math.max(0, shelfDepth);
    case 'bed':
      return context.jawHeight;
    case 'parallels': {
      const pair = context.parallels.find(({ id }) => id === choice.parallelId);
      return Math.max(0, context.jawHeight - (pair?.height ?? context.jawHeight));
    }
    default:
      return choice satisfies never;
  }
}

/** Through-holes made in this setup whose mouth overlaps, across the jaws, what carries the bar. Holes stand on the part's middle. */
function getHolesOverSupport(
  context: EngineContext,
  section: SectionResult,
  choice: SeatChoice,
  ledge: number,
): SeatResult['holesOverSupport'] {
  const clearWidth = getClearWidth(context, section, choice, ledge);
  return context.parts.flatMap((part) =>
    part.holes
      .filter((hole) => hole.axis === 'z' && hole.through && hole.beforeCutOff)
      .filter((hole) => hole.diameter > clearWidth + SAME_LENGTH)
      .map((hole) => ({ partId: part.id, holeId: hole.id })),
  );
}

/** Width in the middle of the bar under which nothing stands, mm. */
function getClearWidth(context: EngineContext, section: SectionResult, choice: SeatChoice, ledge: number): number {
  switch (choice.kind) {
    case 'shelf':
      return Math.max(0, section.thickness.nominal - 2 * ledge);
    case 'bed':
      return 0;
    case 'parallels': {
      const pair = context.parallels.find(({ id }) => id === choice.parallelId);
      return choice.count === 2 ? Math.max(0, section.thickness.nominal - 2 * (pair?.thickness ?? 0)) : 0;
    }
    default:
      return choice satisfies never;
  }
}
