import { describe, expect, it } from 'vitest';
import {
  createLiveEvaluator,
  type EvaluateReply,
  type EvaluateRequest,
  type EvaluateWorker,
} from '../../../renderer/bench/live-evaluator';
import { EMPTY_EVALUATION } from '../../../renderer/state/evaluator';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { buildEmptyPlan } from '../../../shared/model/defaults';
import type { Plan } from '../../../shared/model/plan';

const first = buildEmptyPlan({ units: 'in', date: '', author: '', shop: defaultShop });
const buildPlan = (name: string): Plan => ({ ...first, name });

/** A worker that answers, and breaks, when it is told to. */
function buildWorker() {
  const asked: EvaluateRequest[] = [];
  let handle: (reply: EvaluateReply) => void = () => undefined;
  let handleBroken = (): void => undefined;
  const worker: EvaluateWorker = {
    postMessage: (request) => asked.push(request),
    onReply: (next) => {
      handle = next;
    },
    onBroken: (next) => {
      handleBroken = next;
    },
    terminate: () => undefined,
  };
  return {
    worker,
    asked,
    answer: (reply: EvaluateReply = { evaluation: EMPTY_EVALUATION }) => handle(reply),
    break: () => handleBroken(),
  };
}

describe('live evaluator', () => {
  it('evaluates one plan at a time and of those that wait only the last', () => {
    const fake = buildWorker();
    const live = createLiveEvaluator(
      () => fake.worker,
      () => EMPTY_EVALUATION,
    );
    const done: string[] = [];
    for (const name of ['a', 'b', 'c']) live.request(buildPlan(name), defaultShop, (plan) => done.push(plan.name));
    expect(fake.asked.map(({ plan }) => plan.name)).toEqual(['a']);
    fake.answer();
    expect(fake.asked.map(({ plan }) => plan.name)).toEqual(['a', 'c']);
    fake.answer();
    expect(done).toEqual(['a', 'c']);
  });

  it('sends the shop once, and again when it is another', () => {
    const fake = buildWorker();
    const live = createLiveEvaluator(
      () => fake.worker,
      () => EMPTY_EVALUATION,
    );
    const shops = [defaultShop, defaultShop, { ...defaultShop, name: 'other' }];
    for (const shop of shops) {
      live.request(buildPlan('x'), shop, () => undefined);
      fake.answer();
    }
    expect(fake.asked.map(({ shop }) => shop?.name ?? null)).toEqual([defaultShop.name, null, 'other']);
  });

  it('delivers nothing that was cancelled', () => {
    const fake = buildWorker();
    const live = createLiveEvaluator(
      () => fake.worker,
      () => EMPTY_EVALUATION,
    );
    const done: string[] = [];
    live.request(buildPlan('a'), defaultShop, (plan) => done.push(plan.name));
    live.request(buildPlan('b'), defaultShop, (plan) => done.push(plan.name));
    live.cancel();
    fake.answer();
    expect(done).toEqual([]);
    expect(fake.asked).toHaveLength(1);
  });

  it('rests after an answer that took longer than a frame, and then takes up the last plan that waits', () => {
    const fake = buildWorker();
    let nowMs = 0;
    const rests: { run: () => void; delayMs: number }[] = [];
    const live = createLiveEvaluator(
      () => fake.worker,
      () => EMPTY_EVALUATION,
      { clock: () => nowMs, later: (run, delayMs) => rests.push({ run, delayMs }) },
    );
    live.request(buildPlan('a'), defaultShop, () => undefined);
    nowMs = 40;
    fake.answer();
    live.request(buildPlan('b'), defaultShop, () => undefined);
    live.request(buildPlan('c'), defaultShop, () => undefined);
    expect(fake.asked.map(({ plan }) => plan.name)).toEqual(['a']);
    expect(rests.map(({ delayMs }) => delayMs)).toEqual([100]);
    rests[0]?.run();
    expect(fake.asked.map(({ plan }) => plan.name)).toEqual(['a', 'c']);
    nowMs = 45;
    fake.answer();
    expect(rests).toHaveLength(1);
  });

  it('answers on the page when the worker cannot be had, breaks, or faults', () => {
    const done: string[] = [];
    const take = (plan: Plan): void => {
      done.push(plan.name);
    };
    createLiveEvaluator(
      () => null,
      () => EMPTY_EVALUATION,
    ).request(buildPlan('none'), defaultShop, take);
    const fake = buildWorker();
    const live = createLiveEvaluator(
      () => fake.worker,
      () => EMPTY_EVALUATION,
    );
    live.request(buildPlan('faults'), defaultShop, take);
    fake.answer({ fault: 'a fault of the engine' });
    live.request(buildPlan('breaks'), defaultShop, take);
    fake.break();
    live.request(buildPlan('after'), defaultShop, take);
    expect(done).toEqual(['none', 'faults', 'breaks', 'after']);
  });
});
