import type { App } from '../state/app';
import { type BenchController, createBenchController } from './bench-controller';
import { type Arranged, type BenchStore, createBenchStore } from './bench-store';
import { createEvaluateWorker } from './create-evaluate-worker';
import { createLiveEvaluator, type LiveEvaluator } from './live-evaluator';
import { createTyping, type Typing } from './typing';

/** What the Bench keeps while other views are shown. */
export interface BenchSession {
  readonly store: BenchStore;
  readonly controller: BenchController;
  readonly live: LiveEvaluator;
  readonly typing: Typing;
}

const sessions = new WeakMap<App, BenchSession>();

export function getBenchSession(app: App): BenchSession {
  return sessions.get(app) ?? beginBenchSession(app, null);
}

/** @param arranged how a still picture of the Bench was laid out; null when there was none */
export function beginBenchSession(app: App, arranged: Arranged | null): BenchSession {
  const store = createBenchStore(arranged);
  const live = createLiveEvaluator(createEvaluateWorker, (plan, shop) => app.evaluator(plan, shop).evaluation, {
    clock: () => performance.now(),
    later: (run, delayMs) => void window.setTimeout(run, delayMs),
  });
  const controller = createBenchController({
    documents: app.documents,
    view: app.view,
    evaluator: app.evaluator,
    live,
    store,
  });
  const session = { store, controller, live, typing: createTyping(app.documents, app.view, store, controller) };
  sessions.set(app, session);
  return session;
}
