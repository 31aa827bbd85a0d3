import { computeNest, computeNestTotals } from '../nest/compute-nest';
import type { NestBudget, NestInput, NestResult, NestTotals } from '../nest/types';

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

/** {@link computeNest}, remembered by input and work allowed. */
export function getNest(input: NestInput, budget: NestBudget): NestResult {
  return orders.get(getKey(input, budget), () => computeNest(input, budget));
}

/** The totals of {@link computeNest}, remembered by input and work allowed: what the comparison of sections needs. */
export function getNestTotals(input: NestInput, budget: NestBudget): NestTotals {
  return totals.get(getKey(input, budget), () => computeNestTotals(input, budget));
}

function getKey(input: NestInput, budget: NestBudget): string {
  return `${budget.workUnits}|${JSON.stringify(input)}`;
}
