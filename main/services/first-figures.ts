import { type Evaluation, evaluate } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';

/** Works out what the plan that a page begins with comes to, so that its first picture need not wait for that. */
export type FirstFigures = (plan: Plan, shop: Shop) => Evaluation | null;

/**
 * Remembers its last answer by content: what was worked out while the window opened is read anew when its page asks.
 *
 * @returns the evaluation; null after a fault in the engine, which the page comes upon itself and tells of
 */
export function createFirstFigures(): FirstFigures {
  let last: { job: string; evaluation: Evaluation | null } | null = null;
  return (plan, shop) => {
    const job = JSON.stringify([plan, shop]);
    if (last?.job !== job) last = { job, evaluation: getEvaluation(plan, shop) };
    return last.evaluation;
  };
}

function getEvaluation(plan: Plan, shop: Shop): Evaluation | null {
  try {
    return evaluate(plan, shop);
  } catch {
    return null;
  }
}
