import { describe, expect, it } from 'vitest';
import { computeNest } from '../../shared/nest/compute-nest';
import type { BarEnds, NestInput, NestPattern, NestStock } from '../../shared/nest/types';
import { checkAnswer } from '../unit/nest/check-answer';

// Worked scenarios of sawing; the arithmetic stands beside each. Common practice, no source, unless one is named.

const BUDGET = { workUnits: 2e8 };
const NO_ENDS: BarEnds = { squaringTrimNm: 0, badEndLeftNm: 0, badEndRightNm: 0, stubNm: 0 };
const inch = (length: number): number => Math.round(length * 25_400_000);
const mm = (length: number): number => Math.round(length * 1_000_000);

function makeBar(lengthNm: number, costMinor = 1000): NestStock {
  return { id: 'bar', kind: 'new', lengthNm, costMinor, worthMinor: 0, quantity: null };
}

function nest(blankNm: number, parts: number, barNm: number, kerfNm: number, ends: Partial<BarEnds> = {}) {
  const input: NestInput = {
    demands: [{ id: 'blank', parts, choices: [{ partsPerBlank: 1, lengthNm: blankNm }] }],
    stocks: [makeBar(barNm)],
    kerfNm,
    ends: { ...NO_ENDS, ...ends },
    remnantMinNm: 0,
  };
  const result = computeNest(input, BUDGET);
  expect(checkAnswer(input, result)).toEqual([]);
  expect(result.isProven).toBe(true);
  return result;
}

/** Blanks that one bar gives: the most parts that still take one bar. */
function countPerBar(blankNm: number, barNm: number, kerfNm: number, ends: Partial<BarEnds> = {}): number {
  let count = 1;
  while (nest(blankNm, count + 1, barNm, kerfNm, ends).barCount === 1) count++;
  return count;
}

describe('kerf: n or n-1 (inch bar 144, blank 11.940, kerf .0625)', () => {
  it('gives 12 blanks with 11 cuts, .0325 to spare and flagged', () => {
    const result = nest(inch(11.94), 12, inch(144), inch(0.0625));
    const [pattern] = result.patterns as [NestPattern];
    expect([result.barCount, result.cutCount]).toEqual([1, 11]);
    expect([pattern.fit, pattern.marginNm, pattern.dropNm]).toEqual(['under-a-kerf', inch(0.0325), 0]);
    // The twelfth blank starts after 11 cuts, with 11.9725 of bar left.
    expect(pattern.stretches.filter((part) => part.kind === 'blank')[11]?.startNm).toBe(inch(144 - 11.9725));
    expect(nest(inch(11.94), 13, inch(144), inch(0.0625)).barCount).toBe(2);
  });

  it('gives 11 with a .125 squaring trim, 11.785 left before the last cut', () => {
    const ends = { squaringTrimNm: inch(0.125) };
    expect(countPerBar(inch(11.94), inch(144), inch(0.0625), ends)).toBe(11);
    const [pattern] = nest(inch(11.94), 11, inch(144), inch(0.0625), ends).patterns as [NestPattern];
    // 143.8125 - 11 * 12.0025 = 11.785 behind the eleventh kerf.
    expect([pattern.cuts.length, pattern.dropNm, pattern.fit]).toEqual([12, inch(11.785), 'clear']);
  });
});

describe('mill ends and facing (6000 mm bar, 15 bad at each end, kerf 2.5, part 118 faced 1.5 at each end)', () => {
  const ends = { badEndLeftNm: mm(15), badEndRightNm: mm(15) };
  it('gives 48 blanks of 121 with 49 cuts and 54.5 left, of which 15 bad', () => {
    expect(countPerBar(mm(121), mm(6000), mm(2.5), ends)).toBe(48);
    const result = nest(mm(121), 48, mm(6000), mm(2.5), ends);
    expect(result.cutCount).toBe(49);
    expect(result.patterns[0]?.dropNm).toBe(mm(54.5));
  });
});

describe('cutting identity (bar 3000, end trim 10, part 95, kerf 1.6)', () => {
  // floor((3000 - 10 + 1.6) / (95 + 1.6)) = 30 pieces, 2896.4 used, 93.6 left: computed. The trim of 10 holds its own kerf.
  it('gives 30 pieces, 93.6 left before the last cut', () => {
    const ends = { squaringTrimNm: mm(8.4) };
    expect(countPerBar(mm(95), mm(3000), mm(1.6), ends)).toBe(30);
    const [pattern] = nest(mm(95), 30, mm(3000), mm(1.6), ends).patterns as [NestPattern];
    expect(pattern.dropNm + mm(1.6)).toBe(mm(93.6));
    expect((30 * mm(95)) / mm(3000)).toBe(0.95);
  });
});

describe('the classic slip: two 48s from a 96', () => {
  it('does not come out of one bar once there is a kerf', () => {
    expect(nest(mm(48), 2, mm(96), 0).barCount).toBe(1);
    expect(nest(mm(48), 2, mm(96), mm(0.1)).barCount).toBe(2);
  });
});

describe('a gang on one blank (inch part 3.250, blank 3.25 n + .53 (n - 1) + .28, bar 144, kerf .0625)', () => {
  const getBlank = (n: number): number => inch(3.25 * n + 0.53 * (n - 1) + 0.28);
  const table = [
    { n: 1, blanks: 40, parts: 40, drop: 0.3 },
    { n: 2, blanks: 19, parts: 38, drop: 3.9225 },
    { n: 3, blanks: 12, parts: 36, drop: 10.17 },
    { n: 4, blanks: 9, parts: 36, drop: 9.6075 },
    { n: 5, blanks: 7, parts: 35, drop: 13.0125 },
  ];

  it.each(table)('$n a blank: $blanks blanks and $parts parts a bar, $drop left', ({ n, blanks, parts, drop }) => {
    expect(countPerBar(getBlank(n), inch(144), inch(0.0625))).toBe(blanks);
    expect(blanks * n).toBe(parts);
    expect(nest(getBlank(n), blanks, inch(144), inch(0.0625)).patterns[0]?.dropNm).toBe(inch(drop));
  });

  const ganged = (parts: number, sizes: number[]): NestInput => ({
    demands: [{ id: 'arm', parts, choices: sizes.map((n) => ({ partsPerBlank: n, lengthNm: getBlank(n) })) }],
    stocks: [makeBar(inch(144), 5000)],
    kerfNm: inch(0.0625),
    ends: NO_ENDS,
    remnantMinNm: 0,
  });

  it('40 parts come from one bar only one to a blank; three to a blank takes a second', () => {
    const free = computeNest(ganged(40, [1, 2, 3, 4, 5]), BUDGET);
    expect(checkAnswer(ganged(40, [1, 2, 3, 4, 5]), free)).toEqual([]);
    expect([free.barCount, free.isProven]).toEqual([1, true]);
    expect(free.outcomes[0]?.blanks.map((blank) => blank.partsPerBlank)).toEqual([1]);
    expect(computeNest(ganged(40, [3]), BUDGET).barCount).toBe(2);
    expect(computeNest(ganged(40, [3]), BUDGET).outcomes[0]?.partsOver).toBe(2);
  });

  it('12 blanks of three and one of two give 38 parts from one bar', () => {
    const result = computeNest(ganged(38, [2, 3]), BUDGET);
    expect([result.barCount, result.isProven]).toEqual([1, true]);
    // Better still: 18 blanks of two and one of three, 18 * 7.3725 + 11.1525 = 143.8575 of the 144.0625 there are with the last kerf.
    expect(computeNest(ganged(39, [2, 3]), BUDGET).barCount).toBe(1);
    expect(computeNest(ganged(40, [2, 3]), BUDGET).barCount).toBe(2);
  });
});

describe('a price step: the next longer or heavier bar may be the cheaper one', () => {
  const arms = (stocks: NestStock[]): NestInput => ({
    demands: [{ id: 'arm', parts: 12, choices: [{ partsPerBlank: 1, lengthNm: inch(11) }] }],
    stocks,
    kerfNm: inch(0.0625),
    ends: NO_ENDS,
    remnantMinNm: 0,
  });
  const twelveFoot = (id: string, costMinor: number): NestStock => ({ ...makeBar(inch(144), costMinor), id });

  it('12 ft of 2 in at 50 comes out 11 under 12 ft of 1-3/4 at 61', () => {
    const cost = (stock: NestStock): number => computeNest(arms([stock]), BUDGET).totalMinor;
    expect(cost(twelveFoot('1-3/4', 6100)) - cost(twelveFoot('2', 5000))).toBe(1100);
  });

  it('weighs two short bars against a long one by price alone', () => {
    const six = (costMinor: number): NestStock => ({ ...makeBar(inch(72), costMinor), id: 'six' });
    const choose = (costOfSix: number) => computeNest(arms([twelveFoot('twelve', 6100), six(costOfSix)]), BUDGET);
    expect(choose(3000).stockUse).toEqual([{ stockId: 'six', count: 2, costMinor: 6000, worthMinor: 0 }]);
    expect(choose(3100).stockUse).toEqual([{ stockId: 'twelve', count: 1, costMinor: 6100, worthMinor: 0 }]);
    // At the same cost the fewer bars win.
    expect(choose(3050).stockUse.map((use) => use.stockId)).toEqual(['twelve']);
  });

  it('takes a remnant first only when that is cheaper, its worth counted', () => {
    const rest = (worthMinor: number): NestStock => ({
      id: 'rest',
      kind: 'remnant',
      lengthNm: inch(140),
      costMinor: 0,
      worthMinor,
      quantity: 1,
    });
    const twelve = twelveFoot('twelve', 5000);
    expect(computeNest(arms([twelve, rest(4999)]), BUDGET).stockUse.map((use) => use.stockId)).toEqual(['rest']);
    expect(computeNest(arms([twelve, rest(5001)]), BUDGET).stockUse.map((use) => use.stockId)).toEqual(['twelve']);
  });
});
