import { toExactLength } from '../engine/bar-count';
import { getGangLength } from '../engine/blank-length';
import { isSize } from '../engine/context';
import { getPinnedPartsPerBlank, MOST_PARTS_PER_BLANK } from '../engine/gang';
import { computeSizedLayout, getSizedTemplateId, type LaidBlank } from '../engine/layout';
import { SAME_LENGTH } from '../engine/rounding';
import { isPinned } from '../model/choice';
import type { Part } from '../model/plan';
import type { BarOffer } from '../model/shop';
import { LIGHT_BUDGET } from '../nest/compute-nest';
import type { BlankChoice, NestBudget, NestInput, NestPattern, NestResult, NestTotals } from '../nest/types';
import type { BlankRoom } from './gang-planner';
import { buildNestInput } from './nest-job';
import { getNest, getNestTotals } from './nest-memo';
import type { PlanJob } from './plan-job';

/** The blanks of an order and how they are cut from bars. */
export interface CutBlanks {
  readonly blanks: readonly LaidBlank[];
  /** Its demands are the blanks, by their template ids; its bound holds for every size of blank that was open. */
  readonly nest: NestResult;
  /** Whether no cheaper way exists with these very blanks; `nest.isProven` says it for all sizes that were open. */
  readonly isProvenForBlanks: boolean;
  /** The blanks that take fewest loads and about what they cost, where their sizes are open. */
  readonly fewest: { readonly blanks: readonly LaidBlank[]; readonly totals: NestTotals } | null;
}

export interface CutBudget {
  /** Elementary steps that may be spent: on given blanks alone, or half on them and half on open sizes. */
  readonly workUnits: number;
  /** Told of every better bound and answer; what it is given is laid out only when asked for. */
  readonly onProgress?: (getCut: () => CutBlanks) => void;
  readonly shouldStop?: () => boolean;
}

/** What the cutting starts from. */
export interface CutJob {
  readonly bar: BarOffer;
  /** Blanks as sized part by part, or as the user laid them out. */
  readonly given: readonly LaidBlank[];
  /** Blanks that take fewest loads; null where the user has sized them. */
  readonly fewest: readonly LaidBlank[] | null;
  readonly room: BlankRoom;
}

/**
 * Cuts the blanks of a plan from bars at least cost. Where the number of parts on a blank is left to the planner, the sizes
 * part by part are kept unless others, chosen together with the cutting, come cheaper or take fewer bars: a gang is fewer
 * loads, which is worth more than a longer drop.
 */
export function computeCutBlanks(job: PlanJob, cutJob: CutJob, budget: CutBudget): CutBlanks {
  const { bar, given, room } = cutJob;
  const fewest = getFewest(job, cutJob);
  const open = buildSizeInput(job, bar, room);
  const leastMinor = open === null ? null : getNestTotals(open, LIGHT_BUDGET).boundMinor;
  const withGiven = (nest: NestResult, boundMinor: number | null): CutBlanks => ({
    blanks: given,
    nest: boundMinor === null ? nest : lowerBound(nest, boundMinor),
    isProvenForBlanks: nest.isProven,
    fewest,
  });
  const workUnits = open === null ? budget.workUnits : budget.workUnits / 2;
  const givenNest = getNest(buildNestInput(job.context, bar, given), {
    workUnits,
    ...listen(budget, (nest) => withGiven(nest, leastMinor)),
  });
  if (open === null || leastMinor === null) return withGiven(givenNest, null);
  const isAtBound = leastMinor >= givenNest.totalMinor;
  if (isAtBound && getShortfall(givenNest) === 0) return withGiven(givenNest, givenNest.totalMinor);
  const chooseBetter = (nest: NestResult): CutBlanks => {
    if (isBetter(nest, givenNest)) return { ...layAnew(job, nest), fewest };
    return withGiven(givenNest, getShortfall(nest) === 0 ? nest.boundMinor : null);
  };
  const openBudget: NestBudget = { workUnits, ...listen(budget, chooseBetter) };
  return chooseBetter(getNest(open, openBudget, getPatternsByPart(givenNest.patterns, given)));
}

function getFewest({ context }: PlanJob, { bar, fewest }: CutJob): CutBlanks['fewest'] {
  if (fewest === null) return null;
  return { blanks: fewest, totals: getNestTotals(buildNestInput(context, bar, fewest), LIGHT_BUDGET) };
}

/** How a search of the nesting listens and tells. */
function listen(
  { onProgress, shouldStop }: CutBudget,
  build: (nest: NestResult) => CutBlanks,
): Pick<NestBudget, 'onProgress' | 'shouldStop'> {
  const stop = shouldStop === undefined ? {} : { shouldStop };
  if (onProgress === undefined) return stop;
  return {
    ...stop,
    onProgress: ({ incumbentMinor, getResult }) => {
      if (incumbentMinor === null) return;
      onProgress(() => {
        const nest = getResult();
        if (nest === null) throw new Error('an answer that was reported is not there');
        return build(nest);
      });
    },
  };
}

function isBetter(nest: NestResult, than: NestResult): boolean {
  const short = getShortfall(nest);
  // What leaves parts out is laid out with the blanks it leaves out, which only the given ones say.
  if (short === 2) return false;
  if (short !== getShortfall(than)) return short < getShortfall(than);
  if (nest.totalMinor !== than.totalMinor) return nest.totalMinor < than.totalMinor;
  return nest.barCount < than.barCount;
}

/** 2 where parts are left out, 1 where the limit on patterns is not kept, 0 where nothing is amiss. */
function getShortfall({ outcomes, problems }: NestResult): 0 | 1 | 2 {
  if (outcomes.some(({ partsMissing }) => partsMissing > 0)) return 2;
  return problems.some(({ code }) => code === 'pattern-limit-too-tight') ? 1 : 0;
}

/** The same answer beside a bound that holds for more ways of cutting. */
function lowerBound(nest: NestResult, bound: number): NestResult {
  const boundMinor = Math.min(bound, nest.totalMinor);
  const isProven = boundMinor === nest.totalMinor;
  return {
    ...nest,
    boundMinor,
    isProven,
    gap: isProven ? 0 : (nest.totalMinor - boundMinor) / nest.totalMinor,
    isBarCountProven: false,
    isDropProven: false,
  };
}

/** The nesting job with every size of blank that can be held; null where there is nothing to choose. */
function buildSizeInput(job: PlanJob, bar: BarOffer, room: BlankRoom): NestInput | null {
  const { context } = job;
  if (isPinned(context.plan.layout) || getPinnedPartsPerBlank(context) !== null) return null;
  const demands = context.parts
    .map((part) => {
      const parts = job.make.get(part.id) ?? part.quantity;
      return { id: part.id, parts, choices: listSizes(job, part, parts, room) };
    })
    .filter(({ parts, choices }) => parts > 0 && choices.length > 0);
  if (demands.every(({ choices }) => choices.length === 1)) return null;
  return { ...buildNestInput(context, bar, []), demands };
}

function listSizes({ context, partingWidth }: PlanJob, part: Part, parts: number, room: BlankRoom): BlankChoice[] {
  const choices: BlankChoice[] = [];
  for (let partsPerBlank = 1; partsPerBlank <= Math.min(MOST_PARTS_PER_BLANK, parts); partsPerBlank++) {
    const length = getGangLength(context, partingWidth, part, partsPerBlank);
    // A single that cannot be held is cut all the same, so that there is something to judge.
    const isHeld = length <= room.longestBlank + SAME_LENGTH && room.takes(part, length);
    if (!isSize(length) || (partsPerBlank > 1 && !isHeld)) break;
    choices.push({ partsPerBlank, lengthNm: toExactLength(length) });
  }
  return choices;
}

/** Bars of given blanks as the job with open sizes has them: by part and number of parts. */
function getPatternsByPart(patterns: readonly NestPattern[], given: readonly LaidBlank[]): NestPattern[] {
  const byTemplate = new Map(given.map((blank) => [blank.templateId, blank]));
  return patterns.map((pattern) => ({
    ...pattern,
    stretches: pattern.stretches.map((stretch) => {
      const blank = byTemplate.get(stretch.demandId ?? '');
      const part = blank?.onIt[0]?.part;
      return blank === undefined || part === undefined
        ? stretch
        : { ...stretch, demandId: part.id, partsPerBlank: blank.onIt.length };
    }),
  }));
}

/** Blanks of the sizes an answer with open sizes uses, and the answer by those blanks. */
function layAnew(job: PlanJob, nest: NestResult): Omit<CutBlanks, 'fewest'> {
  const sizes = new Map(nest.outcomes.map(({ demandId, blanks }) => [demandId, blanks]));
  const getTemplateId = (partId: string, partsPerBlank: number): string => {
    return getSizedTemplateId(partId, partsPerBlank, sizes.get(partId)?.[0]?.partsPerBlank === partsPerBlank);
  };
  return {
    blanks: computeSizedLayout(job.context, job.partingWidth, sizes),
    nest: {
      ...nest,
      patterns: nest.patterns.map((pattern) => ({
        ...pattern,
        stretches: pattern.stretches.map((stretch) =>
          stretch.demandId === undefined
            ? stretch
            : {
                ...stretch,
                demandId: getTemplateId(stretch.demandId, stretch.partsPerBlank ?? 1),
                partsPerBlank: 1,
              },
        ),
      })),
      outcomes: nest.outcomes.flatMap(({ demandId, blanks }) =>
        blanks.map((blank) => ({
          demandId: getTemplateId(demandId, blank.partsPerBlank),
          blanks: [{ ...blank, partsPerBlank: 1 }],
          partsMade: blank.count,
          partsOver: 0,
          partsMissing: 0,
        })),
      ),
    },
    isProvenForBlanks: nest.isProven,
  };
}
