import { createStore } from 'zustand/vanilla';
import type { Evaluation } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import type { ReadStore } from './read-store';

/** The part of a Worker that is used; tests put their own in. */
export interface SearchWorker {
  postMessage(request: { readonly plan: Plan; readonly shop: Shop }): void;
  onReply(handle: (evaluation: Evaluation | null) => void): void;
  terminate(): void;
}

export interface OrderSearchState {
  readonly isSearching: boolean;
  /** Answers taken so far; whoever shows an evaluation watches it. */
  readonly answers: number;
}

/** Looks for a cheaper order, and its proof, beside the page once the plan rests. */
export interface OrderSearch {
  readonly store: ReadStore<OrderSearchState>;
  /** Called with each plan as it comes to stand; what was searched for before is given up. */
  consider(plan: Plan, shop: Shop, isProven: () => boolean): void;
  /** Ends a search; the best found while typing stays. */
  stop(): void;
}

interface OrderSearchParts {
  readonly createWorker: () => SearchWorker | null;
  readonly remember: (plan: Plan, shop: Shop, evaluation: Evaluation) => void;
  /** Runs once, later; gives back how to call it off. */
  readonly later: (run: () => void, delayMs: number) => () => void;
}

/** How long a plan must rest before its order is looked into. */
export const REST_MS = 800;

export function createOrderSearch({ createWorker, remember, later }: OrderSearchParts): OrderSearch {
  const store = createStore<OrderSearchState>(() => ({ isSearching: false, answers: 0 }));
  let worker: SearchWorker | null = null;
  let callOff: () => void = () => undefined;

  const stop = (): void => {
    callOff();
    worker?.terminate();
    worker = null;
    if (store.getState().isSearching) store.setState({ isSearching: false });
  };

  const search = (plan: Plan, shop: Shop): void => {
    worker = createWorker();
    if (worker === null) return;
    store.setState({ isSearching: true });
    worker.onReply((evaluation) => {
      if (evaluation !== null) remember(plan, shop, evaluation);
      stop();
      store.setState(({ answers }) => ({ answers: answers + 1 }));
    });
    worker.postMessage({ plan, shop });
  };

  return {
    store,
    consider(plan, shop, isProven) {
      stop();
      callOff = later(() => {
        if (!isProven()) search(plan, shop);
      }, REST_MS);
    },
    stop,
  };
}
