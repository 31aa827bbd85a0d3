/// <reference lib="webworker" />
import { evaluate, THOROUGH } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';

// Beside the page: a search for the cheapest order may take seconds.
self.onmessage = ({ data }: MessageEvent<{ readonly plan: Plan; readonly shop: Shop }>): void => {
  try {
    self.postMessage(evaluate(data.plan, data.shop, THOROUGH));
  } catch {
    // The page has its own answer and says what is wrong with it.
    self.postMessage(null);
  }
};
