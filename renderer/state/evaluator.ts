import type { Evaluation } from '../../shared/evaluate';
import { getEmptyResults } from '../../shared/evaluate/empty-results';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';

export interface EvaluatorResult {
  readonly evaluation: Evaluation;
  /** What went wrong when the evaluation is not of this plan but of the last that could be computed; '' when well. */
  readonly fault: string;
}

export interface Evaluator {
  (plan: Plan, shop: Shop): EvaluatorResult;
  /** Takes an answer that was computed elsewhere, so that a plan on its way into the documents costs nothing here. */
  remember(plan: Plan, shop: Shop, evaluation: Evaluation): void;
}

/** Panels may lag behind the canvas by a few plans while something is dragged; each is still known. */
const KEPT = 32;

interface Kept {
  readonly plan: Plan;
  readonly shop: Shop;
  readonly result: EvaluatorResult;
}

/**
 * Computes once for each pair of plan and shop, by identity: both are replaced, never changed. What is known of a
 * plan holds on other paper too. A fault in the engine keeps the last good figures on the screen with a sentence, rather
 * than taking the plan away from the user.
 */
export function createEvaluator(evaluate: (plan: Plan, shop: Shop) => Evaluation, empty: Evaluation): Evaluator {
  /** The newest comes last. */
  const kept: Kept[] = [];
  const keep = (plan: Plan, shop: Shop, result: EvaluatorResult): EvaluatorResult => {
    kept.push({ plan, shop, result });
    if (kept.length > KEPT) kept.shift();
    return result;
  };
  const get = (plan: Plan, shop: Shop): EvaluatorResult => {
    const known = kept.findLast((one) => one.shop === shop && isSameJob(one.plan, plan));
    if (known !== undefined) return known.result;
    try {
      return keep(plan, shop, { evaluation: evaluate(plan, shop), fault: '' });
    } catch (error) {
      const fault = error instanceof Error ? error.message : String(error);
      return keep(plan, shop, { evaluation: kept.at(-1)?.result.evaluation ?? empty, fault });
    }
  };
  const remember = (plan: Plan, shop: Shop, evaluation: Evaluation): void => {
    keep(plan, shop, { evaluation, fault: '' });
  };
  return Object.assign(get, { remember });
}

/** True when all that is evaluated is the same: on which paper a sheet is printed makes no figure another. */
function isSameJob(a: Plan, b: Plan): boolean {
  const fields = Object.keys(a) as (keyof Plan)[];
  return a === b || fields.every((field) => field === 'sheet' || a[field] === b[field]);
}

/** An evaluation that says nothing yet. */
export const EMPTY_EVALUATION: Evaluation = { ...getEmptyResults(), governingBlank: 0, findings: [] };
