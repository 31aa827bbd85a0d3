import type { Evaluation } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';

/** What the page sends to the worker. The shop is large and seldom changes, so it is sent once. */
export interface EvaluateRequest {
  readonly plan: Plan;
  readonly shop: Shop | null;
}

export type EvaluateReply = { readonly evaluation: Evaluation } | { readonly fault: string };

/** The part of a Worker that is used; tests put their own in. */
export interface EvaluateWorker {
  postMessage(request: EvaluateRequest): void;
  onReply(handle: (reply: EvaluateReply) => void): void;
  onBroken(handle: () => void): void;
  terminate(): void;
}

type Done = (plan: Plan, evaluation: Evaluation) => void;

interface Asked {
  readonly plan: Plan;
  readonly shop: Shop;
  readonly done: Done;
}

/** Time as the page has it; tests put their own in. */
export interface Pace {
  readonly clock: () => number;
  readonly later: (run: () => void, delayMs: number) => void;
}

/** An answer within a frame is taken at once; after a longer one the page rests, so that most frames are the drag's own. */
const FRAME_MS = 16;
const REST_TO_WORK = 2.5;
const MOST_REST_MS = 250;

const NO_PACE: Pace = { clock: () => 0, later: (run) => run() };

/** Evaluates beside the page, one plan at a time. Of the plans that wait, only the last is of use. */
export interface LiveEvaluator {
  request(plan: Plan, shop: Shop, done: Done): void;
  /** Takes up what waits without a rest: nothing is dragged any more. */
  hurry(): void;
  /** Drops what waits; an answer under way is not delivered. */
  cancel(): void;
  dispose(): void;
}

/**
 * @param createWorker null where no worker can be had; `fallBack` then answers at once
 * @param fallBack evaluates on the page itself, when the worker cannot
 * @param pace leaves the page time between answers that take long
 */
export function createLiveEvaluator(
  createWorker: () => EvaluateWorker | null,
  fallBack: (plan: Plan, shop: Shop) => Evaluation,
  pace: Pace = NO_PACE,
): LiveEvaluator {
  let worker: EvaluateWorker | null = null;
  let isBroken = false;
  let sentShop: Shop | null = null;
  let underWay: Asked | null = null;
  let waiting: Asked | null = null;
  let sentAtMs = 0;
  let isResting = false;

  const answerHere = ({ plan, shop, done }: Asked): void => done(plan, fallBack(plan, shop));

  const giveUp = (): void => {
    isBroken = true;
    worker?.terminate();
    worker = null;
    const asked = waiting ?? underWay;
    underWay = null;
    waiting = null;
    if (asked !== null) answerHere(asked);
  };

  const getWorker = (): EvaluateWorker | null => {
    if (worker !== null || isBroken) return worker;
    worker = createWorker();
    if (worker === null) {
      isBroken = true;
      return null;
    }
    worker.onReply((reply) => {
      const answered = underWay;
      underWay = null;
      if ('fault' in reply) {
        if (answered !== null) answerHere(answered);
      } else {
        answered?.done(answered.plan, reply.evaluation);
      }
      const tookMs = pace.clock() - sentAtMs;
      if (tookMs > FRAME_MS) {
        isResting = true;
        pace.later(goOn, Math.min(MOST_REST_MS, tookMs * REST_TO_WORK));
      } else {
        goOn();
      }
    });
    worker.onBroken(giveUp);
    return worker;
  };

  const goOn = (): void => {
    isResting = false;
    if (underWay !== null) return;
    const next = waiting;
    waiting = null;
    if (next !== null) send(next);
  };

  const send = (asked: Asked): void => {
    const to = getWorker();
    if (to === null) {
      answerHere(asked);
      return;
    }
    underWay = asked;
    sentAtMs = pace.clock();
    to.postMessage({ plan: asked.plan, shop: asked.shop === sentShop ? null : asked.shop });
    sentShop = asked.shop;
  };

  return {
    request(plan, shop, done) {
      const asked = { plan, shop, done };
      if (underWay === null && !isResting) send(asked);
      else waiting = asked;
    },
    hurry() {
      if (isResting) goOn();
    },
    cancel() {
      waiting = null;
      if (underWay !== null) underWay = { ...underWay, done: () => undefined };
    },
    dispose() {
      worker?.terminate();
      worker = null;
      sentShop = null;
      underWay = null;
      waiting = null;
    },
  };
}
