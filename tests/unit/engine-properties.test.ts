import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Evaluation, evaluate as evaluateFully } from '../../shared/evaluate';
import { buildHole, buildPart, buildStation } from '../../shared/model/build-part';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import { buildEmptyPlan, getEveryFace } from '../../shared/model/defaults';
import type { Cut, Hole, Part, Plan, Span, Station } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';

/** Evenly spread; left to itself fast-check draws most numbers next to nothing. */
const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: 100_000 }).map((step) => min + ((max - min) * step) / 100_000);

/**
 * Places are set to a tenth of a micrometre, so that no rounding of a unit shows. Every third bar is on offer: what is
 * bought is not what is tried here.
 */
const shop: Shop = {
  ...defaultShop,
  bars: defaultShop.bars.filter(({ lengths }, index) => index % 3 === 0 && lengths.length > 0),
  rules: {
    ...defaultShop.rules,
    nudgeStepInch: 1e-4,
    nudgeStepMm: 1e-4,
    shelfStepInch: 0.01,
    shelfStepMm: 0.01,
    spacerStepInch: 1,
    spacerStepMm: 1,
  },
};

/** The order is not looked at: it may take next to no work. */
const evaluate = (plan: Plan, from: Shop): Evaluation => evaluateFully(plan, from, { orderWorkUnits: 1000 });

const MATERIALS = ['material-4140-annealed', 'material-6082-t6', 'material-316'];

const part: fc.Arbitrary<Part> = fc
  .record({
    length: between(40, 320),
    height: between(8, 30),
    thickness: between(6, 16),
    quantity: fc.integer({ min: 1, max: 9 }),
    shank: fc.option(fc.record({ from: between(0.1, 0.4), to: between(0.5, 0.9), width: between(0.5, 1) })),
    bore: fc.option(fc.record({ x: between(0.1, 0.9), diameter: between(1, 5), beforeCutOff: fc.boolean() })),
    keepOut: fc.option(fc.record({ from: between(0, 0.5), length: between(0.02, 0.3) })),
  })
  .map(({ shank, bore, keepOut, ...size }) =>
    buildPart({
      id: 'lever',
      name: 'Lever',
      ...size,
      stations:
        shank === null
          ? []
          : [
              buildStation({
                kind: 'shank',
                from: shank.from * size.length,
                to: shank.to * size.length,
                width: shank.width * size.thickness,
                widthEnd: shank.width * size.thickness,
              }),
            ],
      holes:
        bore === null
          ? []
          : [
              buildHole({
                id: 'bore',
                x: bore.x * size.length,
                diameter: bore.diameter,
                beforeCutOff: bore.beforeCutOff,
              }),
            ],
      keepOuts:
        keepOut === null
          ? []
          : [{ from: keepOut.from * size.length, to: (keepOut.from + keepOut.length) * size.length }],
    }),
  );

const MILL = 'tool-em-carbide-0500';

const cuts: fc.Arbitrary<Cut[]> = fc
  .record({
    stepDown: between(0.5, 8),
    sideEngagement: between(0.1, 5),
    feedPerTooth: between(0.01, 0.08),
    pass: between(0.3, 4),
  })
  .map(({ stepDown, sideEngagement, feedPerTooth, pass }) => {
    const shared = { holderId: '', feedPerTooth, cuttingSpeedMPerMin: 80, stickOut: 'auto' as const };
    return [
      { ...shared, id: 'side', name: 'Sides', kind: 'side', toolId: MILL, stepDown, sideEngagement },
      { ...shared, id: 'off', name: 'Cut off', kind: 'cutOff', toolId: '', stepDown: 0, sideEngagement: pass },
    ];
  });

/** A job that a bar and a vise are sure to be found for, with what the engine then takes pinned. */
const job: fc.Arbitrary<Plan> = fc
  .record({
    part,
    cuts,
    materialId: fc.constantFrom(...MATERIALS),
    allowance: between(0.2, 1.5),
    clampForceN: between(2000, 20_000),
    jawSetId: fc.constantFrom('jaws-6in-soft', 'jaws-6in-smooth', 'jaws-6in-serrated'),
    perBlank: fc.integer({ min: 1, max: 3 }),
  })
  .map((one): Plan => {
    const start = buildEmptyPlan({ units: 'mm', date: '', author: '', shop });
    return {
      ...start,
      parts: [one.part],
      cuts: one.cuts,
      allowance: getEveryFace(one.allowance),
      partsPerBlank: { pinned: one.perBlank },
      stock: { ...start.stock, materialId: one.materialId },
      holding: {
        ...start.holding,
        viseId: 'vise-6in',
        jawSetId: one.jawSetId,
        clamp: { kind: 'force', clampForceN: one.clampForceN },
      },
    };
  });

/** The plan with the bar and the cutter that the engine takes pinned, and the vises where they stand. */
function hold(plan: Plan): Plan | null {
  const { section, vises, release } = evaluate(plan, shop);
  if (section === null || vises === null || release === null) return null;
  return {
    ...plan,
    stock: { ...plan.stock, barId: { pinned: section.barId.value }, wayUp: { pinned: section.wayUp.value } },
    release: { ...plan.release, cutterId: { pinned: release.cutterId.value } },
    holding: { ...plan.holding, vises: { pinned: vises.centres.value }, blankX: { pinned: 0 } },
  };
}

const getFactors = ({ blanks }: Evaluation): number[] =>
  blanks.flatMap(({ hold: held }) =>
    held.rows.flatMap((row) => [row.slipFactor.value, row.tipFactor.value, row.liftFactor.value]),
  );

function expectNoneLower(after: readonly number[], before: readonly number[]): void {
  expect(after).toHaveLength(before.length);
  after.forEach((factor, index) => {
    expect(factor).toBeGreaterThanOrEqual((before[index] ?? 0) * (1 - 1e-9));
  });
}

describe('a whole plan', () => {
  it('more grip never lowers a hold factor', () => {
    let tried = 0;
    fc.assert(
      fc.property(job, between(1, 20), between(0, 10), (free, depth, more) => {
        const plan = hold({ ...free, holding: { ...free.holding, jawSetId: 'jaws-6in-soft' } });
        if (plan === null) return;
        const at = (shelf: number) =>
          evaluate(
            {
              ...plan,
              holding: { ...plan.holding, seat: { pinned: { kind: 'shelf' } }, shelfDepth: { pinned: shelf } },
            },
            shop,
          );
        tried += 1;
        expectNoneLower(getFactors(at(depth + more)), getFactors(at(depth)));
      }),
      { numRuns: 25, seed: 41 },
    );
    expect(tried).toBeGreaterThan(15);
  });

  it('a bigger step-down never raises one', () => {
    let tried = 0;
    fc.assert(
      fc.property(job, between(1, 2.5), (free, times) => {
        const plan = hold(free);
        if (plan === null) return;
        const deeper: Plan = { ...plan, cuts: plan.cuts.map((cut) => ({ ...cut, stepDown: cut.stepDown * times })) };
        const [before, after] = [evaluate(plan, shop), evaluate(deeper, shop)];
        // A step deeper than the bar stands proud is no step of this bar.
        const proud = Math.min(...before.blanks.map(({ stack }) => stack.proudHeight.nominal));
        fc.pre(deeper.cuts.every(({ stepDown }) => stepDown < proud));
        tried += 1;
        expectNoneLower(getFactors(before), getFactors(after));
      }),
      { numRuns: 30, seed: 42 },
    );
    expect(tried).toBeGreaterThan(15);
  });

  it('units make no difference to any number', () => {
    fc.assert(
      fc.property(job, (free) => {
        const plan = hold(free);
        if (plan === null) return;
        const [inch, metric] = (['in', 'mm'] as const).map((units) => getNumbers(evaluate({ ...plan, units }, shop)));
        expect(metric).toEqual(inch);
      }),
      { numRuns: 20, seed: 43 },
    );
  });

  it('a mirrored part mirrors its rib and its tabs', () => {
    fc.assert(
      fc.property(job, fc.constantFrom('rib' as const, 'tabs' as const), (free, keep) => {
        const plan: Plan = { ...free, release: { ...free.release, keep: { pinned: keep } } };
        const mirrored: Plan = { ...plan, parts: plan.parts.map(mirrorPart) };
        const [one, other] = [plan, mirrored].map((each) => evaluate(each, shop).release?.parts[0]);
        fc.pre(one !== undefined && other !== undefined);
        const length = plan.parts[0]?.length ?? 0;
        const turned = other?.tabs.map(({ x }) => length - x).reverse() ?? [];
        expect(one?.tabs).toHaveLength(turned.length);
        one?.tabs.forEach(({ x }, index) => {
          expect(x).toBeCloseTo(turned[index] ?? Number.NaN, 3);
        });
        expect(other?.widest.rib).toBeCloseTo(one?.widest.rib ?? Number.NaN, 9);
        expect(other?.narrowest.rib).toBeCloseTo(one?.narrowest.rib ?? Number.NaN, 9);
        expect(other?.snapForceN.value).toBeCloseTo(one?.snapForceN.value ?? Number.NaN, 3);
        expect(other?.tabsOk).toBe(one?.tabsOk);
      }),
      { numRuns: 40, seed: 44 },
    );
  });

  it('one vise more never worsens the worst bending along the bar, at the places the engine gives them', () => {
    fc.assert(
      fc.property(job, fc.integer({ min: 1, max: 4 }), (free, count) => {
        const plan = hold(free);
        if (plan === null) return;
        const [fewer, more] = [count, count + 1].map((viseCount) => {
          const held = { ...plan.holding, vises: 'auto' as const, blankX: 'auto' as const };
          const { blanks } = evaluate({ ...plan, holding: { ...held, viseCount: { pinned: viseCount } } }, shop);
          return Math.max(
            ...blanks.map(({ deflection: { overhang, betweenVises } }) => Math.max(overhang.value, betweenVises.value)),
          );
        });
        expect(more).toBeLessThanOrEqual((fewer ?? 0) * (1 + 1e-6) + 1e-12);
      }),
      { numRuns: 30, seed: 45 },
    );
  });
});

/** Every number of an evaluation but those that stand in words, and the names of units. */
function getNumbers(evaluation: Evaluation): unknown {
  const { findings, figures, ...results } = evaluation;
  return { ...(keepNumbers(results) as object), codes: findings.map(({ key, severity }) => [key, severity]) };
}

function keepNumbers(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return typeof value === 'string' ? undefined : value;
  if (Array.isArray(value)) return value.map(keepNumbers);
  return Object.fromEntries(
    Object.entries(value)
      .filter(([key]) => key !== 'why' && key !== 'remedies')
      .map(([key, entry]) => [key, keepNumbers(entry)]),
  );
}

function mirrorPart(one: Part): Part {
  const turn = <T extends Span>(span: T): T => ({ ...span, from: one.length - span.to, to: one.length - span.from });
  const turnStation = (station: Station): Station => ({
    ...turn(station),
    width: station.widthEnd,
    widthEnd: station.width,
  });
  const turnHole = (hole: Hole): Hole => ({ ...hole, x: one.length - hole.x });
  return {
    ...one,
    stations: one.stations.map(turnStation).reverse(),
    holes: one.holes.map(turnHole).reverse(),
    keepOuts: one.keepOuts.map(turn).reverse(),
  };
}
