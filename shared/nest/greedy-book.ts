import { type CoreProblem, getWholeResidual } from './core-model';
import { computeGreedyStep, type GreedyRule, type GreedyStep } from './greedy';
import { Memo } from './memo';

/** Where each rule stands before the first bar of a job. */
export type GreedyStarts = Map<GreedyRule, GreedyStep>;

/** Jobs kept: those of one plan, whose blanks are laid out in a few ways for bars that come in a few sets of lengths. */
const MOST_JOBS = 8;

/**
 * What the greedy rules have worked out, shared by jobs that are alike but for their prices: many sections of one plan come in
 * the same lengths, and with about the same relation between their prices the rules go the same way in all of them.
 */
export class GreedyBook {
  private readonly jobs = new Memo<GreedyStarts>(MOST_JOBS);

  getStarts({ sizes, rows, values, demands, stocks }: CoreProblem): GreedyStarts {
    const bars = stocks.map(({ capacity, quantity }) => [capacity, quantity]);
    return this.jobs.get(JSON.stringify([sizes, rows, values, demands, bars]), () => new Map());
  }
}

/** The start of a rule, worked out where it is not known. */
export function getGreedyStart(starts: GreedyStarts, core: CoreProblem, rule: GreedyRule): GreedyStep {
  const known = starts.get(rule);
  if (known !== undefined) return known;
  const start = computeGreedyStep(core, getWholeResidual(core), rule);
  starts.set(rule, start);
  return start;
}
