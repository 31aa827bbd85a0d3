import { describe, expect, it } from 'vitest';
import { computeNest } from '../../../shared/nest/compute-nest';
import type { NestInput, NestProgress, NestResult } from '../../../shared/nest/types';
import { findBruteLimited } from './brute-patterns';
import { checkAnswer } from './check-answer';
import { makeRandom, makeShopJob } from './random-jobs';

const BUDGET = { workUnits: 3e8 };

/** A handful of blanks, some with a choice of size, from one or two kinds of bar. */
function makeLimitedJob(seed: number): NestInput {
  const random = makeRandom(seed * 6151 + 11);
  const bar = 30 + random(40);
  // Lengths differ: pieces of one length are one to the saw, whatever they are for.
  const singles = [...new Set(Array.from({ length: 1 + random(3) }, () => 5 + random(20)))];
  const demands = singles.map((single, k) => {
    const most = random(5) === 0 ? 2 : 1;
    return {
      id: `p${k}`,
      parts: 1 + random(6),
      choices: Array.from({ length: most }, (__, n) => ({
        partsPerBlank: n + 1,
        lengthNm: single * (n + 1) + n * random(3),
      })),
    };
  });
  const stocks = Array.from({ length: 1 + random(2) }, (_, k) => ({
    id: `s${k}`,
    kind: 'new' as const,
    lengthNm: bar + random(20),
    costMinor: 5 + random(40),
    worthMinor: 0,
    quantity: k === 1 && random(2) === 0 ? 1 + random(3) : null,
  }));
  return {
    demands,
    stocks,
    kerfNm: random(3),
    ends: { squaringTrimNm: random(2) * random(3), badEndLeftNm: 0, badEndRightNm: 0, stubNm: random(2) * random(4) },
    remnantMinNm: 0,
    maxPatterns: 1 + random(2),
  };
}

function countDistinct({ patterns }: NestResult): number {
  const keys = patterns.map(({ stockId, stretches }) => {
    const blanks = stretches.filter(({ kind }) => kind === 'blank').map(({ startNm, endNm }) => endNm - startNm);
    return `${stockId}:${blanks}`;
  });
  return new Set(keys).size;
}

describe('at most so many patterns', () => {
  it('agrees with a search through every set of patterns in 600 small jobs, and proves each', () => {
    const disagreements: string[] = [];
    let limited = 0;
    for (let seed = 0; seed < 600; seed++) {
      const input = makeLimitedJob(seed);
      const { maxPatterns, ...free } = input;
      const result = computeNest(input, BUDGET);
      const isShort = result.problems.some(({ partsMissing }) => (partsMissing ?? 0) > 0);
      if (isShort) continue;
      for (const fault of checkAnswer(input, result)) disagreements.push(`${seed}: ${fault}`);
      const best = findBruteLimited(input, maxPatterns ?? 0);
      const isTooTight = result.problems.some(({ code }) => code === 'pattern-limit-too-tight');
      if (isTooTight !== (best === undefined)) disagreements.push(`${seed}: too tight for one of the two only`);
      if (best === undefined || isTooTight) continue;
      if (countDistinct(result) > (maxPatterns ?? 0)) disagreements.push(`${seed}: the limit is not kept`);
      if (result.totalMinor !== best) disagreements.push(`${seed}: got ${result.totalMinor}, best is ${best}`);
      if (!result.isProven) disagreements.push(`${seed}: not proven`);
      if (best > computeNest(free, BUDGET).totalMinor) limited++;
    }
    expect(disagreements).toEqual([]);
    expect(limited).toBeGreaterThan(20);
  }, 120_000);

  it('is said to be impossible only where everything was tried', () => {
    const input: NestInput = {
      demands: [60, 50, 40].map((lengthNm, k) => ({
        id: `p${k}`,
        parts: 2,
        choices: [{ partsPerBlank: 1, lengthNm }],
      })),
      stocks: [{ id: 'bar', kind: 'new', lengthNm: 100, costMinor: 7, worthMinor: 0, quantity: null }],
      kerfNm: 0,
      ends: { squaringTrimNm: 0, badEndLeftNm: 0, badEndRightNm: 0, stubNm: 0 },
      remnantMinNm: 0,
      maxPatterns: 1,
    };
    const { problems, outcomes } = computeNest(input, BUDGET);
    expect(problems.map(({ message }) => message)).toEqual([
      'There is no way to make everything with 1 pattern; the limit is not kept.',
    ]);
    expect(outcomes.every(({ partsMissing }) => partsMissing === 0)).toBe(true);
  });

  it('gives a bound that holds, and says so, where there are too many patterns to try', () => {
    for (let seed = 0; seed < 4; seed++) {
      const input = { ...makeShopJob(seed), maxPatterns: 6 };
      const seen: NestProgress[] = [];
      const result = computeNest(input, { workUnits: 3e7, onProgress: (progress) => seen.push(progress) });
      expect(checkAnswer(input, result)).toEqual([]);
      expect(result.isProven).toBe(result.gap === 0);
      const isKept = !result.problems.some(({ code }) => code === 'pattern-limit-too-tight');
      if (!isKept) continue;
      expect(countDistinct(result)).toBeLessThanOrEqual(6);
      for (const { incumbentMinor, getResult } of seen) {
        const answer = getResult();
        expect(answer === null).toBe(incumbentMinor === null);
        if (answer === null) continue;
        expect(answer.totalMinor).toBeLessThanOrEqual(incumbentMinor ?? 0);
        expect(countDistinct(answer)).toBeLessThanOrEqual(6);
      }
    }
  }, 60_000);
});
