import { temporal } from 'zundo';
import { createStore } from 'zustand/vanilla';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import type { ReadStore } from './read-store';
import { applyShopToLibrary } from './shop-library';

/** The undoable half of the state: what is on file. `step` names the change that led here. */
export interface DocumentState {
  readonly plan: Plan;
  readonly shop: Shop;
  readonly step: string;
  /** Steps with the same key in a row are one step; '' never joins. */
  readonly joinKey: string;
}

export interface EditOptions {
  /** A run of edits with this key within a second is one step: nudges, a held arrow key, a spun wheel. */
  readonly join?: string;
}

export type PlanChange = (plan: Plan) => Plan;
export type ShopChange = (shop: Shop) => Shop;

/** The plan and the shop with their history. Every change goes through here and is one named step. */
export interface Documents {
  readonly store: ReadStore<DocumentState>;
  readonly history: ReadStore<History>;
  /** One undoable step. A change that returns the plan it was given is no step. */
  edit(step: string, change: PlanChange, options?: EditOptions): void;
  editShop(step: string, change: ShopChange, options?: EditOptions): void;
  /** Starts a drag: what follows is seen at once and becomes one step at its end. */
  beginGesture(step: string): void;
  /** `change` is given the plan as it was when the gesture began, so that it can be called once a frame without drift. */
  updateGesture(change: PlanChange): void;
  /** Ends the gesture; the new name replaces the one it began with. */
  endGesture(step?: string): void;
  /** Puts back the plan as it was when the gesture began. */
  cancelGesture(): void;
  isGesturing(): boolean;
  undo(): void;
  redo(): void;
  /** What undo would come back to, the last first; a step that left the plan as it was is passed over. */
  getPast(): readonly PastPlan[];
  /** Takes another plan: the history starts anew. */
  openPlan(plan: Plan): void;
}

/** The plan as it was before a step. */
export interface PastPlan {
  readonly step: string;
  readonly plan: Plan;
}

export interface History {
  /** Names of the steps that can be undone, last first. */
  readonly undo: readonly string[];
  /** Names of the steps that can be redone, next first. */
  readonly redo: readonly string[];
}

interface Gesture {
  readonly step: string;
  readonly start: DocumentState;
}

const HISTORY_LIMIT = 500;
const JOIN_WITHIN_MS = 1000;

/** Whether a step may be taken; the one who answers tells the user why not. */
export type MayTake = (step: string, plan: Plan) => boolean;

/**
 * @param clock milliseconds, for joining quick repeats; passed in so that tests need no waiting
 * @param mayTake asked before every edit: a plan that no file could hold must not become the one that is open
 */
export function createDocuments(plan: Plan, shop: Shop, clock: () => number, mayTake: MayTake = () => true): Documents {
  const store = createStore<DocumentState>()(
    temporal((): DocumentState => ({ plan, shop, step: '', joinKey: '' }), {
      limit: HISTORY_LIMIT,
      equality: (past, current) => past.plan === current.plan && past.shop === current.shop,
    }),
  );
  const history = createStore<History>(() => ({ undo: [], redo: [] }));
  let gesture: Gesture | null = null;
  let lastEditAtMs = Number.NEGATIVE_INFINITY;

  const setQuietly = (state: Partial<DocumentState>): void => {
    store.temporal.getState().pause();
    store.setState(state);
    store.temporal.getState().resume();
  };

  const syncHistory = (): void => {
    const { pastStates, futureStates } = store.temporal.getState();
    const current = store.getState().step;
    const undo = pastStates.map((_past, index) => pastStates[index + 1]?.step ?? current);
    history.setState({ undo: undo.reverse(), redo: futureStates.map((state) => state.step ?? '').reverse() });
  };

  const setStep = (next: DocumentState): void => {
    const current = store.getState();
    if (next.plan === current.plan && next.shop === current.shop) return;
    const now = clock();
    const joins = next.joinKey !== '' && next.joinKey === current.joinKey && now - lastEditAtMs < JOIN_WITHIN_MS;
    lastEditAtMs = now;
    if (joins) {
      setQuietly(next);
    } else {
      store.setState(next);
    }
    syncHistory();
  };

  const endGesture = (step?: string): void => {
    if (gesture === null) return;
    const { start, step: begun } = gesture;
    gesture = null;
    if (store.getState().plan === start.plan) return;
    // Entered by hand, so that nobody sees the plan jump back to its start for a moment.
    const { pastStates } = store.temporal.getState();
    store.temporal.setState({ pastStates: [...pastStates.slice(1 - HISTORY_LIMIT), start], futureStates: [] });
    setQuietly({ step: step ?? begun, joinKey: '' });
    syncHistory();
  };

  const cancelGesture = (): void => {
    if (gesture === null) return;
    const { start } = gesture;
    gesture = null;
    setQuietly(start);
  };

  return {
    store,
    history,
    edit(step, change, options) {
      endGesture();
      const current = store.getState();
      const next = change(current.plan);
      if (next === current.plan || !mayTake(step, next)) return;
      setStep({ ...current, plan: next, step, joinKey: options?.join ?? '' });
    },
    editShop(step, change, options) {
      endGesture();
      const current = store.getState();
      const next = change(current.shop);
      const plan = applyShopToLibrary(current.plan, current.shop, next);
      setStep({ plan, shop: next, step, joinKey: options?.join ?? '' });
    },
    beginGesture(step) {
      endGesture();
      gesture = { step, start: store.getState() };
    },
    updateGesture(change) {
      if (gesture === null) return;
      setQuietly({ plan: change(gesture.start.plan) });
    },
    endGesture,
    cancelGesture,
    isGesturing: () => gesture !== null,
    undo() {
      if (gesture !== null) return cancelGesture();
      store.temporal.getState().undo();
      lastEditAtMs = Number.NEGATIVE_INFINITY;
      syncHistory();
    },
    redo() {
      endGesture();
      store.temporal.getState().redo();
      lastEditAtMs = Number.NEGATIVE_INFINITY;
      syncHistory();
    },
    getPast() {
      const past = store.temporal.getState().pastStates;
      const { undo } = history.getState();
      const plans = [...past.map((state) => state.plan ?? plan), store.getState().plan].reverse();
      return undo.flatMap((step, index) => {
        const before = plans[index + 1];
        return before === undefined || before === plans[index] ? [] : [{ step, plan: before }];
      });
    },
    openPlan(opened) {
      cancelGesture();
      setQuietly({ plan: opened, step: '', joinKey: '' });
      store.temporal.getState().clear();
      syncHistory();
    },
  };
}
