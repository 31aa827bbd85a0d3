import { describe, expect, test } from 'vitest';
import { type Compared, compareFigures, getOwnFindings } from '../../../renderer/compare/compared-figures';
import { AS_IT_IS, buildVariants, getFirstBeside, getSectionId } from '../../../renderer/compare/variants';
import { evaluate } from '../../../shared/evaluate';
import { buildHoistArms } from '../../../shared/model/catalogue/sample-hoist-arms';
import { resolveShop } from '../../../shared/model/plan-library';
import { shop } from './small-plan';

const HOIST_ARMS = buildHoistArms();
const evaluation = evaluate(HOIST_ARMS, shop);
const variants = buildVariants({ plan: HOIST_ARMS, evaluation, past: [], onFile: null });

function getCompared(id: string): Compared {
  const plan = variants.find((variant) => variant.id === id)?.plan;
  if (plan === undefined) throw new Error(`There is no variant ${id}.`);
  return { plan, evaluation: evaluate(plan, shop), shop: resolveShop(plan, shop) };
}

const format = { units: 'in', currency: 'USD' } as const;
const asItIs = getCompared(AS_IT_IS);
const next = getCompared(getFirstBeside(variants, evaluation));

describe('figures of two variants', () => {
  test('are the same beside themselves', () => {
    const rows = compareFigures(asItIs, asItIs, format).flatMap((group) => group.rows);
    expect(rows.length).toBeGreaterThan(18);
    expect(rows.filter(({ difference }) => difference !== '')).toEqual([]);
    expect(getOwnFindings(asItIs, asItIs)).toEqual([]);
  });

  test('say by how much the right one differs, and the other way round when they change places', () => {
    const find = (left: Compared, right: Compared, label: string): string =>
      compareFigures(left, right, format)
        .flatMap((group) => group.rows)
        .find((row) => row.label === label)?.difference ?? '';
    expect(find(asItIs, next, 'Grip')).toBe('0.250 in more');
    expect(find(next, asItIs, 'Grip')).toBe('0.250 in less');
    expect(find(asItIs, next, 'Bar')).toBe('another');
    expect(find(asItIs, next, 'Stands proud')).toBe('2.3 × grip');
  });

  test('are those of the engine for the plan with that bar', () => {
    const grip = compareFigures(asItIs, next, format)[0]?.rows.find(({ label }) => label === 'Grip');
    expect(grip?.right.text).toBe('0.750 in');
    expect(next.evaluation.figures.grip?.value).toBeCloseTo(19.05, 9);
  });

  test('that only one of them has are told so', () => {
    const none = { ...asItIs, evaluation: evaluate({ ...HOIST_ARMS, parts: [] }, shop) };
    const rows = compareFigures(asItIs, none, format).flatMap((group) => group.rows);
    expect(rows.find(({ label }) => label === 'Grip')?.difference).toBe('not here');
    expect(compareFigures(none, asItIs, format)[0]?.rows.find(({ label }) => label === 'Grip')?.difference).toBe(
      'only here',
    );
  });
});

describe('variants of a plan', () => {
  test('are the plan as it is and every other bar on offer, both ways up', () => {
    expect(variants[0]).toMatchObject({ id: AS_IT_IS, plan: HOIST_ARMS, step: '' });
    const others = evaluation.sections.filter((row) => !row.chosen);
    expect(variants.slice(1).map(({ id }) => id)).toEqual(others.map(getSectionId));
    expect(variants.every(({ id, plan }) => id === AS_IT_IS || evaluate(plan, shop).section?.barId.pinned)).toBe(true);
  });

  test('come with the plan as it was and as it is on file', () => {
    const was = { ...HOIST_ARMS, name: 'was' };
    const filed = { ...HOIST_ARMS, name: 'on file' };
    const all = buildVariants({ plan: HOIST_ARMS, evaluation, past: [{ step: 'rename', plan: was }], onFile: filed });
    expect(all.slice(-2).map(({ label, plan }) => [label, plan.name])).toEqual([
      ['as it was before “rename”', 'was'],
      ['as it is on file', 'on file'],
    ]);
  });
});
