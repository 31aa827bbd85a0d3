import { describe, expect, test } from 'vitest';
import { computeCostGrip } from '../../../renderer/order/cost-grip-layout';
import { getSortedSections } from '../../../renderer/order/sort-sections';
import { FIGURE_KEYS, FIGURES, getFigureSeverity } from '../../../renderer/shell/figures';
import { ENTRY_KINDS, type EntryKind, LIST_KEYS } from '../../../renderer/shop/entry-kinds';
import type { FieldSpec, ListKey } from '../../../renderer/shop/field-spec';
import type { SectionRow } from '../../../shared/engine/results';
import { evaluate } from '../../../shared/evaluate';
import type { Finding } from '../../../shared/findings/finding';
import { getAtPath, setAtPath } from '../../../shared/model/edit';
import { buildSmallPlan, shop } from './small-plan';

const row = (values: Partial<SectionRow>): SectionRow => ({
  barId: 'b',
  wayUp: 'onEdge',
  name: 'bar',
  height: 50,
  thickness: 20,
  fitsNominal: true,
  fitsWorst: true,
  reason: '',
  grip: 10,
  gripLeast: 9,
  seat: '',
  shelfDepth: 10,
  holdFactor: 2,
  cost: 100,
  massKg: 5,
  yieldToPart: 0.5,
  bars: 1,
  proven: true,
  verdict: 'good',
  weakest: '',
  chosen: false,
  dominated: false,
  ...values,
});

describe('sections compared', () => {
  const rows = [
    row({ barId: 'dear', cost: 200, grip: 20 }),
    row({ barId: 'unknown', cost: null }),
    row({ barId: 'unfit', fitsWorst: false, cost: 1 }),
    row({ barId: 'cheap', cost: 50, grip: 5 }),
  ];

  test('put what fits before what does not, and what has no price last of those', () => {
    expect(getSortedSections(rows, 'cost').map(({ barId }) => barId)).toEqual(['cheap', 'dear', 'unknown', 'unfit']);
  });

  test('by grip put the deepest first', () => {
    expect(getSortedSections(rows, 'grip')[0]?.barId).toBe('dear');
  });

  test('stand in the picture at their grip and cost, names apart', () => {
    const frame = { left: 0, right: 100, top: 0, bottom: 100, lineHeight: 13 };
    const { points, getX } = computeCostGrip([...rows, row({ barId: 'near', cost: 51, grip: 6 })], [8], 1, frame);
    expect(points.map(({ row: each }) => each.barId).toSorted()).toEqual(['cheap', 'dear', 'near']);
    for (const point of points) expect(point.x).toBeCloseTo(getX(point.row.grip), 9);
    const labels = points.map(({ labelY }) => labelY).toSorted((a, b) => a - b);
    for (let index = 1; index < labels.length; index += 1)
      expect((labels[index] ?? 0) - (labels[index - 1] ?? 0)).toBeGreaterThanOrEqual(13);
  });

  test('of a plan without any bar give an empty picture', () => {
    expect(computeCostGrip([], [], 1, { left: 0, right: 100, top: 0, bottom: 100, lineHeight: 13 }).points).toEqual([]);
  });
});

describe('the decision figures', () => {
  const finding = (code: string, severity: Finding['severity'], accepted = false): Finding => ({
    code,
    key: code,
    severity,
    accepted,
    sentence: '',
    detail: '',
    numbers: [],
    features: [],
    fixes: [],
  });

  test('carry the worst open finding about them', () => {
    expect(getFigureSeverity('grip', [finding('grip-close', 'check'), finding('grip-too-thin', 'stop')])).toBe('stop');
    expect(getFigureSeverity('grip', [finding('grip-close', 'check', true)])).toBeNull();
    expect(getFigureSeverity('cost', [finding('grip-too-thin', 'stop')])).toBeNull();
  });

  test('say something short of any plan, also of an empty one', () => {
    for (const plan of [buildSmallPlan(), { ...buildSmallPlan(), parts: [] }]) {
      const evaluation = evaluate(plan, shop);
      for (const key of FIGURE_KEYS) expect(FIGURES[key].about(evaluation, 'in').length).toBeLessThan(40);
    }
  });
});

describe('the forms of the shop', () => {
  const getFields = (fields: readonly FieldSpec[]): FieldSpec[] => [...fields];

  test.each(LIST_KEYS)('%s: every field leads to a value of its kind, for every entry', (key) => {
    const kind = ENTRY_KINDS[key] as unknown as EntryKind<ListKey>;
    shop[key].forEach((entry) => {
      for (const { fields } of kind.getGroups(entry)) for (const field of getFields(fields)) checkField(field, entry);
    });
  });

  test.each(LIST_KEYS)('%s: together the fields reach every value but the ids', (key) => {
    const kind = ENTRY_KINDS[key] as unknown as EntryKind<ListKey>;
    for (const entry of shop[key]) {
      const reached = kind.getGroups(entry).flatMap(({ fields }) => fields.map((field) => String(field.path[0])));
      const missing = Object.keys(entry).filter((name) => !['id', 'kind'].includes(name) && !reached.includes(name));
      expect(missing).toEqual([]);
    }
  });
});

function checkField(field: FieldSpec, base: unknown): void {
  const value = getAtPath(base, field.path);
  expect(setAtPath(base, field.path, value)).toEqual(base);
  switch (field.kind) {
    case 'text':
    case 'entry':
      expect(typeof value, field.label).toBe('string');
      return;
    case 'choice':
      expect(field.options.map(({ id }) => id)).toContain(value);
      return;
    case 'check':
      expect(typeof value, field.label).toBe('boolean');
      return;
    case 'length':
    case 'quantity':
      if (value === null) expect(field.options?.mayBeEmpty, field.label).toBe(true);
      else expect(typeof value, field.label).toBe('number');
      return;
    case 'optional':
      if (value !== null) for (const inner of field.fields) checkField(inner, value);
      for (const inner of field.fields) checkField(inner, field.first);
      return;
    case 'rows':
      for (const each of value as unknown[]) for (const column of field.columns) checkField(column, each);
      for (const column of field.columns) checkField(column, field.first);
      return;
    default:
      field satisfies never;
  }
}
