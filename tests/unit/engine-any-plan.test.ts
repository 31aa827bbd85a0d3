import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaluate } from '../../shared/evaluate';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import { buildEmptyLibrary } from '../../shared/model/defaults';
import { parsePlan } from '../../shared/model/parse-plan';
import { parseShop } from '../../shared/model/parse-shop';
import type { Plan } from '../../shared/model/plan';
import { planSchema } from '../../shared/model/plan-schema';
import type { Shop } from '../../shared/model/shop';
import { shopSchema } from '../../shared/model/shop-schema';
import { PLAN_VERSION, SHOP_VERSION } from '../../shared/model/versions';
import { getSchemaArbitrary, type SchemaArbitraryOptions } from './support/schema-arbitrary';

const getIds = (entries: readonly { id: string }[]): string[] => entries.map(({ id }) => id);

/** What the shop has, so that most of what a plan names is there. */
const TEXTS: SchemaArbitraryOptions['texts'] = {
  materialId: ['material-4140-annealed', 'material-6082-t6', 'material-316'],
  barId: getIds(defaultShop.bars.filter(({ materialId }) => materialId === 'material-4140-annealed')),
  sizeClassId: getIds(defaultShop.sizeClasses),
  viseId: getIds(defaultShop.vises),
  jawSetId: getIds(defaultShop.jawSets),
  parallelId: getIds(defaultShop.parallels),
  toolId: getIds(defaultShop.tools),
  cutterId: getIds(defaultShop.tools.filter(({ kind }) => kind === 'keySeat' || kind === 'slittingSaw')),
  holderId: getIds(defaultShop.holders),
  sawId: getIds(defaultShop.saws),
  date: ['2026-01-02', ''],
};

const planOptions: SchemaArbitraryOptions = {
  texts: TEXTS,
  given: { version: fc.constant(PLAN_VERSION), accepted: fc.constant([]) },
  usual: { length: [30, 300], height: [6, 40], thickness: [4, 18], stepDown: [0.2, 8], feedPerTooth: [0.01, 0.1] },
  longest: 3,
};

/** Every plan that can be read from a file: what the schema lets through, then the reader itself. */
const anyPlan: fc.Arbitrary<Plan> = getSchemaArbitrary(planSchema, planOptions)
  .map((value) => parsePlan(value))
  .filter((read) => read.ok)
  .map((read) => (read.ok ? read.plan : ({} as Plan)));

/** The plan without a library of its own, so that it is planned with what a shop really has. */
const shopsPlan: fc.Arbitrary<Plan> = anyPlan.map((plan) => ({
  ...plan,
  library: buildEmptyLibrary(),
}));

const anyShop: fc.Arbitrary<Shop> = getSchemaArbitrary(shopSchema, {
  texts: TEXTS,
  given: { version: fc.constant(SHOP_VERSION) },
  usual: {},
  longest: 3,
})
  .map((value) => parseShop(value))
  .filter((read) => read.ok)
  .map((read) => (read.ok ? read.shop : defaultShop));

/** Paths of every number in a result that is not finite. */
function findNotFinite(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} = ${value}`];
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, entry]) => findNotFinite(entry, `${path}.${key}`));
}

/** How many of the plans came to a bar, and to a blank with a cut on it. */
const reached = { bar: 0, hold: 0 };

function expectSound(plan: Plan, shop: Shop): void {
  const evaluation = evaluate(plan, shop, { orderWorkUnits: 1000 });
  if (evaluation.section !== null) reached.bar += 1;
  if (evaluation.blanks.some(({ hold }) => hold.weakest !== null)) reached.hold += 1;
  expect(findNotFinite(evaluation)).toEqual([]);
  for (const { sentence, detail } of evaluation.findings) {
    expect(`${sentence} ${detail}`).not.toMatch(/NaN|undefined|Infinity|\bnull\b/);
  }
}

describe('evaluate answers every plan that can be read', () => {
  it('in the shop as it comes', () => {
    fc.assert(
      fc.property(shopsPlan, (plan) => expectSound(plan, defaultShop)),
      { numRuns: 100, seed: 31 },
    );
  });

  it('with a library of its own, whatever stands in it', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => expectSound(plan, defaultShop)),
      { numRuns: 60, seed: 32 },
    );
  });

  it('in any shop that can be read', () => {
    fc.assert(
      fc.property(anyPlan, anyShop, (plan, shop) => expectSound(plan, shop)),
      { numRuns: 60, seed: 33 },
    );
  });

  it('and many of them come to a bar, and to a hold', () => {
    expect(reached.bar).toBeGreaterThan(40);
    expect(reached.hold).toBeGreaterThan(15);
  });
});
