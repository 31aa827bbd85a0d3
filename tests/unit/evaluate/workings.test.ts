import { describe, expect, it } from 'vitest';
import { evaluate } from '../../../shared/evaluate';
import { findWorkings, getWorkings, type WorkingTopic } from '../../../shared/evaluate/workings';
import { getWorkingText, type TextLook } from '../../../shared/evaluate/workings-text';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { buildHoistArms } from '../../../shared/model/catalogue/sample-hoist-arms';
import { buildKeeperLinks } from '../../../shared/model/catalogue/sample-keeper-links';

const IN: TextLook = { units: 'in', currency: 'USD' };
const MM: TextLook = { units: 'mm', currency: 'USD' };

/** Every number or decision that carries its own workings, wherever it stands in an evaluation. */
function collect(value: unknown, path: string, found: Map<string, string>): void {
  if (typeof value !== 'object' || value === null) return;
  if ('why' in value && typeof value.why === 'object' && value.why !== null && 'rule' in value.why) {
    found.set(path, String(value.why.rule));
    return;
  }
  for (const [key, inner] of Object.entries(value)) collect(inner, `${path}.${key}`, found);
}

function getRules(topics: readonly WorkingTopic[]): Set<string> {
  return new Set(topics.flatMap(({ workings }) => workings.map(({ why }) => why.rule)));
}

describe('workings of an evaluation', () => {
  it.each([
    ['hoist arms', buildHoistArms()],
    ['keeper links', buildKeeperLinks()],
  ])('list every figure there is: %s', (_name, plan) => {
    const evaluation = evaluate(plan, defaultShop);
    const rules = getRules(getWorkings(plan, evaluation, IN));
    const found = new Map<string, string>();
    collect(evaluation, 'evaluation', found);
    expect(found.size).toBeGreaterThan(40);
    const missing = [...found].filter(([, rule]) => !rules.has(rule)).map(([path]) => path);
    expect(missing).toEqual([]);
  });

  it('each is listed once and says rule and source', () => {
    const plan = buildHoistArms();
    const all = getWorkings(plan, evaluate(plan, defaultShop), IN).flatMap(({ workings }) => workings);
    expect(new Set(all.map(({ id }) => id)).size).toBe(all.length);
    for (const { id, value, why } of all) {
      expect(why.rule, id).not.toBe('');
      expect(why.source, id).not.toBe('');
      expect(value, id).not.toMatch(/NaN|undefined|Infinity/);
    }
  });

  it('are found by any words in them', () => {
    const plan = buildHoistArms();
    const topics = getWorkings(plan, evaluate(plan, defaultShop), IN);
    const found = findWorkings(topics, 'kienzle side');
    expect(found.map(({ id }) => id)).toEqual(['forces']);
    expect(findWorkings(topics, 'no such words anywhere')).toEqual([]);
    expect(findWorkings(topics, '  ')).toEqual(topics);
  });
});

describe('workings in words', () => {
  const getFilled = (formula: string, inputs: [string, number][], look = MM): string =>
    getWorkingText(
      {
        rule: 'r',
        formula,
        inputs: inputs.map(([name, value]) => ({ name, value, kind: 'length' as const })),
        source: 's',
      },
      look,
    ).filled;

  it('put the numbers in the place of their names', () => {
    expect(
      getFilled('g = H - (h + k)', [
        ['H', 40],
        ['h', 25],
        ['k', 3],
      ]),
    ).toBe('g = 40.00 mm - (25.00 mm + 3.00 mm)');
  });

  it('keep the left side, and part factors and powers', () => {
    expect(
      getFilled('δ = F a³ / (3 E a)', [
        ['F', 2],
        ['a', 5],
        ['E', 7],
        ['δ', 9],
      ]),
    ).toBe('δ = 2.00 mm · (5.00 mm)³ / (3 · 7.00 mm · 5.00 mm)');
  });

  it('take the longest name, and never a piece of another', () => {
    expect(
      getFilled('x = max(clear, clear width) + clearance', [
        ['clear', 1],
        ['clear width', 2],
      ]),
    ).toBe('x = max(1.00 mm, 2.00 mm) + clearance');
  });

  it('fill several formulas of one line', () => {
    expect(
      getFilled('p = a b, q = a²', [
        ['a', 2],
        ['q', 3],
      ]),
    ).toBe('p = 2.00 mm b, q = (2.00 mm)²');
  });

  it('multiply nothing by a word', () => {
    expect(getFilled('g = J or h', [['h', 5]])).toBe('g = J or 5.00 mm');
    expect(getFilled('least h over all', [['least', 5]])).toBe('');
  });

  it('say nothing where no number stands in the formula', () => {
    expect(getFilled('a = b', [['c', 1]])).toBe('');
    expect(getFilled('', [['c', 1]])).toBe('');
  });

  it('write small lengths with places enough', () => {
    expect(getFilled('d = x', [['x', 0.0123]])).toBe('d = 0.0123 mm');
    expect(getFilled('d = x', [['x', 0.0127]], IN)).toBe('d = 0.00050 in');
  });
});
