import { describeOutcomes, describePatterns, describeStockUse } from './describe';
import { getCostOfBound, type PreparedJob, prepareJob, roundUpWeight } from './prepare';
import { computeShortage } from './shortage';
import { solveCore } from './solve-core';
import { removeSurplus } from './surplus';
import type { NestBudget, NestInput, NestPattern, NestProblem, NestResult } from './types';
import { WorkMeter } from './work-meter';

/** Budget for comparing many bars at once: greedy answers with quick bounds, well under a millisecond for most jobs. */
export const LIGHT_BUDGET: NestBudget = { workUnits: 300_000 };

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
 * @example 12 blanks of 303.276 mm from a 3657.6 mm bar at a kerf of 1.5875 mm: one bar, 11 cuts, `fit: 'under-a-kerf'`
 */
export function computeNest(input: NestInput, budget: NestBudget): NestResult {
  const work = new WorkMeter(budget);
  const job = prepareJob(input);
  const problems: NestProblem[] = [...job.problems];
  const shortage = computeShortage(job, work);
  problems.push(...shortage.problems);
  const { core } = shortage;
  const answer = solveCore(core, work, {
    roundUp: (weight) => roundUpWeight(job.scale, weight),
    start: shortage.start,
    onProgress: (bound, weight) => {
      budget.onProgress?.({
        boundMinor: getCostOfBound(job.scale, bound),
        incumbentMinor: weight === Number.POSITIVE_INFINITY ? null : getCostOfBound(job.scale, weight),
      });
    },
  });
  const uses = removeSurplus(core, answer.uses);
  const patterns = describePatterns(job, input, uses);
  const boundMinor = getCostOfBound(job.scale, answer.bound);
  return summarize(input, job, patterns, problems, {
    boundMinor,
    isBarCountProven: answer.weight <= answer.bound && job.scale.holdsBars,
    isDropProven: false,
    workUnits: work.spent,
  });
}

function summarize(
  input: NestInput,
  job: PreparedJob,
  patterns: readonly NestPattern[],
  problems: readonly NestProblem[],
  proof: { boundMinor: number; isBarCountProven: boolean; isDropProven: boolean; workUnits: number },
): NestResult {
  const stockUse = describeStockUse(input, patterns, job.isPriced);
  const costMinor = stockUse.reduce((sum, use) => sum + use.costMinor, 0);
  const worthMinor = stockUse.reduce((sum, use) => sum + use.worthMinor, 0);
  const totalMinor = costMinor + worthMinor;
  const boundMinor = Math.min(proof.boundMinor, totalMinor);
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
    isBarCountProven: isProven && proof.isBarCountProven,
    isDropProven: isProven && proof.isBarCountProven && proof.isDropProven,
    longestDropNm: Math.max(0, ...patterns.map((pattern) => pattern.dropNm)),
    isPriced: job.isPriced,
    workUnits: proof.workUnits,
  };
}
