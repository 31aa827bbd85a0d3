import { createContext, useContext } from 'react';
import { useStore } from 'zustand';
import type { Evaluation } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import { resolveShop } from '../../shared/model/plan-library';
import type { Shop } from '../../shared/model/shop';
import type { App } from './app';
import type { History } from './documents';
import type { FilesState } from './files';
import type { SearchStage } from './order-search';
import type { ViewState } from './view';

export const AppContext = createContext<App | null>(null);

export function useApp(): App {
  const app = useContext(AppContext);
  if (app === null) throw new Error('The page was built outside the app.');
  return app;
}

export function usePlan(): Plan {
  return useStore(useApp().documents.store, (state) => state.plan);
}

/** One fact of the plan; what asks for it is not drawn again while the fact stands, however the plan is dragged about. */
export function usePlanFact<T extends string | number | boolean | null>(select: (plan: Plan) => T): T {
  return useStore(useApp().documents.store, (state) => select(state.plan));
}

export function useShop(): Shop {
  return useStore(useApp().documents.store, (state) => state.shop);
}

/** The shop with the plan's own copies laid over it, as the engine reads it. */
export function useKnownShop(): Shop {
  const plan = usePlan();
  const shop = useShop();
  return resolveShop(plan, shop);
}

/** The evaluation of the plan as it stands; computed once for all who ask. */
export function useEvaluation(): Evaluation {
  const app = useApp();
  useStore(app.orderSearch.store, (state) => state.answers);
  return app.evaluator(usePlan(), useShop()).evaluation;
}

/** The sentence of a fault in the engine; '' when the figures are of the plan as it stands. */
export function useEvaluationFault(): string {
  return useApp().evaluator(usePlan(), useShop()).fault;
}

/** Where the search for a cheaper order beside the page stands. */
export function useSearchStage(): SearchStage {
  return useStore(useApp().orderSearch.store, (state) => state.stage);
}

export function useHistory(): History {
  return useStore(useApp().documents.history);
}

export function useFiles(): FilesState {
  return useStore(useApp().files.store);
}

export function useView<T>(select: (view: ViewState) => T): T {
  return useStore(useApp().view.store, select);
}

/** True when the open plan has changes that are not on file. */
export function useUnsaved(): boolean {
  const { savedPlan } = useFiles();
  return usePlanFact((plan) => plan !== savedPlan);
}
