import type { Host, StartInfo } from '../../shared/contract/host';
import type { Evaluation } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import { createActions } from './actions';
import type { App } from './app';
import { APP_ACTIONS } from './app-actions';
import { createDialogs } from './dialogs';
import { createDocuments, type MayTake } from './documents';
import { createEvaluator, EMPTY_EVALUATION } from './evaluator';
import { createFiles } from './files';
import { createOrderSearch, type SearchWorker } from './order-search';
import { createView, type KeptView, type ViewState } from './view';

/** What the app takes from around it, so that it can be made without a page. */
export interface AppParts {
  readonly host: Host;
  readonly start: StartInfo;
  readonly evaluate: (plan: Plan, shop: Shop) => Evaluation;
  readonly buildNewPlan: (shop: Shop, units: Plan['units']) => Plan;
  readonly withLibrary: (plan: Plan, shop: Shop) => Plan;
  /** Why no file could hold a plan, as a sentence; '' when one could. */
  readonly getRefusal: (plan: Plan) => string;
  readonly createSearchWorker: () => SearchWorker | null;
  readonly clock: () => number;
  readonly later: (run: () => void, delayMs: number) => () => void;
  readonly kept: Partial<KeptView & Pick<ViewState, 'setupOpen'>>;
  readonly onMac: boolean;
}

export function createApp(parts: AppParts): App {
  const { host, start } = parts;
  const view = createView(parts.kept);
  const mayTake: MayTake = (step, plan) => {
    const refusal = parts.getRefusal(plan);
    if (refusal !== '') view.notify('problem', `“${step}” was not done, as the plan could not be saved: ${refusal}`);
    return refusal === '';
  };
  const documents = createDocuments(start.opened.plan, start.shop, parts.clock, mayTake);
  const dialogs = createDialogs();
  const files = createFiles({
    host,
    nativeDialogs: start.nativeDialogs,
    documents,
    view,
    dialogs,
    recents: start.recents,
    opened: start.opened,
    buildNewPlan: parts.buildNewPlan,
    withLibrary: parts.withLibrary,
    later: parts.later,
  });
  const evaluator = createEvaluator(parts.evaluate, EMPTY_EVALUATION);
  const { evaluation, opened, shop } = start;
  if (evaluation !== null) evaluator.remember(opened.plan, shop, evaluation);
  return {
    start,
    host,
    documents,
    view,
    dialogs,
    files,
    actions: createActions(APP_ACTIONS),
    evaluator,
    orderSearch: createOrderSearch({
      createWorker: parts.createSearchWorker,
      getEvaluation: (plan, shop) => evaluator(plan, shop).evaluation,
      remember: evaluator.remember,
      later: parts.later,
    }),
    onMac: parts.onMac,
  };
}
