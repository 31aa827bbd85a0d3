import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { evaluate } from '../../../shared/evaluate';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import type { Plan } from '../../../shared/model/plan';
import { readSamplePlan, SAMPLE_NAMES } from '../support/sample-plans';

const changePart = (plan: Plan, change: Partial<Plan['parts'][number]>): Plan => {
  const [part, ...others] = plan.parts;
  return part === undefined ? plan : { ...plan, parts: [{ ...part, ...change }, ...others] };
};

/** Edits that keep most objects of the plan, as the store does, so that anything remembered by object is met again. */
const EDITS: readonly { name: string; edit: (plan: Plan) => Plan }[] = [
  { name: 'part longer', edit: (plan) => changePart(plan, { length: (plan.parts[0]?.length ?? 0) + 1.5 }) },
  { name: 'part higher', edit: (plan) => changePart(plan, { height: (plan.parts[0]?.height ?? 0) + 2 }) },
  { name: 'part thicker', edit: (plan) => changePart(plan, { thickness: (plan.parts[0]?.thickness ?? 0) + 1 }) },
  { name: 'more off', edit: (plan) => changePart(plan, { quantity: 17 }) },
  { name: 'allowance', edit: (plan) => ({ ...plan, allowance: { ...plan.allowance, top: 2.5, fixedSide: 0.8 } }) },
  {
    name: 'clamp force',
    edit: (plan) => ({ ...plan, holding: { ...plan.holding, clamp: { kind: 'force', clampForceN: 7000 } } }),
  },
  { name: 'tabs', edit: (plan) => ({ ...plan, release: { ...plan.release, keep: { pinned: 'tabs' } } }) },
];

/** The engine as a process that has not worked anything out yet has it. */
async function evaluateAfresh(plan: Plan): Promise<string> {
  vi.resetModules();
  const fresh = await import('../../../shared/evaluate');
  return JSON.stringify(fresh.evaluate(structuredClone(plan), structuredClone(defaultShop)));
}

describe.each(SAMPLE_NAMES)('evaluate, asked again and again about %s', (name) => {
  it.each(EDITS)('answers an edit ($name) as a fresh process does', async ({ edit }) => {
    const plan = readSamplePlan(name);
    for (const other of EDITS) evaluate(other.edit(plan), defaultShop);
    const edited = edit(plan);
    expect(JSON.stringify(evaluate(edited, defaultShop))).toBe(await evaluateAfresh(edited));
  });

  it('goes back to the first answer when the edit is undone', () => {
    const plan = readSamplePlan(name);
    const before = JSON.stringify(evaluate(plan, defaultShop));
    for (const { edit } of EDITS) evaluate(edit(plan), defaultShop);
    expect(JSON.stringify(evaluate(plan, defaultShop))).toBe(before);
  });
});

/** A dozen lengths that a quick search does not prove the best cutting of. */
function buildManyLengths(): Plan {
  const plan = readSamplePlan('hoist-arms');
  const [pattern] = plan.parts;
  if (pattern === undefined) throw new Error('the sample has no part');
  const parts = Array.from({ length: 12 }, (_, index) => ({
    ...pattern,
    id: `part-${index}`,
    length: pattern.length + 17.3 * index,
    quantity: 3 + ((index * 5) % 7),
  }));
  return { ...plan, parts, layout: 'auto', partsPerBlank: { pinned: 1 } };
}

describe('evaluate, whatever was asked before', () => {
  it('gives the quick order again after a thorough one, which may be better', () => {
    const plan = buildManyLengths();
    const quick = evaluate(plan, defaultShop);
    const thorough = evaluate(plan, defaultShop, { orderWorkUnits: 5e7 });
    expect(JSON.stringify(evaluate(plan, defaultShop))).toBe(JSON.stringify(quick));
    expect(thorough.order?.bound).toBeGreaterThanOrEqual(quick.order?.bound ?? 0);
    expect(thorough.order?.cost?.value).toBeLessThanOrEqual(quick.order?.cost?.value ?? 0);
    expect(thorough.section?.barId.value).toBe(quick.section?.barId.value);
  });

  it('answers any plan reached by any edits as a fresh process does', async () => {
    const anyEdit = fc.oneof(
      fc.constantFrom(...EDITS.map(({ edit }) => edit)),
      fc.double({ min: 60, max: 320, noNaN: true }).map((length) => (plan: Plan) => changePart(plan, { length })),
      fc.integer({ min: 1, max: 30 }).map((quantity) => (plan: Plan) => changePart(plan, { quantity })),
      fc.constant((plan: Plan) => ({ ...plan, layout: 'auto' as const, partsPerBlank: 'auto' as const })),
      fc.constantFrom(1, 2, 3, 4).map((count) => (plan: Plan) => ({
        ...plan,
        holding: { ...plan.holding, viseCount: { pinned: count } },
      })),
    );
    const starts = fc.constantFrom(readSamplePlan('hoist-arms'), readSamplePlan('keeper-links'), buildManyLengths());
    await fc.assert(
      fc.asyncProperty(starts, fc.array(anyEdit, { minLength: 1, maxLength: 5 }), async (start, edits) => {
        let plan = start;
        for (const edit of edits) {
          plan = edit(plan);
          evaluate(plan, defaultShop);
        }
        expect(JSON.stringify(evaluate(plan, defaultShop))).toBe(await evaluateAfresh(plan));
      }),
      { numRuns: 10, seed: 3 },
    );
  }, 120_000);
});
