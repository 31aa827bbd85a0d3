import { expect, test } from 'vitest';
import { describePlanChanges } from '../../../shared/model/plan-changes';
import { buildTestPlan } from './build-plan';

const plan = buildTestPlan();
const [link, arm] = plan.parts;
if (link === undefined || arm === undefined) throw new Error('The test plan has two parts.');

test('two plans that are the same differ in nothing', () => {
  expect(describePlanChanges(plan, structuredClone(plan))).toEqual([]);
});

test('a plan without a file is told by what is in it', () => {
  expect(describePlanChanges(null, plan)).toEqual(['2 parts: Link, Arm; 3 cuts']);
});

test('the name, parts and decisions that differ are named in words', () => {
  const after = structuredClone(plan);
  after.name = 'Sluice arms';
  after.parts = [
    { ...link, length: 96 },
    { ...arm, id: 'part-3', name: 'Pawl' },
  ];
  after.stock.wayUp = { pinned: 'flat' };
  after.holding.shelfDepth = { pinned: 6.35 };
  expect(describePlanChanges(plan, after)).toEqual([
    'the name was “New plan”',
    '1 part added: Pawl',
    '1 part changed: Link',
    '1 part removed: Arm',
    'stock, way up',
    'holding, shelf depth',
  ]);
});

test('many changes are counted and long names cut, so that the summary stays short', () => {
  const after = structuredClone(plan);
  after.parts = Array.from({ length: 200 }, (_, index) => ({ ...link, id: `new-${index}`, name: 'n'.repeat(500) }));
  after.allowance = { top: 1, bottom: 1, fixedSide: 1, movingSide: 1, leftEnd: 1, rightEnd: 1 };
  const phrases = describePlanChanges(plan, after);
  expect(phrases).toHaveLength(6);
  expect(phrases.at(-1)).toMatch(/^\d+ more changes$/);
  expect(Math.max(...phrases.map((phrase) => phrase.length))).toBeLessThan(200);
});
