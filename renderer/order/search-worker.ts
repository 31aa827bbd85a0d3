/// <reference lib="webworker" />
import { type Evaluation, evaluate, THOROUGH } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import type { SearchReply } from '../state/order-search';

/** No more than two or three answers a second are told: figures that change faster cannot be read. */
const LEAST_GAP_MS = 400;

// Beside the page: a search for the cheapest order may take seconds. It is ended from outside, so every answer is told.
self.onmessage = ({ data }: MessageEvent<{ readonly plan: Plan; readonly shop: Shop }>): void => {
  try {
    search(data.plan, data.shop);
  } catch {
    // The page has its own answer and says what is wrong with it.
    post({ kind: 'done', evaluation: null });
  }
};

function search(plan: Plan, shop: Shop): void {
  let waiting: (() => Evaluation) | null = null;
  let told = performance.now();
  const tell = (): void => {
    if (waiting === null || performance.now() - told < LEAST_GAP_MS) return;
    post({ kind: 'better', evaluation: waiting() });
    waiting = null;
    told = performance.now();
  };
  const evaluation = evaluate(plan, shop, {
    ...THOROUGH,
    onProgress: (getEvaluation) => {
      waiting = getEvaluation;
      tell();
    },
    shouldStop: () => {
      tell();
      return false;
    },
  });
  post({ kind: 'done', evaluation });
}

function post(reply: SearchReply): void {
  self.postMessage(reply);
}
