import { computeNest, computeNestTotals } from '../nest/compute-nest';
import type { NestBudget, NestInput, NestPattern, NestResult, NestTotals } from '../nest/types';

/** Keeps the last answers of a pure function by key; the oldest go first. */
class Memo<T> {
  private readonly answers = new Map<string, T>();
  private readonly most: number;

  constructor(most: number) {
    this.most = most;
  }

  get(key: string, work: () => T): T {
    const known = this.answers.get(key);
    const answer = known ?? work();
    this.answers.delete(key);
    this.answers.set(key, answer);
    if (this.answers.size > this.most) {
      const oldest = this.answers.keys().next();
      if (oldest.done !== true) this.answers.delete(oldest.value);
    }
    return answer;
  }
}

// Dragging a part or a vise asks the same question again for every bar on offer: whole answers for the bar in hand,
// a handful of numbers for the others.
const orders = new Memo<NestResult>(16);
const totals = new Memo<NestTotals>(1024);

/**
 * {@link computeNest}, remembered by input and work allowed; what is remembered reports no progress, and what may be stopped
 * is not remembered.
 *
 * @param known bars that make everything, found some other way
 */
export function getNest(input: NestInput, budget: NestBudget, known: readonly NestPattern[] = []): NestResult {
  if (budget.shouldStop !== undefined) return computeNest(input, budget, known);
  const key = known.length === 0 ? getKey(input, budget) : `${getKey(input, budget)}|${getBarsKey(known)}`;
  return orders.get(key, () => computeNest(input, budget, known));
}

/** The totals of {@link computeNest}, remembered by input and work allowed: what the comparison of sections needs. */
export function getNestTotals(input: NestInput, budget: NestBudget): NestTotals {
  return totals.get(getKey(input, budget), () => computeNestTotals(input, budget));
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
