import { cleanNumber } from './clean-number';
import { parsePlan } from './parse-plan';
import { parseShop } from './parse-shop';
import type { Plan } from './plan';
import type { ParseProblem } from './problem';
import type { Shop } from './shop';

/** What a plan or shop that must not be written says of itself. */
export class UnwritableError extends Error {
  readonly problem: ParseProblem;

  constructor(problem: ParseProblem) {
    super(problem.sentence);
    this.name = 'UnwritableError';
    this.problem = problem;
  }
}

/**
 * A plan as the text of its file: keys in one order, two-space indents, a newline at the end, numbers without the noise of sums.
 * The same plan always gives the same text, and what is read back from it is written as that text again.
 *
 * @throws UnwritableError when the plan could not be read back, so that no unreadable file is ever written
 */
export function serializePlan(plan: Plan): string {
  const read = parsePlan(plan);
  if (!read.ok) throw new UnwritableError(read.problem);
  return getText(read.plan);
}

/** A shop as the text of its file; see {@link serializePlan}. */
export function serializeShop(shop: Shop): string {
  const read = parseShop(shop);
  if (!read.ok) throw new UnwritableError(read.problem);
  return getText(read.shop);
}

function getText(value: Plan | Shop): string {
  return `${JSON.stringify(value, (_key, entry: unknown) => (typeof entry === 'number' ? cleanNumber(entry) : entry), 2)}\n`;
}
