import { describe, expect, it } from 'vitest';
import { computeNest } from '../../../shared/nest/compute-nest';
import type { NestDemand, NestInput, NestStock } from '../../../shared/nest/types';
import { checkAnswer } from './check-answer';

const BUDGET = { workUnits: 1e8 };
const mm = (length: number): number => Math.round(length * 1e6);
const piece = (id: string, lengthMm: number, parts: number): NestDemand => ({
  id,
  parts,
  choices: [{ partsPerBlank: 1, lengthNm: mm(lengthMm) }],
});
const bar = (id: string, lengthMm: number, costMinor: number | null, quantity: number | null = null): NestStock => ({
  id,
  kind: 'new',
  lengthNm: mm(lengthMm),
  costMinor,
  worthMinor: 0,
  quantity,
});
const job = (demands: NestDemand[], stocks: NestStock[], more: Partial<NestInput> = {}): NestInput => ({
  demands,
  stocks,
  kerfNm: mm(2),
  ends: { squaringTrimNm: 0, badEndLeftNm: 0, badEndRightNm: 0, stubNm: 0 },
  remnantMinNm: mm(100),
  ...more,
});
const solve = (input: NestInput) => {
  const result = computeNest(input, BUDGET);
  expect(checkAnswer(input, result)).toEqual([]);
  return { result, codes: result.problems.map((problem) => `${problem.code}:${problem.about.id}`) };
};

describe('bad input gets a clear problem and the rest is solved', () => {
  it('a piece longer than every bar', () => {
    const { result, codes } = solve(job([piece('long', 3100, 2), piece('arm', 290, 10)], [bar('a', 3000, 5000)]));
    expect(codes).toEqual(['longer-than-every-bar:long']);
    expect(result.problems[0]?.message).toBe(
      'The blank for long is 3100 mm long; the longest blank any bar gives is 3000 mm.',
    );
    expect(result.outcomes.map((outcome) => outcome.partsMissing)).toEqual([2, 0]);
    expect([result.barCount, result.isProven]).toEqual([1, true]);
  });

  it('none, fewer than none, half or no number of parts', () => {
    const demands = [
      piece('none', 50, 0),
      piece('less', 50, -3),
      piece('half', 50, 1.5),
      piece('nan', 50, Number.NaN),
      piece('ok', 50, 4),
    ];
    const { result, codes } = solve(job(demands, [bar('a', 1000, 900)]));
    expect(codes).toEqual(['bad-parts:none', 'bad-parts:less', 'bad-parts:half', 'bad-parts:nan']);
    expect(result.outcomes.find((outcome) => outcome.demandId === 'ok')?.partsMade).toBe(4);
  });

  it('a blank without a length, or with a negative, fractional or endless one', () => {
    const blank = (id: string, lengthNm: number): NestDemand => ({
      id,
      parts: 1,
      choices: [{ partsPerBlank: 1, lengthNm }],
    });
    const demands = [
      blank('zero', 0),
      blank('minus', -5),
      blank('part', 0.5),
      blank('inf', Number.POSITIVE_INFINITY),
      piece('ok', 50, 1),
    ];
    const { result, codes } = solve(job(demands, [bar('a', 1000, 900)]));
    expect(codes).toEqual(['bad-choice:zero', 'bad-choice:minus', 'bad-choice:part', 'bad-choice:inf']);
    expect(result.barCount).toBe(1);
  });

  it('a price that is missing: that bar is left out, and without any price bars are weighed by length', () => {
    const some = solve(job([piece('arm', 290, 10)], [bar('a', 3000, null), bar('b', 2000, 4000)]));
    expect(some.codes).toEqual(['price-missing:a']);
    expect(some.result.stockUse.map((use) => use.stockId)).toEqual(['b']);
    const none = solve(job([piece('arm', 290, 10)], [bar('a', 3000, null), bar('b', 2000, null)]));
    expect(none.codes).toEqual(['price-missing:a', 'price-missing:b']);
    expect(none.result.isPriced).toBe(false);
    expect([none.result.barCount, none.result.totalMinor]).toEqual([1, 3000]);
  });

  it('a negative price, a fractional stock and an id used twice', () => {
    const { codes, result } = solve(
      job(
        [piece('arm', 290, 3), piece('arm', 10, 3)],
        [bar('a', 3000, -1), bar('b', 3000, 10, 0.5), bar('c', 2000, 10), bar('c', 9000, 1)],
      ),
    );
    expect(codes).toEqual(['bad-price:a', 'bad-quantity:b', 'duplicate-id:c', 'duplicate-id:arm']);
    expect(result.stockUse.map((use) => use.stockId)).toEqual(['c']);
  });

  it('a stub or bad ends longer than the bar', () => {
    const ends = { squaringTrimNm: 0, badEndLeftNm: 0, badEndRightNm: 0, stubNm: mm(600) };
    const { codes, result } = solve(
      job([piece('arm', 290, 3)], [bar('short', 500, 100), bar('long', 2000, 1000)], { ends }),
    );
    expect(codes).toEqual(['ends-use-up-bar:short']);
    expect(result.stockUse).toEqual([{ stockId: 'long', count: 1, costMinor: 1000, worthMinor: 0 }]);
    const none = solve(job([piece('arm', 290, 3)], [bar('short', 500, 100)], { ends }));
    expect(none.codes).toEqual(['ends-use-up-bar:short', 'no-stock:job']);
    expect(none.result.outcomes[0]?.partsMissing).toBe(3);
  });

  it('a kerf or trim that is no length: nothing is nested and the field is named', () => {
    for (const kerfNm of [-1, Number.NaN, 0.5, Number.POSITIVE_INFINITY]) {
      const { result } = solve(job([piece('arm', 290, 3)], [bar('a', 3000, 100)], { kerfNm }));
      expect(result.problems[0]?.about).toEqual({ kind: 'job', id: 'job', field: 'kerfNm' });
      expect(result.barCount).toBe(0);
    }
  });

  it('no demand and no bar at all', () => {
    expect(solve(job([], [bar('a', 3000, 100)])).result.totalMinor).toBe(0);
    expect(solve(job([piece('arm', 290, 3)], [])).codes).toEqual(['no-stock:job']);
  });

  it('bars that run out: the least length is left out and the rest is made', () => {
    const { result, codes } = solve(job([piece('long', 900, 3), piece('short', 90, 4)], [bar('a', 1000, 500, 2)]));
    expect(codes).toEqual(['not-enough-bars:long', 'not-enough-bars:short']);
    expect(result.outcomes.map((outcome) => outcome.partsMissing)).toEqual([1, 2]);
  });

  it('a million pieces', () => {
    const { result } = solve(
      job([piece('pin', 37, 600_000), piece('link', 95, 400_000)], [bar('a', 3000, 700), bar('b', 6000, 1350)]),
    );
    expect(result.problems).toEqual([]);
    expect(result.gap).toBeLessThan(1e-4);
    expect(result.patterns.length).toBeLessThan(20);
  });

  it('millions of bars', () => {
    const demands = [piece('half', 1499, 3_000_000), piece('most', 2203, 1_000_000), piece('odd', 1107, 777_777)];
    const { result } = solve(job(demands, [bar('a', 3000, 700), bar('b', 4100, 950)]));
    expect(result.problems).toEqual([]);
    expect(result.barCount).toBeGreaterThan(1_000_000);
    expect(result.gap).toBeLessThan(1e-4);
    // A rod and a pin do not fit one bar (1702 + 1301 of 3002), two rods do: 1e9 bars and half as many again.
    const { result: huge } = solve(job([piece('pin', 1700, 1e9), piece('rod', 1299, 1e9)], [bar('a', 3000, 7)]));
    expect([huge.totalMinor, huge.isProven]).toEqual([10.5e9, true]);
  });

  it('lengths that differ by a nanometre are not confused', () => {
    const input = job(
      [
        { id: 'a', parts: 2, choices: [{ partsPerBlank: 1, lengthNm: 500_000_000 }] },
        { id: 'b', parts: 2, choices: [{ partsPerBlank: 1, lengthNm: 500_000_001 }] },
      ],
      [bar('bar', 1000, 100)],
      { kerfNm: 0 },
    );
    const { result } = solve(input);
    expect(result.barCount).toBe(3);
    expect(result.patterns.filter((pattern) => pattern.fit === 'exact').map((pattern) => pattern.count)).toEqual([1]);
    expect(result.isProven).toBe(true);
  });
});

describe('a limit on distinct patterns', () => {
  const demands = [piece('a', 700, 4), piece('b', 450, 7), piece('c', 330, 9), piece('d', 120, 15)];
  const distinct = (input: NestInput): number => {
    const keys = computeNest(input, BUDGET).patterns.map(({ stockId, stretches }) => {
      return `${stockId}:${stretches.filter((part) => part.kind === 'blank').map((part) => part.endNm - part.startNm)}`;
    });
    return new Set(keys).size;
  };

  it('is kept, at a cost that falls as the limit rises', () => {
    let before = Number.POSITIVE_INFINITY;
    for (const maxPatterns of [1, 2, 3, 4, 20]) {
      const input = job(demands, [bar('a', 3000, 1000)], { maxPatterns });
      const { result } = solve(input);
      expect(distinct(input)).toBeLessThanOrEqual(maxPatterns);
      expect(result.totalMinor).toBeLessThanOrEqual(before);
      before = result.totalMinor;
    }
  });

  it('of 1 is solved exactly: all blanks of a bar alike, so many bars that each piece is met', () => {
    // By hand: with n bars each holds ceil(4/n), ceil(7/n), ceil(9/n), ceil(15/n) blanks, a kerf of 2 each, in 3002 mm:
    // n = 4 gives 702 + 2*452 + 3*332 + 4*122 = 3090; n = 5 gives 702 + 904 + 664 + 366 = 2636.
    const { result } = solve(job(demands, [bar('a', 3000, 1000)], { maxPatterns: 1 }));
    expect([result.barCount, result.isProven]).toEqual([5, true]);
  });

  it('that cannot be kept is said so, and the answer without it is given', () => {
    const { result, codes } = solve(job(demands, [bar('a', 800, 1000)], { maxPatterns: 1 }));
    expect(codes).toEqual(['pattern-limit-too-tight:job']);
    expect(result.outcomes.every((outcome) => outcome.partsMissing === 0)).toBe(true);
  });
});
