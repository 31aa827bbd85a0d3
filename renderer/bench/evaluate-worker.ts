/// <reference lib="webworker" />
import { evaluate } from '../../shared/evaluate';
import type { Shop } from '../../shared/model/shop';
import type { EvaluateReply, EvaluateRequest } from './live-evaluator';

// Beside the page, so that a drag is drawn on every frame however long the figures take.
let shop: Shop | null = null;

self.onmessage = (event: MessageEvent<EvaluateRequest>): void => {
  shop = event.data.shop ?? shop;
  if (shop !== null) self.postMessage(getReply(event.data, shop));
};

function getReply({ plan }: EvaluateRequest, withShop: Shop): EvaluateReply {
  try {
    return { evaluation: evaluate(plan, withShop) };
  } catch (error) {
    return { fault: error instanceof Error ? error.message : String(error) };
  }
}
