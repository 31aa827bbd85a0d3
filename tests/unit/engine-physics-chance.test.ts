import { describe, expect, it } from 'vitest';
import { type ChanceInputs, computeChance } from '../../shared/engine/chance';
import { getRandomStream } from '../../shared/engine/random';
import type { BlankResult } from '../../shared/engine/results';
import { evaluate } from '../../shared/evaluate';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import { buildHoistArms } from '../../shared/model/catalogue/sample-hoist-arms';

const DRAWS = 10_000;
const OPTIONS = { draws: DRAWS, seed: 1 };

const evaluation = evaluate(buildHoistArms(), defaultShop);
const inputs: ChanceInputs = {
  section: evaluation.section,
  vises: evaluation.vises,
  blanks: evaluation.blanks,
  bow: evaluation.bow,
  allowance: evaluation.allowance,
  rules: defaultShop.rules,
};

/** Within four standard errors of the exact share. */
function expectShare(share: number, exact: number): void {
  expect(Math.abs(share - exact)).toBeLessThan(4 * Math.sqrt((exact * (1 - exact)) / DRAWS) + 1e-9);
}

/** Normal distribution function by series of the error function: Abramowitz and Stegun 7.1.5. */
function getNormalShare(z: number): number {
  let term = z / Math.SQRT2;
  let sum = term;
  for (let n = 1; n < 60; n += 1) {
    term *= -((z / Math.SQRT2) ** 2) / n;
    sum += term / (2 * n + 1);
  }
  return 0.5 + sum / Math.sqrt(Math.PI);
}

describe('the stream of numbers', () => {
  it('repeats with its seed and differs from the next', () => {
    const take = (seed: number) => {
      const stream = getRandomStream(seed);
      return Array.from({ length: 50 }, () => stream.nextEven());
    };
    expect(take(7)).toEqual(take(7));
    expect(take(7)).not.toEqual(take(8));
    expect(take(Number.NaN)).toEqual(take(0));
  });

  it('is even, and normal where asked: mean, deviation, and 68.27 % within one deviation', () => {
    const stream = getRandomStream(42);
    const even = Array.from({ length: 100_000 }, () => stream.nextEven());
    const normal = Array.from({ length: 100_000 }, () => stream.nextNormal());
    const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    expect(mean(even)).toBeCloseTo(0.5, 2);
    expect(mean(even.map((value) => (value - 0.5) ** 2))).toBeCloseTo(1 / 12, 2);
    expect(Math.abs(mean(normal))).toBeLessThan(0.015);
    expect(Math.abs(mean(normal.map((value) => value ** 2)) - 1)).toBeLessThan(0.02);
    expect(mean(normal.map((value) => (Math.abs(value) < 1 ? 1 : 0)))).toBeCloseTo(0.6827, 2);
    for (let decile = 0; decile < 10; decile += 1) {
      const share = even.filter((value) => value >= decile / 10 && value < (decile + 1) / 10).length / even.length;
      expect(Math.abs(share - 0.1)).toBeLessThan(0.005);
    }
  });
});

describe('chance of grip, hold and allowance', () => {
  it('repeats with its seed', () => {
    expect(computeChance(inputs, OPTIONS)).toEqual(computeChance(inputs, OPTIONS));
  });

  it('all three at once is no likelier than any one', () => {
    const chance = computeChance(inputs, OPTIONS);
    for (const one of [chance.grip, chance.hold, chance.allowance]) {
      expect(chance.all.value).toBeLessThanOrEqual(one.value);
      expect(one.value).toBeGreaterThanOrEqual(0);
      expect(one.value).toBeLessThanOrEqual(1);
    }
  });

  it('grip: an even spread of the bar gives its exact share', () => {
    const section = evaluation.section;
    const first = evaluation.blanks[0];
    if (section === null || first === undefined) throw new Error('the sample has no setup');
    // All minus by 1 mm, 0.6 mm to spare: the slot takes 0.025 mm of it on average.
    const wide = {
      ...section,
      height: { nominal: 50, least: 49, most: 50 },
    };
    const blank: BlankResult = {
      ...first,
      stack: { ...first.stack, needAboveJaws: 39.4, gripAsked: 10, grip: { nominal: 10, least: 10, most: 10 } },
    };
    const chance = computeChance({ ...inputs, section: wide, blanks: [blank] }, OPTIONS);
    expectShare(chance.grip.value, 0.6 - 0.025);
    const certain = { ...blank, stack: { ...blank.stack, needAboveJaws: 38.9 } };
    expect(computeChance({ ...inputs, section: wide, blanks: [certain] }, OPTIONS).grip.value).toBe(1);
    const hopeless = { ...blank, stack: { ...blank.stack, needAboveJaws: 40.1 } };
    expect(computeChance({ ...inputs, section: wide, blanks: [hopeless] }, OPTIONS).grip.value).toBe(0);
  });

  it('hold: a normal spread of the clamp force gives its exact share', () => {
    const section = evaluation.section;
    const blank = evaluation.blanks[0];
    const row = blank?.hold.rows[0];
    if (section === null || blank === undefined || row === undefined) throw new Error('the sample has no hold');
    const scatter = defaultShop.rules.clampScatter;
    const target = defaultShop.rules.holdFactorStop;
    // A factor of 1.1 targets at the whole clamp force, slipping alone, in one vise.
    const whole = 1.1 * target;
    const one: BlankResult = {
      ...blank,
      contacts: blank.contacts.slice(0, 1),
      hold: {
        ...blank.hold,
        rows: [
          {
            ...row,
            slipFactor: { ...row.slipFactor, value: whole * (1 - scatter) },
            liftFactor: { ...row.liftFactor, value: 1000 },
            tipFactor: { ...row.tipFactor, value: 1000 },
          },
        ],
      },
    };
    const chance = computeChance({ ...inputs, blanks: [one] }, OPTIONS);
    expectShare(chance.hold.value, getNormalShare((1 - 1 / 1.1) / (scatter / 2)));
  });

  it('allowance: more left is never less likely', () => {
    let before = 0;
    for (const left of [0.1, 0.3, 0.5, 0.7, 1, 2, 3]) {
      const allowance = evaluation.allowance.map((row) => ({ ...row, left }));
      const share = computeChance({ ...inputs, allowance }, OPTIONS).allowance.value;
      expect(share).toBeGreaterThanOrEqual(before);
      before = share;
    }
    expect(before).toBe(1);
  });

  it('gives numbers for nothing, and for draws that make no sense', () => {
    const empty = { section: null, vises: null, blanks: [], bow: [], allowance: [], rules: defaultShop.rules };
    for (const draws of [0, -5, Number.NaN]) {
      const chance = computeChance(empty, { draws, seed: 3 });
      expect(chance.draws).toBe(1);
      expect(Number.isFinite(chance.all.value)).toBe(true);
    }
  });
});
