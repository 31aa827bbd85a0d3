import type { Host, StartInfo } from '../../shared/contract/host';
import type { Evaluation } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import { type Actions, createActions } from './actions';
import { APP_ACTIONS } from './app-actions';
import { createDialogs, type Dialogs } from './dialogs';
import { createDocuments, type Documents } from './documents';
import { createEvaluator, EMPTY_EVALUATION, type Evaluator } from './evaluator';
import { createFiles, type Files } from './files';
import { createView, type KeptView, type View } from './view';

/** Everything the page works with. Made once when the host has answered; React reads it through hooks. */
export interface App {
  readonly start: StartInfo;
  readonly host: Host;
  readonly documents: Documents;
  readonly view: View;
  readonly dialogs: Dialogs;
  readonly files: Files;
  readonly actions: Actions<App>;
  readonly evaluator: Evaluator;
  readonly onMac: boolean;
}

/** What the app takes from around it, so that it can be made without a page. */
export interface AppParts {
  readonly host: Host;
  readonly start: StartInfo;
  readonly evaluate: (plan: Plan, shop: Shop) => Evaluation;
  readonly buildNewPlan: (shop: Shop) => Plan;
  readonly withLibrary: (plan: Plan, shop: Shop) => Plan;
  readonly clock: () => number;
  readonly later: (run: () => void, delayMs: number) => () => void;
  readonly kept: Partial<KeptView>;
  readonly onMac: boolean;
}

export function createApp(parts: AppParts): App {
  const { host, start } = parts;
  const documents = createDocuments(start.opened.plan, start.shop, parts.clock);
  const view = createView(parts.kept);
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
  return {
    start,
    host,
    documents,
    view,
    dialogs,
    files,
    actions: createActions(APP_ACTIONS),
    evaluator: createEvaluator(parts.evaluate, EMPTY_EVALUATION),
    onMac: parts.onMac,
  };
}
