import { computeNest } from '../nest/compute-nest';
import type { NestBudget, NestInput, NestResult } from '../nest/types';

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
const summaries = new Memo<NestSummary>(1024);

/** {@link computeNest}, remembered by input and work allowed. */
export function getNest(input: NestInput, budget: NestBudget): NestResult {
  return orders.get(getKey(input, budget), () => computeNest(input, budget));
}

/** What the comparison of sections needs of a nesting answer. */
export interface NestSummary {
  isPriced: boolean;
  costMinor: number;
  isProven: boolean;
  barCount: number;
  partsMissing: number;
  /** Length of the bars cut, and of the drops among it that are kept, nm. */
  barsNm: number;
  keptNm: number;
  newBarsNm: number;
}

/** The summary of {@link computeNest}, remembered by input and work allowed. */
export function getNestSummary(input: NestInput, budget: NestBudget): NestSummary {
  return summaries.get(getKey(input, budget), () => summarize(computeNest(input, budget)));
}

function getKey(input: NestInput, budget: NestBudget): string {
  return `${budget.workUnits}|${JSON.stringify(input)}`;
}

function summarize(nest: NestResult): NestSummary {
  const summary: NestSummary = {
    isPriced: nest.isPriced,
    costMinor: nest.costMinor,
    isProven: nest.isProven,
    barCount: nest.barCount,
    partsMissing: nest.outcomes.reduce((sum, outcome) => sum + outcome.partsMissing, 0),
    barsNm: 0,
    keptNm: 0,
    newBarsNm: 0,
  };
  for (const pattern of nest.patterns) {
    summary.barsNm += pattern.barLengthNm * pattern.count;
    if (pattern.kind === 'new') summary.newBarsNm += pattern.barLengthNm * pattern.count;
    if (pattern.isDropKept) summary.keptNm += pattern.dropNm * pattern.count;
  }
  return summary;
}
