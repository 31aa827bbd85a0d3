import { computeNest, computeNestTotals } from '../nest/compute-nest';
import { GreedyBook } from '../nest/greedy-book';
import { Memo } from '../nest/memo';
import type { NestBudget, NestInput, NestPattern, NestResult, NestTotals } from '../nest/types';

// Dragging a part or a vise asks the same question again for every bar on offer: whole answers for the bar in hand,
// a handful of numbers for the others.
const orders = new Memo<NestResult>(16);
const totals = new Memo<NestTotals>(1024);

// Sections that come in the same lengths differ by their prices alone.
const greedy = new GreedyBook();

/**
 * {@link computeNest}, remembered by input and work allowed; what is remembered reports no progress, and what may be stopped
 * is not remembered.
 *
 * @param known bars that make everything, found some other way
 */
export function getNest(input: NestInput, budget: NestBudget, known: readonly NestPattern[] = []): NestResult {
  if (budget.shouldStop !== undefined) return computeNest(input, budget, known, greedy);
  const key = known.length === 0 ? getKey(input, budget) : `${getKey(input, budget)}|${getBarsKey(known)}`;
  return orders.get(key, () => computeNest(input, budget, known, greedy));
}

/** The totals of {@link computeNest}, remembered by input and work allowed: what the comparison of sections needs. */
export function getNestTotals(input: NestInput, budget: NestBudget): NestTotals {
  return totals.get(getKey(input, budget), () => computeNestTotals(input, budget, greedy));
}

function getBarsKey(patterns: readonly NestPattern[]): string {
  return patterns
    .map(({ stockId, count, stretches }) => {
      const blanks = stretches.map(({ demandId, partsPerBlank }) => `${demandId ?? ''}*${partsPerBlank ?? 0}`);
      return `${count}*${stockId}:${blanks.join()}`;
    })
    .join(';');
}

function getKey(input: NestInput, budget: NestBudget): string {
  return `${budget.workUnits}|${JSON.stringify(input)}`;
}
