import type { Evaluation } from '../../shared/evaluate';
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

/**
 * Computes once for each pair of plan and shop, by identity: both are replaced, never changed. A fault in the engine
 * keeps the last good figures on the screen with a sentence, rather than taking the plan away from the user.
 */
export function createEvaluator(evaluate: (plan: Plan, shop: Shop) => Evaluation, empty: Evaluation): Evaluator {
  let lastPlan: Plan | null = null;
  let lastShop: Shop | null = null;
  let last: EvaluatorResult = { evaluation: empty, fault: '' };
  const get = (plan: Plan, shop: Shop): EvaluatorResult => {
    if (plan === lastPlan && shop === lastShop) return last;
    lastPlan = plan;
    lastShop = shop;
    try {
      last = { evaluation: evaluate(plan, shop), fault: '' };
    } catch (error) {
      last = { evaluation: last.evaluation, fault: error instanceof Error ? error.message : String(error) };
    }
    return last;
  };
  const remember = (plan: Plan, shop: Shop, evaluation: Evaluation): void => {
    lastPlan = plan;
    lastShop = shop;
    last = { evaluation, fault: '' };
  };
  return Object.assign(get, { remember });
}

/** An evaluation that says nothing yet. */
export const EMPTY_EVALUATION: Evaluation = {
  section: null,
  blanks: [],
  governingBlank: 0,
  across: [],
  seat: null,
  vises: null,
  cuts: [],
  reach: [],
  release: null,
  bow: [],
  allowance: [],
  gang: [],
  spares: [],
  order: null,
  sections: [],
  figures: {
    grip: null,
    proudHeight: null,
    shelfDepth: null,
    hold: null,
    rib: null,
    stickOut: null,
    bars: null,
    yield: null,
    cost: null,
  },
  findings: [],
};
