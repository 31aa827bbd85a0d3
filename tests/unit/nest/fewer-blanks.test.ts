import { describe, expect, it } from 'vitest';
import { computeNest } from '../../../shared/nest/compute-nest';
import type { CoreProblem } from '../../../shared/nest/core-model';
import { mergeBlanks } from '../../../shared/nest/fewer-blanks';
import type { NestInput } from '../../../shared/nest/types';
import { checkAnswer } from './check-answer';

const BUDGET = { workUnits: 1e8 };

/** Parts of 30 with 6 between two on a blank and 2 at each end of it; a kerf of 1. */
function makeJob(parts: number, barLength: number, remnantMin: number): NestInput {
  return {
    demands: [
      {
        id: 'link',
        parts,
        choices: [1, 2, 3].map((n) => ({ partsPerBlank: n, lengthNm: 30 * n + 6 * (n - 1) + 4 })),
      },
    ],
    stocks: [{ id: 'bar', kind: 'new', lengthNm: barLength, costMinor: 10, worthMinor: 0, quantity: null }],
    kerfNm: 1,
    ends: { squaringTrimNm: 0, badEndLeftNm: 0, badEndRightNm: 0, stubNm: 0 },
    remnantMinNm: remnantMin,
  };
}

const solve = (input: NestInput) => {
  const result = computeNest(input, BUDGET);
  expect(checkAnswer(input, result)).toEqual([]);
  expect(result.isProven).toBe(true);
  return result.outcomes[0]?.blanks.map(({ partsPerBlank, count }) => `${count} x ${partsPerBlank}`);
};

describe('where several blank sizes cost the same', () => {
  it('singles pack closest: five on a bar of 174, where gangs would leave no room for the fifth', () => {
    // 5 * 34 + 4 kerfs = 174; a blank of two takes 70, one more than two singles and their kerf.
    expect(solve(makeJob(5, 174, 10))).toEqual(['5 x 1']);
  });

  it('parts go on fewer, larger blanks where only a drop that is thrown away gets shorter', () => {
    // Two bars are needed, 180 - 174 - 1 kerf = 5 left of each. One keeps the longest drop; on the other, 3 + 2 takes 106 + 1 + 70.
    expect(solve(makeJob(10, 180, 10))).toEqual(['1 x 3', '1 x 2', '5 x 1']);
  });

  it('a drop that goes back on the rack is left as long as it is', () => {
    const core: CoreProblem = {
      sizes: [71, 35],
      rows: [0, 0],
      values: [2, 1],
      demands: [10],
      stocks: [{ capacity: 181, weight: 1, quantity: Number.POSITIVE_INFINITY }],
    };
    const singles = [{ pattern: { stock: 0, items: [1], counts: [5] }, count: 2 }];
    const merge = (remnantMin: number) => {
      return mergeBlanks(
        core,
        singles,
        (_, load) => 180 - load,
        (drop) => drop >= remnantMin,
      );
    };
    expect(merge(5)).toEqual(singles);
    expect(merge(6)).toEqual([
      { pattern: singles[0]?.pattern, count: 1 },
      { pattern: { stock: 0, items: [0, 1], counts: [2, 1] }, count: 1 },
    ]);
  });
});
