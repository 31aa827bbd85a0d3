import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeNest, computeNestTotals, LIGHT_BUDGET } from '../../../shared/nest/compute-nest';
import { GreedyBook } from '../../../shared/nest/greedy-book';
import type { NestInput, NestPattern, NestProgress } from '../../../shared/nest/types';
import { findBruteBest } from './brute-force';
import { checkAnswer } from './check-answer';
import { makeRandom, makeShopJob, makeSmallJob } from './random-jobs';

const BUDGET = { workUnits: 3e8 };
const NO_ENDS = { squaringTrimNm: 0, badEndLeftNm: 0, badEndRightNm: 0, stubNm: 0 };

describe('least-cost nesting beside a search that tries everything', () => {
  it.each(['few', 'all'] as const)(
    'agrees on cost, bars and longest drop in 2,000 small jobs with %s blanks ganged, and proves each',
    (ganged) => {
      const disagreements: string[] = [];
      let short = 0;
      for (let seed = 0; seed < 2000; seed++) {
        const input = makeSmallJob(seed, ganged);
        const result = computeNest(input, BUDGET);
        const best = findBruteBest(input);
        for (const fault of checkAnswer(input, result)) disagreements.push(`${seed}: ${fault}`);
        const isShort = result.outcomes.some((outcome) => outcome.partsMissing > 0);
        if (!best || isShort) {
          if (best || !isShort) disagreements.push(`${seed}: bars suffice for one of the two only`);
          short++;
          continue;
        }
        const got = [result.totalMinor, result.barCount, result.longestDropNm].join();
        const wanted = [best.total, best.bars, best.longestDropNm].join();
        if (got !== wanted) disagreements.push(`${seed}: got ${got}, best is ${wanted}`);
        const isProven = result.isProven && result.isBarCountProven && result.isDropProven;
        if (!isProven) disagreements.push(`${seed}: not proven`);
      }
      expect(disagreements).toEqual([]);
      expect(short).toBeLessThan(200);
    },
    120_000,
  );
});

describe('jobs as a shop has them', () => {
  it('recounts right in every cut and cost, with an honest bound close by', () => {
    let proven = 0;
    for (let seed = 0; seed < 12; seed++) {
      const input = makeShopJob(seed);
      const result = computeNest(input, { workUnits: 5e7 });
      expect(checkAnswer(input, result)).toEqual([]);
      expect(result.problems).toEqual([]);
      expect(result.gap).toBeLessThan(0.02);
      if (result.isProven) proven++;
    }
    expect(proven).toBeGreaterThanOrEqual(6);
  }, 120_000);

  it('gives a right answer even with next to no budget', () => {
    for (let seed = 100; seed < 130; seed++) {
      const input = makeShopJob(seed);
      const result = computeNest(input, LIGHT_BUDGET);
      expect(checkAnswer(input, result)).toEqual([]);
      expect(result.outcomes.every((outcome) => outcome.partsMissing === 0)).toBe(true);
    }
  });

  it('answers the same for the same budget and reports bounds that only rise and answers that only fall', () => {
    const input = makeShopJob(3);
    const seen: NestProgress[] = [];
    const first = computeNest(input, { workUnits: 4e7, onProgress: (progress) => seen.push(progress) });
    const second = computeNest(input, { workUnits: 4e7 });
    expect(second).toEqual(first);
    expect(seen.length).toBeGreaterThan(1);
    for (let k = 1; k < seen.length; k++) {
      const [before, after] = [seen[k - 1] as NestProgress, seen[k] as NestProgress];
      expect(after.boundMinor).toBeGreaterThanOrEqual(before.boundMinor);
      expect(after.incumbentMinor ?? Number.POSITIVE_INFINITY).toBeLessThanOrEqual(
        before.incumbentMinor ?? Number.POSITIVE_INFINITY,
      );
    }
  }, 120_000);

  it('gives the same totals without laying out the bars', () => {
    for (let seed = 0; seed < 120; seed++) {
      const input = seed < 100 ? makeSmallJob(seed) : makeShopJob(seed);
      const result = computeNest(input, LIGHT_BUDGET);
      const totals = computeNestTotals(input, LIGHT_BUDGET);
      const sumUp = (getLength: (pattern: NestPattern) => number): number =>
        result.patterns.reduce((sum, pattern) => sum + pattern.count * getLength(pattern), 0);
      expect(totals).toMatchObject({
        costMinor: result.costMinor,
        worthMinor: result.worthMinor,
        totalMinor: result.totalMinor,
        boundMinor: result.boundMinor,
        isProven: result.isProven,
        barCount: result.barCount,
        problems: result.problems,
        partsMissing: result.outcomes.reduce((sum, outcome) => sum + outcome.partsMissing, 0),
        barsNm: sumUp((pattern) => pattern.barLengthNm),
        newBarsNm: sumUp((pattern) => (pattern.kind === 'new' ? pattern.barLengthNm : 0)),
        keptDropNm: sumUp((pattern) => (pattern.isDropKept ? pattern.dropNm : 0)),
      });
      expect([...totals.stockUse].sort((a, b) => a.stockId.localeCompare(b.stockId, 'en'))).toEqual(
        [...result.stockUse].sort((a, b) => a.stockId.localeCompare(b.stockId, 'en')),
      );
    }
  });

  it('answers the same with what it worked out for jobs of other prices', () => {
    const greedy = new GreedyBook();
    const answers = new Set<string>();
    for (let seed = 0; seed < 60; seed++) {
      const job = makeShopJob(seed % 3);
      const random = makeRandom(seed);
      const input = { ...job, stocks: job.stocks.map((stock) => ({ ...stock, costMinor: 1 + random(20_000) })) };
      const alone = computeNest(input, LIGHT_BUDGET);
      expect(computeNest(input, LIGHT_BUDGET, [], greedy)).toEqual(alone);
      expect(computeNestTotals(input, LIGHT_BUDGET, greedy)).toEqual(computeNestTotals(input, LIGHT_BUDGET));
      answers.add(JSON.stringify(alone.patterns));
    }
    expect(answers.size).toBeGreaterThan(10);
  });

  it('is never dearer than an answer it is given, and takes none that does not make everything', () => {
    for (let seed = 0; seed < 6; seed++) {
      const input = makeShopJob(seed);
      const known = computeNest(input, { workUnits: 2e7 });
      const again = computeNest(input, { workUnits: 1e4 }, known.patterns);
      expect(checkAnswer(input, again)).toEqual([]);
      expect(again.totalMinor).toBeLessThanOrEqual(known.totalMinor);
      const alone = computeNest(input, { workUnits: 1e4 });
      const half = computeNest(input, { workUnits: 1e4 }, known.patterns.slice(1));
      expect(half).toEqual(alone);
    }
  }, 60_000);

  it('stops when asked, with the best so far and its gap', () => {
    const input = makeShopJob(0);
    let asked = 0;
    const result = computeNest(input, { workUnits: 1e12, shouldStop: () => ++asked > 3 });
    expect(checkAnswer(input, result)).toEqual([]);
    expect(result.isProven).toBe(false);
    expect(result.gap).toBeGreaterThan(0);
    expect(result.gap).toBeLessThan(0.05);
  }, 120_000);
});

const LENGTH = fc.integer({ min: 1, max: 4000 });
const JOB: fc.Arbitrary<NestInput> = fc.record({
  demands: fc
    .array(fc.record({ parts: fc.integer({ min: 1, max: 40 }), lengthNm: LENGTH }), { minLength: 1, maxLength: 8 })
    .map((list) =>
      list.map(({ parts, lengthNm }, k) => ({ id: `d${k}`, parts, choices: [{ partsPerBlank: 1, lengthNm }] })),
    ),
  stocks: fc
    .array(
      fc.record({
        lengthNm: fc.integer({ min: 1000, max: 9000 }),
        costMinor: fc.integer({ min: 0, max: 500 }),
        quantity: fc.option(fc.integer({ min: 0, max: 6 }), { nil: null }),
      }),
      { minLength: 1, maxLength: 4 },
    )
    .map((list) => list.map((stock, k) => ({ ...stock, id: `s${k}`, kind: 'new' as const, worthMinor: 0 }))),
  kerfNm: fc.integer({ min: 0, max: 30 }),
  ends: fc.record({
    squaringTrimNm: fc.integer({ min: 0, max: 20 }),
    badEndLeftNm: fc.integer({ min: 0, max: 20 }),
    badEndRightNm: fc.integer({ min: 0, max: 20 }),
    stubNm: fc.integer({ min: 0, max: 40 }),
  }),
  remnantMinNm: fc.integer({ min: 0, max: 500 }),
});

describe('whatever the job', () => {
  it('recounts right and changes nothing it was given', () => {
    fc.assert(
      fc.property(JOB, (input) => {
        const before = JSON.stringify(input);
        const result = computeNest(input, { workUnits: 2e7 });
        expect(checkAnswer(input, result)).toEqual([]);
        expect(JSON.stringify(input)).toBe(before);
      }),
      { numRuns: 60, seed: 4 },
    );
  }, 120_000);

  it('costs no more when one more kind of bar is on offer', () => {
    fc.assert(
      fc.property(JOB, (input) => {
        const fewer = { ...input, stocks: input.stocks.slice(0, 1) };
        const one = computeNest(fewer, BUDGET);
        if (one.outcomes.some((outcome) => outcome.partsMissing > 0)) return;
        expect(computeNest(input, { workUnits: 3e7 }).boundMinor).toBeLessThanOrEqual(one.totalMinor);
      }),
      { numRuns: 25, seed: 5 },
    );
  }, 120_000);

  it('scales: all lengths a thousand times as long give the same cost and bars', () => {
    const stretch = (input: NestInput): NestInput => ({
      ...input,
      kerfNm: input.kerfNm * 1000,
      demands: input.demands.map((demand) => ({
        ...demand,
        choices: demand.choices.map((choice) => ({ ...choice, lengthNm: choice.lengthNm * 1000 })),
      })),
      stocks: input.stocks.map((stock) => ({ ...stock, lengthNm: stock.lengthNm * 1000 })),
      ends: NO_ENDS,
    });
    for (let seed = 3000; seed < 3050; seed++) {
      const input = { ...makeSmallJob(seed), ends: NO_ENDS };
      const [small, large] = [computeNest(input, BUDGET), computeNest(stretch(input), BUDGET)];
      expect([large.totalMinor, large.barCount]).toEqual([small.totalMinor, small.barCount]);
    }
  });
});
