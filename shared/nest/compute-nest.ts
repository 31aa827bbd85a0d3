import type { CoreProblem, PatternUse } from './core-model';
import { countUses } from './count-uses';
import { describeOutcomes, describePatterns, describeStockUse } from './describe';
import { mergeBlanks } from './fewer-blanks';
import { GreedyBook } from './greedy-book';
import { getCoreUses } from './known-answer';
import { computeLongestDrop } from './longest-drop';
import { computeLimitedAnswer, countPatterns } from './pattern-limit';
import { getCostOfBound, type PreparedJob, prepareJob, roundUpWeight } from './prepare';
import { computeShortage } from './shortage';
import { type CoreAnswer, solveCore } from './solve-core';
import { removeSurplus } from './surplus';
import type { NestBudget, NestInput, NestPattern, NestProblem, NestProgress, NestResult, NestTotals } from './types';
import { WorkMeter } from './work-meter';

/** Budget for comparing many bars at once: greedy answers with quick bounds, well under a millisecond for most jobs. */
export const LIGHT_BUDGET: NestBudget = { workUnits: 300_000 };

/** Steps that may always be spent on the longest drop once the cost is settled; at most as many again as the cost took. */
const MIN_DROP_UNITS = 5e7;

/** Share of the budget for the search without a limit on patterns where there is one; the rest is for keeping it. */
const LIMIT_SHARE = 0.5;

/** Budget for one job while a person waits: some seconds at the most. */
export const FULL_BUDGET: NestBudget = { workUnits: 3e9 };

/**
 * Least-cost way of sawing the wanted blanks from the bars at hand, with a proven bound.
 *
 * Ties go to fewer bars, then to the longest single drop. Total on any input: what is wrong with it becomes a
 * problem in the result and the rest is solved. Synchronous and deterministic: the same input and work units give the same
 * answer, unless `shouldStop` cuts it short.
 *
 * @param input lengths in whole nanometres, money in whole minor units
 * @param budget how much to spend; {@link LIGHT_BUDGET} or {@link FULL_BUDGET} where nothing else is known
 * @param known bars that make everything, found some other way: the answer is never dearer
 * @param greedy kept from call to call, it spares work where only prices differ; the answers are the same
 * @example 12 blanks of 303.276 mm from a 3657.6 mm bar at a kerf of 1.5875 mm: one bar, 11 cuts, `fit: 'under-a-kerf'`
 */
export function computeNest(
  input: NestInput,
  budget: NestBudget,
  known: readonly NestPattern[] = [],
  greedy = new GreedyBook(),
): NestResult {
  return summarize(input, solveJob(input, budget, greedy, known));
}

/**
 * The totals of {@link computeNest} without its bars and cuts: for comparing many sections, where laying out every bar would
 * take longer than the nesting itself.
 */
export function computeNestTotals(input: NestInput, budget: NestBudget, greedy = new GreedyBook()): NestTotals {
  const { job, finish, problems } = solveJob(input, budget, greedy);
  const totals = countUses(job, input.remnantMinNm, finish.uses);
  const boundMinor = Math.min(getCostOfBound(job.scale, finish.bound), totals.costMinor + totals.worthMinor);
  return {
    ...totals,
    totalMinor: totals.costMinor + totals.worthMinor,
    boundMinor,
    isProven: boundMinor === totals.costMinor + totals.worthMinor,
    partsMissing: problems.reduce((sum, problem) => sum + (problem.partsMissing ?? 0), 0),
    isPriced: job.isPriced,
    problems,
  };
}

interface SolvedJob {
  readonly job: PreparedJob;
  readonly finish: FinishedAnswer;
  readonly problems: readonly NestProblem[];
  readonly isBarCountProven: boolean;
  readonly workUnits: number;
}

function solveJob(
  input: NestInput,
  budget: NestBudget,
  greedy: GreedyBook,
  known: readonly NestPattern[] = [],
): SolvedJob {
  const work = new WorkMeter(budget);
  const job = prepareJob(input);
  const shortage = computeShortage(job, work);
  const { core } = shortage;
  const close = (finish: FinishedAnswer): SolvedJob => ({
    job,
    finish,
    problems: [...job.problems, ...shortage.problems, ...finish.problems],
    isBarCountProven: finish.weight <= finish.bound && job.scale.holdsBars,
    workUnits: work.spent,
  });
  const report = (answer: CoreAnswer): void => {
    budget.onProgress?.(describeProgress(input, job, core, answer, close));
  };
  const limitShare = getPatternLimit(input) === undefined ? 1 : LIMIT_SHARE;
  const answer = work.within(work.left * limitShare, () => {
    return solveCore(core, work, {
      roundUp: (weight) => roundUpWeight(job.scale, weight),
      greedy,
      start: shortage.start.length > 0 ? shortage.start : getCoreUses(job, core, known),
      onProgress: (bound, weight, uses) => report({ bound, weight, uses }),
    });
  });
  return close(finishAnswer(input, job, core, answer, work, report));
}

/** How a search stands; an answer with more patterns than the job allows is not counted as one. */
function describeProgress(
  input: NestInput,
  job: PreparedJob,
  core: CoreProblem,
  { bound, weight, uses }: CoreAnswer,
  close: (finish: FinishedAnswer) => SolvedJob,
): NestProgress {
  const limit = getPatternLimit(input);
  const hasAnswer = weight < Number.POSITIVE_INFINITY && (limit === undefined || countPatterns(uses) <= limit);
  return {
    boundMinor: getCostOfBound(job.scale, bound),
    incumbentMinor: hasAnswer ? getCostOfBound(job.scale, weight) : null,
    getResult: () => {
      if (!hasAnswer) return null;
      const kept = limit === undefined ? removeSurplus(core, uses) : uses;
      return summarize(input, close({ uses: kept, weight, bound, isDropProven: false, problems: [] }));
    },
  };
}

/** The limit on patterns where there is one that can be kept at all. */
function getPatternLimit({ maxPatterns }: NestInput): number | undefined {
  return maxPatterns !== undefined && maxPatterns >= 1 ? Math.floor(maxPatterns) : undefined;
}

interface FinishedAnswer {
  readonly uses: readonly PatternUse[];
  readonly weight: number;
  readonly bound: number;
  readonly isDropProven: boolean;
  readonly problems: readonly NestProblem[];
}

/** Takes out what is over, keeps to the limit on patterns, and settles ties for the longest drop. */
function finishAnswer(
  input: NestInput,
  job: PreparedJob,
  core: CoreProblem,
  answer: CoreAnswer,
  work: WorkMeter,
  report: (answer: CoreAnswer) => void,
): FinishedAnswer {
  const { weight, bound } = answer;
  const uses = removeSurplus(core, answer.uses);
  const roundUp = (itsWeight: number): number => roundUpWeight(job.scale, itsWeight);
  const limit = getPatternLimit(input);
  if (limit !== undefined && countPatterns(uses) > limit) {
    const limited = computeLimitedAnswer(core, limit, work, { bound, roundUp, onProgress: report });
    if (limited.weight < Number.POSITIVE_INFINITY) return { ...limited, isDropProven: false, problems: [] };
    return { uses, weight, bound, isDropProven: false, problems: [describeTightLimit(limit, limited.isComplete)] };
  }
  if (uses.length === 0 || limit !== undefined) {
    return { uses, weight, bound, isDropProven: uses.length === 0, problems: [] };
  }
  const emptyDrops = job.stocks.map((stock) => stock.longestDropNm / job.unitNm);
  const drop =
    weight > bound
      ? { uses, isProven: false }
      : work.within(Math.max(MIN_DROP_UNITS, work.spent), () => {
          return computeLongestDrop(core, emptyDrops, uses, weight, roundUp, work);
        });
  const merged = mergeBlanks(
    core,
    removeSurplus(core, drop.uses),
    (stock, load) => (emptyDrops[stock] as number) - load,
    (itsDrop) => itsDrop * job.unitNm >= input.remnantMinNm,
  );
  return { uses: merged, weight, bound, isDropProven: drop.isProven, problems: [] };
}

function describeTightLimit(limit: number, isComplete: boolean): NestProblem {
  const way = isComplete ? 'There is no way' : 'No way was found';
  return {
    code: 'pattern-limit-too-tight',
    about: { kind: 'job', id: 'job', field: 'maxPatterns' },
    message: `${way} to make everything with ${limit} ${limit === 1 ? 'pattern' : 'patterns'}; the limit is not kept.`,
  };
}

function summarize(input: NestInput, solved: SolvedJob): NestResult {
  const { job, finish, problems } = solved;
  const patterns = describePatterns(job, input, finish.uses);
  const stockUse = describeStockUse(input, patterns, job.isPriced);
  const costMinor = stockUse.reduce((sum, use) => sum + use.costMinor, 0);
  const worthMinor = stockUse.reduce((sum, use) => sum + use.worthMinor, 0);
  const totalMinor = costMinor + worthMinor;
  const boundMinor = Math.min(getCostOfBound(job.scale, finish.bound), totalMinor);
  const isProven = boundMinor === totalMinor;
  return {
    patterns,
    stockUse,
    outcomes: describeOutcomes(input, patterns),
    problems,
    barCount: patterns.reduce((sum, pattern) => sum + pattern.count, 0),
    cutCount: patterns.reduce((sum, pattern) => sum + pattern.count * pattern.cuts.length, 0),
    costMinor,
    worthMinor,
    totalMinor,
    boundMinor,
    isProven,
    gap: isProven ? 0 : (totalMinor - boundMinor) / totalMinor,
    isBarCountProven: isProven && solved.isBarCountProven,
    isDropProven: isProven && solved.isBarCountProven && finish.isDropProven,
    longestDropNm: Math.max(0, ...patterns.map((pattern) => pattern.dropNm)),
    isPriced: job.isPriced,
    workUnits: solved.workUnits,
  };
}
