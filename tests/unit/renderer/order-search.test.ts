import { describe, expect, it } from 'vitest';
import { createOrderSearch, type SearchWorker } from '../../../renderer/state/order-search';
import type { Evaluation } from '../../../shared/evaluate';
import type { Plan } from '../../../shared/model/plan';
import type { Shop } from '../../../shared/model/shop';

const shop = {} as Shop;
const answer = { order: { proven: true } } as unknown as Evaluation;

function setUp() {
  const asked: Plan[] = [];
  const remembered: Plan[] = [];
  let waiting: (() => void) | null = null;
  let reply: ((evaluation: Evaluation | null) => void) | null = null;
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
    remember: (plan) => remembered.push(plan),
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
    remembered,
    rest: () => waiting?.(),
    reply: (evaluation: Evaluation | null) => reply?.(evaluation),
    countEnded: () => ended,
  };
}

const plan = (name: string) => ({ name }) as Plan;

describe('the search for a cheaper order', () => {
  it('waits until the plan rests, and only the last plan is searched', () => {
    const bench = setUp();
    bench.search.consider(plan('a'), shop, () => false);
    bench.search.consider(plan('b'), shop, () => false);
    expect(bench.asked).toEqual([]);
    bench.rest();
    expect(bench.asked).toEqual([{ name: 'b' }]);
    expect(bench.search.store.getState().isSearching).toBe(true);
  });

  it('does not search what is proven', () => {
    const bench = setUp();
    bench.search.consider(plan('a'), shop, () => true);
    bench.rest();
    expect(bench.asked).toEqual([]);
  });

  it('keeps the answer with the plan it is of, and tells who watches', () => {
    const bench = setUp();
    bench.search.consider(plan('a'), shop, () => false);
    bench.rest();
    bench.reply(answer);
    expect(bench.remembered).toEqual([{ name: 'a' }]);
    expect(bench.search.store.getState()).toEqual({ isSearching: false, answers: 1 });
  });

  it('is given up when the plan changes or the user stops it, and nothing is remembered', () => {
    const bench = setUp();
    bench.search.consider(plan('a'), shop, () => false);
    bench.rest();
    bench.search.consider(plan('b'), shop, () => false);
    expect(bench.countEnded()).toBe(1);
    bench.search.stop();
    bench.rest();
    expect(bench.asked).toEqual([{ name: 'a' }]);
    expect(bench.remembered).toEqual([]);
  });

  it('leaves what is known when the search fails', () => {
    const bench = setUp();
    bench.search.consider(plan('a'), shop, () => false);
    bench.rest();
    bench.reply(null);
    expect(bench.remembered).toEqual([]);
    expect(bench.search.store.getState().isSearching).toBe(false);
  });
});
