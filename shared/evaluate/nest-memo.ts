import { computeNest } from '../nest/compute-nest';
import type { NestBudget, NestInput, NestResult } from '../nest/types';

/**
 * Answers already worked out. Nesting is pure, and dragging a part or a vise asks the same question again for every bar
 * on offer, so the last answers are kept; the oldest go first.
 */
const answers = new Map<string, NestResult>();

/** Enough for two plans against 120 ways of holding 60 bars. */
const MOST_ANSWERS = 512;

/** {@link computeNest}, remembered by input and work allowed. */
export function getNest(input: NestInput, budget: NestBudget): NestResult {
  const key = `${budget.workUnits}|${JSON.stringify(input)}`;
  const known = answers.get(key);
  if (known !== undefined) {
    answers.delete(key);
    answers.set(key, known);
    return known;
  }
  const answer = computeNest(input, budget);
  answers.set(key, answer);
  if (answers.size > MOST_ANSWERS) {
    const oldest = answers.keys().next();
    if (oldest.done !== true) answers.delete(oldest.value);
  }
  return answer;
}
