/// <reference lib="webworker" />
import { evaluate } from '../../shared/evaluate';
import type { Shop } from '../../shared/model/shop';
import { computePatch, type Patch } from './evaluation-patch';
import type { EvaluateRequest } from './live-evaluator';

/** What has changed since the evaluation before; the first is whole. */
export type EvaluateMessage = { readonly patch: Patch } | { readonly fault: string };

// Beside the page, so that a drag is drawn on every frame however long the figures take.
let shop: Shop | null = null;
let sent: unknown = null;

self.onmessage = (event: MessageEvent<EvaluateRequest>): void => {
  shop = event.data.shop ?? shop;
  if (shop !== null) self.postMessage(getMessage(event.data, shop));
};

function getMessage({ plan }: EvaluateRequest, withShop: Shop): EvaluateMessage {
  try {
    const evaluation = evaluate(plan, withShop);
    const patch = computePatch(sent, evaluation);
    sent = evaluation;
    return { patch };
  } catch (error) {
    return { fault: error instanceof Error ? error.message : String(error) };
  }
}
