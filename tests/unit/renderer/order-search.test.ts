import { describe, expect, it } from 'vitest';
import { getProofWords } from '../../../renderer/order/proof-words';
import { createOrderSearch, type SearchReply, type SearchWorker } from '../../../renderer/state/order-search';
import type { Figure } from '../../../shared/engine/figure';
import type { OrderResult } from '../../../shared/engine/results';
import type { Evaluation } from '../../../shared/evaluate';
import { isBetterOrder } from '../../../shared/evaluate/better-order';
import type { Plan } from '../../../shared/model/plan';
import type { Shop } from '../../../shared/model/shop';

const shop = {} as Shop;

const order = (values: Partial<OrderResult> & { money?: number }): OrderResult =>
  ({
    cost: { value: values.money ?? 100 } as Figure,
    bound: 90,
    proven: false,
    provenForBlanks: false,
    unplaced: [],
    totalBars: 4,
    ...values,
  }) as OrderResult;

const evaluation = (values: Parameters<typeof order>[0]) => ({ order: order(values) }) as Evaluation;

function setUp(first: Evaluation = evaluation({})) {
  const asked: Plan[] = [];
  const known = new Map<Plan, Evaluation>();
  let waiting: (() => void) | null = null;
  let reply: ((reply: SearchReply) => void) | null = null;
  let ended = 0;
  const createWorker = (): SearchWorker => ({
    postMessage: ({ plan }) => asked.push(plan),
    onReply: (handle) => {
      reply = handle;
    },
    terminate: () => {
      ended += 1;
    },
  });
  const search = createOrderSearch({
    createWorker,
    getEvaluation: (plan) => known.get(plan) ?? first,
    remember: (plan, _shop, better) => known.set(plan, better),
    later: (run) => {
      waiting = run;
      return () => {
        waiting = null;
      };
    },
  });
  return {
    search,
    asked,
    getCost: (plan: Plan) => (known.get(plan) ?? first).order?.cost?.value,
    rest: () => waiting?.(),
    reply: (answer: SearchReply) => reply?.(answer),
    countEnded: () => ended,
    getStage: () => search.store.getState().stage,
  };
}

const plan = (name: string) => ({ name }) as Plan;
const [a, b] = [plan('a'), plan('b')];

describe('the search for a cheaper order', () => {
  it('waits until the plan rests, and only the last plan is searched', () => {
    const bench = setUp();
    bench.search.consider(a, shop);
    bench.search.consider(b, shop);
    expect(bench.asked).toEqual([]);
    bench.rest();
    expect(bench.asked).toEqual([b]);
    expect(bench.getStage()).toBe('searching');
  });

  it('does not search what is proven', () => {
    const bench = setUp(evaluation({ proven: true }));
    bench.search.consider(a, shop);
    bench.rest();
    expect(bench.asked).toEqual([]);
  });

  it('takes each better answer while it works, and none that is worse', () => {
    const bench = setUp();
    bench.search.consider(a, shop);
    bench.rest();
    bench.reply({ kind: 'better', evaluation: evaluation({ money: 120 }) });
    expect(bench.getCost(a)).toBe(100);
    bench.reply({ kind: 'better', evaluation: evaluation({ money: 97 }) });
    expect(bench.getCost(a)).toBe(97);
    expect(bench.search.store.getState()).toEqual({ stage: 'searching', answers: 1 });
    bench.reply({ kind: 'done', evaluation: evaluation({ money: 95, proven: true }) });
    expect(bench.getCost(a)).toBe(95);
    expect(bench.search.store.getState()).toEqual({ stage: 'searched', answers: 2 });
  });

  it('leaves the best so far when the user stops it, and goes on when asked', () => {
    const bench = setUp();
    bench.search.consider(a, shop);
    bench.rest();
    bench.reply({ kind: 'better', evaluation: evaluation({ money: 97 }) });
    bench.search.stop();
    expect([bench.getStage(), bench.getCost(a), bench.countEnded()]).toEqual(['stopped', 97, 1]);
    bench.search.consider(a, shop);
    expect(bench.getStage()).toBe('stopped');
    bench.search.resume();
    expect([bench.getStage(), bench.asked]).toEqual(['searching', [a, a]]);
  });

  it('is given up when the plan changes', () => {
    const bench = setUp();
    bench.search.consider(a, shop);
    bench.rest();
    bench.search.consider(b, shop);
    expect([bench.getStage(), bench.countEnded()]).toEqual(['resting', 1]);
    bench.rest();
    expect(bench.asked).toEqual([a, b]);
  });

  it('does not search again what was searched to the end', () => {
    const bench = setUp();
    bench.search.consider(a, shop);
    bench.rest();
    bench.reply({ kind: 'done', evaluation: evaluation({}) });
    bench.search.consider(b, shop);
    bench.search.consider(a, shop);
    bench.rest();
    expect([bench.getStage(), bench.asked]).toEqual(['searched', [a]]);
  });

  it('leaves what is known when the search fails', () => {
    const bench = setUp();
    bench.search.consider(a, shop);
    bench.rest();
    bench.reply({ kind: 'done', evaluation: null });
    expect(bench.search.store.getState()).toEqual({ stage: 'resting', answers: 0 });
  });
});

describe('of two orders the better one', () => {
  const base = order({});
  const missing = order({ money: 50, unplaced: [{ blankTemplateId: 'x', label: 'x', count: 1, reason: '' }] });

  it.each([
    ['leaves nothing out', base, missing],
    ['costs less', order({ money: 99 }), base],
    ['takes fewer bars at the same cost', order({ totalBars: 3 }), base],
    ['is more nearly proven', order({ bound: 95 }), base],
    ['is proven', order({ proven: true }), order({ bound: 100 })],
  ])('%s', (_why, better, other) => {
    expect(isBetterOrder(better, other)).toBe(!better.proven || other.bound !== 100);
    expect(isBetterOrder(other, better)).toBe(false);
    expect(isBetterOrder(better, better)).toBe(false);
  });
});

describe('the sentence on proof', () => {
  const money = (amount: number): string => `${amount.toFixed(2)} EUR`;

  it('says what is proven, or what could still be saved', () => {
    expect(getProofWords(order({ proven: true }), money)).toBe(
      'No cheaper way to buy and cut it exists with these bars: proven.',
    );
    expect(getProofWords(order({ bound: 99 }), money)).toBe(
      'The best way found. No way can cost less than 99.00 EUR, so 1.00 EUR at most, 1.00 %, could still be saved.',
    );
    expect(getProofWords(order({ bound: 99, provenForBlanks: true }), money)).toContain(
      'with these blanks it is proven the cheapest.',
    );
    expect(getProofWords(order({ cost: null, bound: null }), money)).toBe(
      'The best way found; it is not proven to take the fewest bars.',
    );
  });
});
