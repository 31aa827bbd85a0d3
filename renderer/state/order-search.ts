import { createStore } from 'zustand/vanilla';
import type { Evaluation } from '../../shared/evaluate';
import { isBetterOrder } from '../../shared/evaluate/better-order';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import type { ReadStore } from './read-store';

/** What a search tells the page: each better answer as it is found, and its end; `null` when it failed. */
export type SearchReply =
  | { readonly kind: 'better'; readonly evaluation: Evaluation }
  | { readonly kind: 'done'; readonly evaluation: Evaluation | null };

/** The part of a Worker that is used; tests put their own in. */
export interface SearchWorker {
  postMessage(request: { readonly plan: Plan; readonly shop: Shop }): void;
  onReply(handle: (reply: SearchReply) => void): void;
  terminate(): void;
}

/** Where a search stands: not begun, at work, ended by the user, or at the end of what it may spend. */
export type SearchStage = 'resting' | 'searching' | 'stopped' | 'searched';

export interface OrderSearchState {
  readonly stage: SearchStage;
  /** Answers taken so far; whoever shows an evaluation watches it. */
  readonly answers: number;
}

/** Looks for a cheaper order, and its proof, beside the page once the plan rests. Every better answer is taken as it comes. */
export interface OrderSearch {
  readonly store: ReadStore<OrderSearchState>;
  /** Called with each plan as it comes to stand; a search for another plan is given up. */
  consider(plan: Plan, shop: Shop): void;
  /** Ends a search; the best found so far stays. */
  stop(): void;
  /** Takes a search that was stopped up again. */
  resume(): void;
}

interface OrderSearchParts {
  readonly createWorker: () => SearchWorker | null;
  /** The evaluation of a plan as it stands. */
  readonly getEvaluation: (plan: Plan, shop: Shop) => Evaluation;
  readonly remember: (plan: Plan, shop: Shop, evaluation: Evaluation) => void;
  /** Runs once, later; gives back how to call it off. */
  readonly later: (run: () => void, delayMs: number) => () => void;
}

/** How long a plan must rest before its order is looked into. */
export const REST_MS = 800;

export function createOrderSearch({ createWorker, getEvaluation, remember, later }: OrderSearchParts): OrderSearch {
  const store = createStore<OrderSearchState>(() => ({ stage: 'resting', answers: 0 }));
  /** Plans that were searched to the end, with the shop they were searched in. */
  const searched = new WeakMap<Plan, Shop>();
  let current: { readonly plan: Plan; readonly shop: Shop } | null = null;
  let worker: SearchWorker | null = null;
  let callOff: () => void = () => undefined;

  const setStage = (stage: SearchStage): void => {
    if (store.getState().stage !== stage) store.setState({ stage });
  };

  const end = (stage: SearchStage): void => {
    callOff();
    worker?.terminate();
    worker = null;
    setStage(stage);
  };

  const take = (plan: Plan, shop: Shop, evaluation: Evaluation): void => {
    const known = getEvaluation(plan, shop).order;
    if (evaluation.order === null || (known !== null && !isBetterOrder(evaluation.order, known))) return;
    remember(plan, shop, evaluation);
    store.setState(({ answers }) => ({ answers: answers + 1 }));
  };

  const search = (plan: Plan, shop: Shop): void => {
    worker = createWorker();
    if (worker === null) return;
    setStage('searching');
    worker.onReply((reply) => {
      if (reply.evaluation !== null) take(plan, shop, reply.evaluation);
      if (reply.kind !== 'done') return;
      if (reply.evaluation !== null) searched.set(plan, shop);
      end(reply.evaluation === null ? 'resting' : 'searched');
    });
    worker.postMessage({ plan, shop });
  };

  const isOpen = (plan: Plan, shop: Shop): boolean => getEvaluation(plan, shop).order?.proven === false;

  return {
    store,
    consider(plan, shop) {
      if (current?.plan === plan && current.shop === shop) return;
      current = { plan, shop };
      const isSearched = searched.get(plan) === shop;
      end(isSearched ? 'searched' : 'resting');
      if (isSearched) return;
      callOff = later(() => {
        if (isOpen(plan, shop)) search(plan, shop);
      }, REST_MS);
    },
    stop() {
      if (worker !== null) end('stopped');
    },
    resume() {
      if (worker === null && current !== null && store.getState().stage === 'stopped')
        search(current.plan, current.shop);
    },
  };
}
