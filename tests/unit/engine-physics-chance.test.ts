import { describe, expect, it } from 'vitest';
import { computeChance } from '../../shared/engine/chance';
import type { ChanceInputs } from '../../shared/engine/chance-model';
import { sampleChance } from '../../shared/engine/chance-sampling';
import { getNormalShare } from '../../shared/engine/normal';
import { getRandomStream } from '../../shared/engine/random';
import type { BlankResult } from '../../shared/engine/results';
import { evaluate } from '../../shared/evaluate';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import { buildHoistArms } from '../../shared/model/catalogue/sample-hoist-arms';
import { buildKeeperLinks } from '../../shared/model/catalogue/sample-keeper-links';
import type { Plan } from '../../shared/model/plan';

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

/** The sums; they are there for every set of inputs below. */
function getSums(changed: ChanceInputs) {
  const chance = computeChance(changed);
  if (chance === null) throw new Error('no setup');
  return {
    grip: chance.grip.value,
    allowance: chance.allowance.value,
    hold: chance.hold.value,
    all: chance.all.value,
    low: chance.holdFactorLow.value,
  };
}

/** Normal distribution function by series of the error function: Abramowitz and Stegun 7.1.5. */
function getSeriesShare(z: number): number {
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

  // Abramowitz and Stegun, Table 26.1: twice the share beyond 2, 3 and 3.6 deviations.
  it.each([
    [2, 0.0455003],
    [3, 0.0026998],
    [3.6, 0.0003182],
  ])('is normal out in the tails: beyond %d deviations', (beyond, share) => {
    const draws = 1_000_000;
    const stream = getRandomStream(11);
    let out = 0;
    let above = 0;
    for (let draw = 0; draw < draws; draw += 1) {
      const normal = stream.nextNormal();
      if (Math.abs(normal) <= beyond) continue;
      out += 1;
      if (normal > 0) above += 1;
    }
    expect(Math.abs(out / draws - share)).toBeLessThan(4 * Math.sqrt(share / draws));
    expect(Math.abs(above / out - 0.5)).toBeLessThan(2 / Math.sqrt(out));
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

describe('the normal distribution', () => {
  // Abramowitz and Stegun, Table 26.1: P(1) 0.8413447, P(1.96) 0.9750021, P(3) 0.9986501.
  it.each([
    [0, 0.5],
    [1, 0.8413447],
    [1.96, 0.9750021],
    [3, 0.9986501],
    [-1, 0.1586553],
  ])('share below %d', (z, share) => {
    expect(getNormalShare(z)).toBeCloseTo(share, 6);
    expect(getNormalShare(z)).toBeCloseTo(getSeriesShare(z), 6);
  });
});

const SAMPLES: [string, Plan][] = [
  ['hoist arms', buildHoistArms()],
  ['keeper links', buildKeeperLinks()],
];

describe('chance of grip, hold and allowance', () => {
  it('stands in the evaluation', () => {
    expect(evaluation.chance).toEqual(computeChance(inputs));
  });

  it.each(SAMPLES)('sums and drawn lots agree: %s', (_name, plan) => {
    const one = evaluate(plan, defaultShop);
    for (const looser of [1, 0.75, 0.5]) {
      // Less is left and less holds, so that the chances are neither 0 nor 1.
      const changed: ChanceInputs = {
        ...one,
        allowance: one.allowance.map((row) => ({ ...row, left: row.left * looser })),
        rules: { ...defaultShop.rules, holdFactorStop: (defaultShop.rules.holdFactorStop * 2) / looser },
      };
      const sums = getSums(changed);
      const drawn = sampleChance(changed, OPTIONS);
      expectShare(drawn.grip, sums.grip);
      expectShare(drawn.allowance, sums.allowance);
      expectShare(drawn.hold, sums.hold);
      expectShare(drawn.all, sums.all);
      expect(Math.abs(drawn.holdFactorLow / sums.low - 1)).toBeLessThan(0.01);
    }
  });

  it('drawn lots repeat with their seed', () => {
    expect(sampleChance(inputs, OPTIONS)).toEqual(sampleChance(inputs, OPTIONS));
  });

  it('all three at once is no likelier than any one', () => {
    const chance = getSums(inputs);
    for (const one of [chance.grip, chance.hold, chance.allowance]) {
      expect(chance.all).toBeLessThanOrEqual(one + 1e-12);
      expect(one).toBeGreaterThanOrEqual(0);
      expect(one).toBeLessThanOrEqual(1);
    }
  });

  it('grip: an even spread of the bar gives its exact share', () => {
    const section = evaluation.section;
    const first = evaluation.blanks[0];
    if (section === null || first === undefined) throw new Error('the sample has no setup');
    // All minus by 1 mm, 0.6 mm to spare: the slot takes half its oversize of it on average.
    const wide = { ...section, height: { nominal: 50, least: 49, most: 50 } };
    const blank: BlankResult = {
      ...first,
      stack: { ...first.stack, needAboveJaws: 39.4, gripAsked: 10, grip: { nominal: 10, least: 10, most: 10 } },
    };
    const exact = 0.6 - defaultShop.rules.slotOversize / 2;
    const changed = { ...inputs, section: wide, blanks: [blank] };
    expect(getSums(changed).grip).toBeCloseTo(exact, 6);
    expectShare(sampleChance(changed, OPTIONS).grip, exact);
    const certain = { ...blank, stack: { ...blank.stack, needAboveJaws: 38.9 } };
    expect(getSums({ ...inputs, section: wide, blanks: [certain] }).grip).toBeCloseTo(1, 9);
    const hopeless = { ...blank, stack: { ...blank.stack, needAboveJaws: 40.1 } };
    expect(getSums({ ...inputs, section: wide, blanks: [hopeless] }).grip).toBe(0);
  });

  it('hold: a normal spread of the clamp force gives its exact share', () => {
    const blank = evaluation.blanks[0];
    const row = blank?.hold.rows[0];
    if (blank === undefined || row === undefined) throw new Error('the sample has no hold');
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
    const exact = getSeriesShare((1 - 1 / 1.1) / (scatter / 2));
    expect(getSums({ ...inputs, blanks: [one] }).hold).toBeCloseTo(exact, 6);
    expectShare(sampleChance({ ...inputs, blanks: [one] }, OPTIONS).hold, exact);
    // 19 in 20 reach the whole factor less 1.6449 standard deviations.
    expect(getSums({ ...inputs, blanks: [one] }).low).toBeCloseTo(whole * (1 - (1.6449 * scatter) / 2), 3);
  });

  it('allowance: more left is never less likely', () => {
    let before = 0;
    for (const left of [0.1, 0.3, 0.5, 0.7, 1, 2, 3]) {
      const allowance = evaluation.allowance.map((row) => ({ ...row, left }));
      const share = getSums({ ...inputs, allowance }).allowance;
      expect(share).toBeGreaterThanOrEqual(before - 1e-12);
      before = share;
    }
    expect(before).toBeCloseTo(1, 6);
  });

  it('gives numbers for nothing, and for draws that make no sense', () => {
    const empty = { section: null, vises: null, blanks: [], bow: [], allowance: [], rules: defaultShop.rules };
    expect(computeChance(empty)).toBeNull();
    for (const draws of [0, -5, Number.NaN]) {
      const chance = sampleChance(empty, { draws, seed: 3 });
      expect(chance.draws).toBe(1);
      expect(Number.isFinite(chance.all)).toBe(true);
    }
  });
});
