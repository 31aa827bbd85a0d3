import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  getBestBlankX,
  getLongestBlank,
  getMostVises,
  getSupport,
  getVisePositions,
  getVisesNeeded,
  type ViseRoom,
} from '../../../shared/engine/vise-plan';
import { evaluate } from '../../../shared/evaluate';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { buildKeeperLinks } from '../../../shared/model/catalogue/sample-keeper-links';
import type { Plan } from '../../../shared/model/plan';
import { buildBar, buildVise, evaluateScenario, type Scenario } from './scenario';

const ROOM: ViseRoom = {
  jawWidth: 100,
  bodyLength: 110,
  bodyGap: 5,
  tableLength: 800,
  overhangLimit: 40,
  gapLimit: 160,
};

const anyLength = fc.double({ min: 20, max: 900, noNaN: true });
const anyCount = fc.integer({ min: 1, max: 6 });

/** Deflection of a place in arbitrary units: overhang as a cantilever, gap clamped at both ends (1/3 and 1/192). */
const getWorstBend = (centres: readonly number[], length: number): number => {
  const support = getSupport(ROOM, centres, 0, length);
  const overhang = Math.max(support.overhangLeft, support.overhangRight);
  return Math.max(overhang ** 3 / 3, support.largestGap ** 3 / 192);
};

describe('vise positions', () => {
  it('makes a gap four overhangs, so that both bend alike', () => {
    const centres = getVisePositions(ROOM, 500, 0, 2);
    const support = getSupport(ROOM, centres, 0, 500);
    expect(support.overhangLeft).toBeCloseTo(50, 9);
    expect(support.overhangRight).toBeCloseTo(50, 9);
    expect(support.largestGap).toBeCloseTo(200, 9);
  });

  it('centres one vise under the blank, wherever the blank stands', () => {
    expect(getVisePositions(ROOM, 60, 0, 1)).toEqual([30]);
    expect(getVisePositions(ROOM, 60, 25, 1)).toEqual([55]);
  });

  it('never lets bodies overlap, and stays symmetric about a blank that has room for them', () => {
    fc.assert(
      fc.property(anyLength, anyCount, (length, count) => {
        const centres = getVisePositions(ROOM, length, 0, count);
        centres.slice(1).forEach((centre, index) => {
          expect(centre - (centres[index] ?? 0)).toBeGreaterThanOrEqual(115 - 1e-9);
        });
        // On a shorter blank the vises too many stand to one side, where they do not open a gap under it.
        if (count * 115 > length) return;
        const mirrored = centres.map((centre) => length - centre).reverse();
        mirrored.forEach((centre, index) => {
          expect(centre).toBeCloseTo(centres[index] ?? Number.NaN, 6);
        });
      }),
      { seed: 5 },
    );
  });

  it('is no worse than any other symmetric place for two vises', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 230, max: 900, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (length, at) => {
          const best = getWorstBend(getVisePositions(ROOM, length, 0, 2), length);
          const first = 50 + at * (length / 2 - 107.5);
          expect(getWorstBend([first, length - first], length)).toBeGreaterThanOrEqual(best - 1e-6);
        },
      ),
      { seed: 6 },
    );
  });

  it('never bends more with one vise more, as long as the blank is long enough for them', () => {
    fc.assert(
      fc.property(anyLength, fc.integer({ min: 1, max: 5 }), (length, count) => {
        fc.pre(length >= (count + 1) * 115);
        const fewer = getWorstBend(getVisePositions(ROOM, length, 0, count), length);
        const more = getWorstBend(getVisePositions(ROOM, length, 0, count + 1), length);
        expect(more).toBeLessThanOrEqual(fewer + 1e-9);
      }),
      { seed: 7 },
    );
  });
});

describe('vises needed', () => {
  it('is one up to the jaw and two overhangs, and so on', () => {
    expect(getLongestBlank(ROOM, 1)).toBe(180);
    expect(getLongestBlank(ROOM, 2)).toBe(440);
    expect(getVisesNeeded(ROOM, 180, 4)).toBe(1);
    expect(getVisesNeeded(ROOM, 180.01, 4)).toBe(2);
    expect(getVisesNeeded(ROOM, 5000, 4)).toBeNull();
  });

  it('agrees with the support at the best places', () => {
    fc.assert(
      fc.property(anyLength, (length) => {
        const count = getVisesNeeded(ROOM, length, 6) ?? 6;
        const isLegal = getSupport(ROOM, getVisePositions(ROOM, length, 0, count), 0, length).worstRatio <= 1 + 1e-6;
        expect(isLegal).toBe(length <= getLongestBlank(ROOM, count) + 1e-6);
      }),
      { seed: 8 },
    );
  });

  it('asks for a third of the blank in jaws where no force is known', () => {
    const noForce = { ...ROOM, overhangLimit: Number.POSITIVE_INFINITY, gapLimit: Number.POSITIVE_INFINITY };
    expect(getVisesNeeded(noForce, 300, 4)).toBe(1);
    expect(getVisesNeeded(noForce, 301, 4)).toBe(2);
  });

  it('puts as many on the table as go there with gaps between', () => {
    expect(getMostVises(ROOM)).toBe(7);
    expect(getMostVises({ ...ROOM, tableLength: 50 })).toBe(1);
  });
});

describe('support of a blank', () => {
  it('counts only where jaws and blank really meet', () => {
    const support = getSupport(ROOM, [40, 300], 0, 260);
    expect(support.contacts).toEqual([
      { viseIndex: 0, from: 0, to: 90 },
      { viseIndex: 1, from: 250, to: 260 },
    ]);
    expect(support.contactLength).toBe(100);
    expect(support.largestGap).toBe(160);
  });

  it('has nothing where no vise touches', () => {
    expect(getSupport(ROOM, [500], 0, 100)).toMatchObject({
      contactLength: 0,
      overhangLeft: 100,
      worstRatio: Number.POSITIVE_INFINITY,
    });
  });

  it('keeps a blank at the stop within the limits, else moves it over the vises', () => {
    expect(getBestBlankX(ROOM, [60], 125)).toBe(0);
    expect(getBestBlankX(ROOM, [80], 110)).toBe(0);
    expect(getBestBlankX(ROOM, [110], 110)).toBe(55);
    expect(getBestBlankX(ROOM, [400], 150)).toBe(325);
  });

  it('moves a blank off the stop to grip a third of it', () => {
    // 12 of 50 mm in the jaws at the stop, all of it over the vise.
    expect(getSupport(ROOM, [88], 0, 50)).toMatchObject({ contactLength: 12, worstRatio: 38 / 40 });
    expect(getBestBlankX(ROOM, [88], 50)).toBe(63);
  });

  it('leaves a blank at the stop where it stands out too far everywhere', () => {
    expect(getBestBlankX(ROOM, [200], 300)).toBe(0);
  });

  it('lets a blank go once as a vise is dragged away from the stop, and take it along from there', () => {
    const dragged = Array.from({ length: 300 }, (_, step) => ({
      centre: 60 + step,
      x: getBestBlankX(ROOM, [60 + step], 110),
    }));
    const left = dragged.findIndex(({ x }) => x > 0);
    expect(dragged[left]?.centre).toBe(91);
    for (const { centre, x } of dragged.slice(left)) expect(x).toBeCloseTo(centre - 55, 9);
  });

  it('leaves every blank at the stop that is within the limits there', () => {
    const anyCentres = fc.array(fc.double({ min: 0, max: 800, noNaN: true }), { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(anyCentres, anyLength, (centres, length) => {
        const atStop = getSupport(ROOM, centres, 0, length);
        const x = getBestBlankX(ROOM, centres, length);
        if (atStop.worstRatio <= 1 && atStop.contactLength >= length / 3) expect(x).toBe(0);
        else if (x > 0 && atStop.contacts.length > 0)
          expect(getSupport(ROOM, centres, x, length).worstRatio).toBeLessThanOrEqual(1 + 1e-6);
      }),
      { numRuns: 500 },
    );
  });
});

/** One part 300 long, 2 of it, no cut to go by. */
const BASE: Scenario = {
  units: 'mm',
  parts: [{ id: 'arm', name: 'Arm', length: 400, height: 20, thickness: 8 }],
  bars: [buildBar({ id: 'bar', width: 40, thickness: 12 })],
  vise: buildVise({ jawWidth: 100, bodyLength: 110, jawHeight: 40 }),
  rules: { viseGap: 5, nudgeStepMm: 1 },
};

const withHolding = (change: Partial<Plan['holding']>): Scenario => ({
  ...BASE,
  plan: (plan) => ({ ...plan, holding: { ...plan.holding, ...change } }),
});

describe('vises of a plan', () => {
  it('takes the fewest that hold, at places a person can set', () => {
    const { vises, blanks } = evaluateScenario(BASE);
    expect(vises?.count).toMatchObject({ value: 2, pinned: false });
    expect(vises?.centres.value.every((centre) => Number.isInteger(centre))).toBe(true);
    expect(vises?.clash).toBe('');
    expect(blanks[0]?.contacts).toHaveLength(2);
  });

  it('takes one more where the hold asks for it and the blank reaches it', () => {
    const links = buildKeeperLinks();
    const clamp = (clampForceN: number): Plan => ({
      ...links,
      holding: { ...links.holding, clamp: { kind: 'force', clampForceN } },
    });
    const usual = evaluate(clamp(12_000), defaultShop);
    const weak = evaluate(clamp(3000), defaultShop);
    expect(usual.vises?.count.value).toBe(2);
    expect(weak.vises?.count.value).toBeGreaterThan(2);
    expect(weak.vises?.count.why.rule).toContain('hold with the factor wanted');
    expect(weak.blanks[0]?.hold.weakest?.factor.value).toBeGreaterThanOrEqual(defaultShop.rules.holdFactorCheck);
    const fewer = { ...clamp(3000), holding: { ...clamp(3000).holding, viseCount: { pinned: 2 } } };
    const inTwo = evaluate(fewer, defaultShop);
    expect(inTwo.blanks[0]?.hold.weakest?.factor.value).toBeLessThan(defaultShop.rules.holdFactorCheck);
    expect(inTwo.vises?.count.auto).toBe(weak.vises?.count.value);
  });

  it('takes no more than the blank can reach, however weak the hold', () => {
    const links = buildKeeperLinks();
    const single: Plan = {
      ...links,
      partsPerBlank: { pinned: 1 },
      holding: { ...links.holding, clamp: { kind: 'force', clampForceN: 1000 } },
    };
    const { vises } = evaluate(single, defaultShop);
    expect(vises?.count.value).toBe(1);
    expect(vises?.count.why.rule).toContain('more would not touch the blank that holds least');
  });

  it('keeps pinned places and judges them', () => {
    const { vises, blanks } = evaluateScenario(withHolding({ vises: { pinned: [60, 160] } }));
    expect(vises?.centres).toMatchObject({ value: [60, 160], pinned: true });
    expect(vises?.count).toMatchObject({ value: 2, pinned: true });
    expect(vises?.clash).toBe('Vises 1 and 2 overlap by 10.00 mm.');
    expect(blanks[0]?.overhangRight).toBeCloseTo(190, 9);
  });

  it('says when bodies stand too close, when they run off the table, and when there are none', () => {
    const near = evaluateScenario(withHolding({ vises: { pinned: [60, 172] } })).vises;
    expect(near?.clash).toBe('Vises 1 and 2 stand 2.00 mm apart, and 5.00 mm is needed.');
    const far = evaluateScenario(withHolding({ vises: { pinned: [60, 5000] } })).vises;
    expect(far?.clash).toContain('of the table');
    expect(evaluateScenario(withHolding({ vises: { pinned: [] } })).vises?.clash).toBe('No vise holds the bar.');
  });

  it('keeps a pinned number of vises and still places them', () => {
    const { vises } = evaluateScenario(withHolding({ viseCount: { pinned: 3 } }));
    expect(vises?.count).toMatchObject({ value: 3, pinned: true, auto: 2 });
    expect(vises?.centres.value).toHaveLength(3);
  });

  it('moves contacts with a pinned blank', () => {
    const { blanks } = evaluateScenario(withHolding({ vises: { pinned: [60, 260] }, blankX: { pinned: 50 } }));
    expect(blanks[0]).toMatchObject({ x: 50, xEnd: 450, overhangLeft: 0, overhangRight: 140 });
  });
});
