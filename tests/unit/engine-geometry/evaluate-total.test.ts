import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaluate } from '../../../shared/evaluate';
import { buildPart } from '../../../shared/model/build-part';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { buildEmptyLibrary, buildEmptyPlan, getEveryFace } from '../../../shared/model/defaults';
import type { Plan } from '../../../shared/model/plan';
import type { Shop } from '../../../shared/model/shop';

const ODD_LENGTHS = [0, -1, 1e-9, 0.001, 5, 20, 100, 700, 1e5, 1e12, 1e300, Number.NaN, Number.POSITIVE_INFINITY];
const oddLength = fc.oneof(fc.constantFrom(...ODD_LENGTHS), fc.double({ min: 0, max: 500, noNaN: true }));
const usualLength = fc.double({ min: 1, max: 300, noNaN: true });
const choice = <T>(value: fc.Arbitrary<T>) => fc.oneof(fc.constant('auto' as const), fc.record({ pinned: value }));

const part = fc
  .record({
    id: fc.constantFrom('a', 'b', 'c'),
    length: fc.oneof(usualLength, oddLength),
    height: fc.oneof(usualLength, oddLength),
    thickness: fc.oneof(usualLength, oddLength),
    quantity: fc.constantFrom(0, 1, 2, 7, 40, 1e9, -3, 1.5),
    asSupplied: fc.subarray(['top', 'fixedSide', 'movingSide', 'leftEnd'] as const),
    stations: fc.array(
      fc.record({
        kind: fc.constant('boss' as const),
        from: oddLength,
        to: oddLength,
        width: oddLength,
        widthEnd: oddLength,
      }),
      { maxLength: 2 },
    ),
    holes: fc.array(
      fc.record({
        id: fc.constant('hole'),
        axis: fc.constantFrom('z' as const, 'y' as const),
        x: oddLength,
        z: oddLength,
        diameter: oddLength,
        slotLength: oddLength,
        through: fc.boolean(),
        beforeCutOff: fc.boolean(),
      }),
      { maxLength: 2 },
    ),
  })
  .map((start) => buildPart({ name: start.id, ...start, asSupplied: [...start.asSupplied] }));

const seat = fc.oneof(
  fc.constant({ kind: 'shelf' as const }),
  fc.constant({ kind: 'bed' as const }),
  fc.record({
    kind: fc.constant('parallels' as const),
    parallelId: fc.constantFrom('none', ...defaultShop.parallels.slice(0, 3).map(({ id }) => id)),
    count: fc.constantFrom(1 as const, 2 as const),
  }),
);

const template = fc.record({
  id: fc.constantFrom('t1', 't2'),
  length: choice(oddLength),
  count: choice(fc.constantFrom(0, 1, 3, -2, 1e9)),
  slots: fc.array(
    fc.record({
      id: fc.uuid(),
      partId: fc.constantFrom('a', 'b', 'missing'),
      x: oddLength,
      mirrored: fc.boolean(),
    }),
    { maxLength: 3 },
  ),
});

const anyPlan = fc
  .record({
    units: fc.constantFrom('in' as const, 'mm' as const),
    parts: fc.array(part, { maxLength: 3 }),
    materialId: fc.constantFrom('', 'material-6082-t6', 'material-4140-annealed'),
    barId: choice(fc.constantFrom('none', defaultShop.bars[0]?.id ?? '')),
    wayUp: choice(fc.constantFrom('onEdge' as const, 'flat' as const)),
    measuredHeight: fc.option(oddLength),
    measuredThickness: fc.option(oddLength),
    measuredBow: fc.option(oddLength),
    allowance: oddLength,
    top: oddLength,
    ends: oddLength,
    skin: choice(oddLength),
    fromFixedJaw: choice(oddLength),
    layout: choice(fc.array(template, { maxLength: 2 })),
    partsPerBlank: choice(fc.constantFrom(0, 1, 5, 1e9, Number.NaN)),
    viseId: fc.constantFrom('', ...defaultShop.vises.map(({ id }) => id)),
    jawSetId: fc.constantFrom('', ...defaultShop.jawSets.map(({ id }) => id)),
    viseCount: choice(fc.constantFrom(0, 1, 3, 1e9, -1)),
    vises: choice(fc.array(fc.oneof(usualLength, oddLength), { maxLength: 3 })),
    seat: choice(seat),
    shelfDepth: choice(oddLength),
    spacer: choice(oddLength),
    blankX: choice(oddLength),
    targetGrip: choice(oddLength),
    kerf: choice(oddLength),
    trim: choice(oddLength),
  })
  .map((odd): Plan => {
    const start = buildEmptyPlan({ units: odd.units, date: '', author: '', shop: defaultShop });
    return {
      ...start,
      parts: odd.parts,
      stock: {
        ...start.stock,
        materialId: odd.materialId,
        barId: odd.barId,
        wayUp: odd.wayUp,
        measuredHeight: odd.measuredHeight,
        measuredThickness: odd.measuredThickness,
        measuredBow: odd.measuredBow,
      },
      allowance: getEveryFace(odd.allowance),
      cleanup: {
        top: odd.top,
        leftEnd: odd.ends,
        rightEnd: odd.ends,
        skinPerSide: odd.skin,
        fromFixedJaw: odd.fromFixedJaw,
      },
      layout: odd.layout,
      partsPerBlank: odd.partsPerBlank,
      holding: {
        ...start.holding,
        viseId: odd.viseId,
        jawSetId: odd.jawSetId,
        viseCount: odd.viseCount,
        vises: odd.vises,
        seat: odd.seat,
        shelfDepth: odd.shelfDepth,
        spacer: odd.spacer,
        blankX: odd.blankX,
        targetGrip: odd.targetGrip,
      },
      release: { ...start.release, clearance: odd.kerf },
      order: { ...start.order, squaringTrim: odd.trim, stub: odd.trim },
    };
  });

/** Paths of every number in a result that is not finite. */
function findNotFinite(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} = ${value}`];
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, entry]) => findNotFinite(entry, `${path}.${key}`));
}

describe('evaluate is total', () => {
  it('answers any plan, however odd, without a throw and without a number that is none', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        expect(findNotFinite(evaluate(plan, defaultShop))).toEqual([]);
      }),
      { numRuns: 300, seed: 20 },
    );
  });

  it('changes neither plan nor shop and gives the same answer twice', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const planBefore = structuredClone(plan);
        const shopBefore = JSON.stringify(defaultShop);
        const first = evaluate(plan, defaultShop);
        expect(evaluate(plan, defaultShop)).toEqual(first);
        expect(plan).toEqual(planBefore);
        expect(JSON.stringify(defaultShop)).toBe(shopBefore);
      }),
      { numRuns: 20, seed: 21 },
    );
  });

  it('answers with an empty shop', () => {
    const plan = buildEmptyPlan({ units: 'mm', date: '', author: '', shop: defaultShop });
    const emptied: Shop = {
      ...defaultShop,
      ...buildEmptyLibrary(),
    };
    const withPart = { ...plan, parts: [buildPart({ id: 'a', name: 'A', length: 50, height: 20, thickness: 10 })] };
    for (const one of [plan, withPart]) {
      const evaluation = evaluate(one, emptied);
      expect(evaluation.section).toBeNull();
      expect(evaluation.order).toBeNull();
      expect(findNotFinite(evaluation)).toEqual([]);
    }
  });

  it('gives the slices of every stack the height of the bar', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const { section, blanks } = evaluate(plan, defaultShop);
        for (const { stack } of blanks) {
          const sum = stack.slices.reduce((total, slice) => total + slice.height, 0);
          expect(sum).toBeCloseTo(section?.height.nominal ?? Number.NaN, 6);
          expect(stack.slices[0]?.zTop).toBeCloseTo(stack.proudHeight.nominal, 6);
        }
      }),
      { numRuns: 100, seed: 22 },
    );
  });
});
