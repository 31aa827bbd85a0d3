import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { getRootSumSquare, getWorstCase } from '../../shared/engine/allowance';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import type { Plan } from '../../shared/model/plan';
import type { BowMeasurement, Shop } from '../../shared/model/shop';
import { buildBar, buildSizeClass, evaluateScenario, LOW_CARBON, type Scenario } from './engine-geometry/scenario';

const LEVER = { id: 'lever', name: 'Lever', length: 200, height: 25, thickness: 10 };

function measured(change: Partial<BowMeasurement>): BowMeasurement {
  return {
    id: 'bow',
    date: '2026-01-01',
    materialId: LOW_CARBON,
    sizeClassId: 'class-test',
    length: 100,
    height: 25,
    bow: 0.1,
    sidesCut: 'both',
    note: '',
    ...change,
  };
}

function scenario(change: Partial<Shop> = {}, plan: (plan: Plan) => Plan = (one) => one): Scenario {
  return {
    units: 'mm',
    parts: [LEVER],
    bars: [buildBar({ id: 'bar', width: 50, thickness: 15 })],
    shop: change,
    plan,
  };
}

describe('bow on release', () => {
  it('is assumed until the shop has measured one, and says so', () => {
    const row = evaluateScenario(scenario()).bow[0];
    const { bowReference, bowReferenceLength, bowReferenceHeight } = defaultShop.rules;
    expect(row?.assumed).toBe(true);
    expect(row?.spread).toBeNull();
    const expected = (bowReference * bowReferenceHeight * (200 / bowReferenceLength) ** 2) / 25;
    expect(row?.bow.value).toBeCloseTo(expected, 9);
  });

  it('comes from the last measurement, scaled by L² / h, with the spread of all of them', () => {
    const row = evaluateScenario(
      scenario({
        bowMeasurements: [
          measured({ id: 'b', date: '2026-03-01', bow: 0.1 }),
          measured({ id: 'a', date: '2026-01-01', bow: 0.3 }),
          measured({ id: 'c', date: '2026-02-01', bow: 0.05, height: 50 }),
        ],
      }),
    ).bow[0];
    expect(row?.assumed).toBe(false);
    expect(row?.measurements).toBe(3);
    expect(row?.bow.value).toBeCloseTo(0.4, 9);
    expect(row?.spread?.least).toBeCloseTo(0.4, 9);
    expect(row?.spread?.most).toBeCloseTo(1.2, 9);
  });

  it('other metals and other size classes do not count while the own class has one', () => {
    const row = evaluateScenario(
      scenario({
        bowMeasurements: [
          measured({ id: 'a', date: '2026-01-01' }),
          measured({ id: 'b', date: '2026-02-01', materialId: 'material-316', bow: 9 }),
          measured({ id: 'c', date: '2026-03-01', sizeClassId: 'class-other', bow: 9 }),
          measured({ id: 'd', date: '2026-04-01', sidesCut: 'one', bow: 9 }),
          measured({ id: 'e', date: '2026-05-01', length: 0, bow: 9 }),
        ],
      }),
    ).bow[0];
    expect(row?.measurements).toBe(1);
    expect(row?.bow.value).toBeCloseTo(0.4, 9);
  });
});

describe('bar pulled straight', () => {
  const bent = buildSizeClass({ straightness: { perLength: 0.001, bow: 1, overLength: 1000, source: '' } });
  const at = (centres: number[], measuredBow: number | null = null) =>
    evaluateScenario({
      ...scenario({}, (plan) => ({
        ...plan,
        stock: { ...plan.stock, measuredBow },
        holding: {
          ...plan.holding,
          vises: { pinned: centres },
          viseCount: { pinned: centres.length },
          blankX: { pinned: 0 },
        },
      })),
      parts: [{ ...LEVER, length: 400 }],
      sizeClass: bent,
    }).bow[0];

  it('one vise does not; two give force and spring-back', () => {
    expect(at([200])?.forcedStraightN.value).toBe(0);
    const two = at([76.2, 323.8]);
    // Grips from 0 to 400: the whole part, the guarantee of the class 0.4 mm.
    expect(two?.springBack).toBeCloseTo(0.4, 6);
    const secondMoment = (50 * 15 ** 3) / 12;
    const modulus = defaultShop.materials.find((one) => one.id === LOW_CARBON)?.youngsModulusMPa ?? 0;
    expect(two?.forcedStraightN.value).toBeCloseTo((48 * modulus * secondMoment * 0.4) / 400 ** 3, 3);
  });

  it('a measured bow wins over the class', () => {
    expect(at([76.2, 323.8], 0.2)?.springBack).toBeCloseTo(0.2, 6);
    expect(at([76.2, 323.8], 0.2)?.straightness.value).toBeCloseTo(0.2, 6);
  });
});

describe('allowance of each face', () => {
  it('a face that keeps nothing is finished here and is not judged', () => {
    const rows = evaluateScenario(scenario()).allowance;
    expect(rows).toHaveLength(6);
    expect(rows.every((row) => row.ok && row.finishedHere)).toBe(true);
  });

  it('is well exactly when what is left covers the worst case', () => {
    const take = (left: number) =>
      evaluateScenario(
        scenario({}, (plan) => ({ ...plan, allowance: { ...plan.allowance, top: left } })),
      ).allowance.find((row) => row.face === 'top');
    const worst = take(1)?.worstCase ?? 0;
    expect(worst).toBeGreaterThan(0);
    expect(take(worst + 1e-6)?.ok).toBe(true);
    expect(take(worst - 1e-3)?.ok).toBe(false);
  });

  it('metal off one side only counts the sideways curl, scaled from a reported one as a guess', () => {
    const rows = evaluateScenario(
      scenario({}, (plan) => ({
        ...plan,
        allowance: { ...plan.allowance, fixedSide: 1, movingSide: 1 },
        cleanup: { ...plan.cleanup, fromFixedJaw: { pinned: 0.1 } },
      })),
    ).allowance;
    const side = rows.find((row) => row.face === 'movingSide');
    const guess = (1.27 * 5.59 * (200 / 152.4) ** 2) / 10;
    expect(side?.terms.find((term) => term.name.includes('one side only'))?.value).toBeCloseTo(guess, 6);
    expect(side?.ok).toBe(false);
  });

  it('worst case is never under root-sum-square, and both grow with every term', () => {
    const terms = fc.array(
      fc.record({
        cause: fc.constant('bow' as const),
        name: fc.constant('term'),
        value: fc.double({ min: 0, max: 5, noNaN: true }),
        isFixed: fc.boolean(),
      }),
      { minLength: 1, maxLength: 8 },
    );
    fc.assert(
      fc.property(terms, fc.double({ min: 0, max: 5, noNaN: true }), (rows, more) => {
        const first = rows[0];
        if (first === undefined) return;
        const grown = [{ ...first, value: first.value + more }, ...rows.slice(1)];
        expect(getWorstCase(rows)).toBeGreaterThanOrEqual(getRootSumSquare(rows) - 1e-9);
        expect(getWorstCase(grown)).toBeGreaterThanOrEqual(getWorstCase(rows) - 1e-9);
        expect(getRootSumSquare(grown)).toBeGreaterThanOrEqual(getRootSumSquare(rows) - 1e-9);
      }),
    );
  });

  it('3 and 4 that vary and 1 that is fixed: 8 at worst, 6 as a rule', () => {
    const terms = [
      { cause: 'bow' as const, name: 'a', value: 3, isFixed: false },
      { cause: 'springBack' as const, name: 'b', value: 4, isFixed: false },
      { cause: 'leastCut' as const, name: 'c', value: 1, isFixed: true },
    ];
    expect(getWorstCase(terms)).toBe(8);
    expect(getRootSumSquare(terms)).toBe(6);
  });
});

describe('clamp force of the plan', () => {
  const clampOf = (clamp: Plan['holding']['clamp']) =>
    evaluateScenario(scenario({}, (plan) => ({ ...plan, holding: { ...plan.holding, clamp } }))).vises;
  const vise = defaultShop.vises.find((one) => one.id === 'vise-6in');

  it('counts the scatter of tightening, and no more than the vise may be driven to', () => {
    const entered = clampOf({ kind: 'force', clampForceN: 10_000 });
    expect(entered?.clampForceN.value).toBe(10_000);
    expect(entered?.countedClampForceN).toBeCloseTo(10_000 * (1 - defaultShop.rules.clampScatter), 6);
    const over = clampOf({ kind: 'force', clampForceN: 1e6 });
    expect(over?.countedClampForceN).toBeCloseTo((vise?.maxClampForceN ?? 0) * (1 - defaultShop.rules.clampScatter), 6);
  });

  it('by a nut factor is T / (K d)', () => {
    const force = clampOf({ kind: 'torque', handleTorqueNm: 50, nutFactor: 0.2 })?.clampForceN.value;
    expect(force).toBeCloseTo(50_000 / (0.2 * (vise?.screw.nominalDiameter ?? 0)), 6);
  });

  it.each([Number.NaN, -1, Number.POSITIVE_INFINITY])('a torque of %f clamps nothing', (handleTorqueNm) => {
    expect(clampOf({ kind: 'torque', handleTorqueNm, nutFactor: null })?.countedClampForceN).toBe(0);
  });
});

describe('rib or tabs', () => {
  const long = { id: 'rail', name: 'Rail', length: 600, height: 40, thickness: 10 };
  const take = (change: Partial<Plan['release']>, part: object = {}) =>
    evaluateScenario({
      ...scenario({}, (plan) => ({ ...plan, release: { ...plan.release, ...change } })),
      parts: [{ ...long, ...part }],
      bars: [buildBar({ id: 'bar', width: 70, thickness: 15 })],
    }).release;

  it('a rib while it breaks off, tabs when even a pry bar would not and the cutter reaches through', () => {
    expect(take({})?.keep.value).toBe('rib');
    const thick = take({ ribTarget: { pinned: 4 } });
    expect(thick?.keep.value).toBe('tabs');
    expect(thick?.parts[0]?.snapForceN.value).toBeLessThan(
      take({ ribTarget: { pinned: 4 }, keep: { pinned: 'rib' } })?.parts[0]?.snapForceN.value ?? 0,
    );
  });

  it('tabs stand within their limits and off the keep-outs', () => {
    const tabs = take({ keep: { pinned: 'tabs' } }, { keepOuts: [{ from: 280, to: 320 }] })?.parts[0];
    expect(tabs?.tabsOk).toBe(true);
    expect(tabs?.tabsFrom).toBe('auto');
    const { rules } = defaultShop;
    const edges = [0, ...(tabs?.tabs.flatMap((tab) => [tab.from, tab.to]) ?? []), 600];
    for (let index = 0; index < edges.length; index += 2) {
      const limit = index === 0 || index === edges.length - 2 ? rules.tabEndOverhang : rules.tabSpan;
      expect((edges[index + 1] ?? 0) - (edges[index] ?? 0)).toBeLessThanOrEqual(limit + 1e-3);
    }
    for (const tab of tabs?.tabs ?? []) expect(tab.to <= 280 + 1e-3 || tab.from >= 320 - 1e-3).toBe(true);
    expect(tabs?.ribLength).toBeCloseTo((tabs?.tabs.length ?? 0) * rules.tabLength, 3);
  });

  it('pinned tabs are kept and judged', () => {
    const tabs = take({ keep: { pinned: 'tabs' }, tabs: { pinned: [{ partId: 'rail', x: 100 }] } })?.parts[0];
    expect(tabs?.tabsFrom).toBe('pinned');
    expect(tabs?.tabs.map((tab) => tab.x)).toEqual([100]);
    expect(tabs?.tabsOk).toBe(false);
  });

  it('a mirrored part mirrors its tabs', () => {
    const keepOuts = [{ from: 100, to: 180 }];
    const mirrored = [{ from: 420, to: 500 }];
    const xs = (spans: object) =>
      take({ keep: { pinned: 'tabs' } }, { keepOuts: spans })?.parts[0]?.tabs.map((tab) => tab.x) ?? [];
    const other = xs(mirrored)
      .map((x) => 600 - x)
      .reverse();
    xs(keepOuts).forEach((x, index) => {
      expect(x).toBeCloseTo(other[index] ?? Number.NaN, 3);
    });
  });
});
