import { describe, expect, it } from 'vitest';
import { evaluate, THOROUGH } from '../../../shared/evaluate';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import type { Plan } from '../../../shared/model/plan';
import type { BarOffer, Remnant } from '../../../shared/model/shop';
import { readSamplePlan, SAMPLE_NAMES } from '../support/sample-plans';
import { buildBar, buildJaws, buildSizeClass, evaluateScenario, type Scenario } from './scenario';

const bar = (width: number, price: number | null, extra: Partial<BarOffer> = {}): BarOffer =>
  buildBar({
    id: `bar-${width}`,
    width,
    thickness: 12,
    lengths: [{ id: 'two-metres', length: 2000, price, stocked: true, quantity: null }],
    ...extra,
  });

/** A part 20 high on a kerf of 3: 23 above the jaws; jaws that need 5 of grip and are comfortable at 10. */
const BASE: Scenario = {
  units: 'mm',
  kerf: 3,
  parts: [{ id: 'arm', name: 'Arm', length: 100, height: 20, thickness: 8, quantity: 4 }],
  jaws: buildJaws({ leastFlatGrip: 5, comfortableGrip: 10 }),
  bars: [bar(25, 10), bar(30, 20), bar(35, 30), bar(40, 25), bar(50, 60)],
  rules: { shelfStepMm: 0.25 },
  plan: (plan) => ({ ...plan, stock: { ...plan.stock, wayUp: { pinned: 'onEdge' } } }),
};

const change = (next: (plan: Plan) => Plan): Scenario => ({ ...BASE, plan: (plan) => next(BASE.plan?.(plan) ?? plan) });

describe('choice of section', () => {
  it('takes the cheapest comfortable bar, over a smaller one that costs more', () => {
    const { section } = evaluateScenario(BASE);
    expect(section?.barId.value).toBe('bar-40');
    expect(section?.barId.why.rule).toContain('Cheapest bar');
    expect(section?.barId.why.inputs).toContainEqual({
      name: 'cheaper: bar-30',
      value: '7.00 mm of grip, 10.00 mm is comfortable',
      kind: 'text',
    });
  });

  it('takes the cheapest that fits where none is comfortable, and says so', () => {
    const { section } = evaluateScenario({ ...BASE, bars: [bar(25, 10), bar(30, 20), bar(32, 18)] });
    expect(section?.barId.value).toBe('bar-32');
    expect(section?.barId.why.rule).toContain('No bar on offer is comfortable');
  });

  it('shows the nearest where none fits, with the shortfall', () => {
    const { section, sections } = evaluateScenario({ ...BASE, bars: [bar(20, 5), bar(25, 10)] });
    expect(section?.barId.value).toBe('bar-25');
    expect(section?.barId.why.rule).toContain('No bar on offer fits');
    expect(sections.find((row) => row.chosen)).toMatchObject({ fitsWorst: false, verdict: 'stop' });
  });

  it('keeps a pinned bar and still tells what it would take', () => {
    const { section } = evaluateScenario(
      change((plan) => ({ ...plan, stock: { ...plan.stock, barId: { pinned: 'bar-35' } } })),
    );
    expect(section?.barId).toMatchObject({ value: 'bar-35', pinned: true, auto: 'bar-40' });
  });

  it('is null without a bar on offer', () => {
    const evaluation = evaluateScenario({ ...BASE, bars: [] });
    expect(evaluation.section).toBeNull();
    expect(evaluation.figures.grip).toBeNull();
  });

  it('fits by nominal size and fails with the smallest bar, where it does', () => {
    const sizeClass = buildSizeClass({ widthBands: [{ over: 0, upTo: 100, minus: 0.5, plus: 0 }] });
    const { sections } = evaluateScenario({ ...BASE, bars: [bar(28.25, 10)], sizeClass });
    const row = sections.find(({ wayUp }) => wayUp === 'onEdge');
    expect(row).toMatchObject({ fitsNominal: true, fitsWorst: false, verdict: 'stop' });
    expect(row?.reason).toBe('smallest bar 0.25 mm too low for the stack and 5.00 mm of grip');
  });

  it('compares every bar both ways up, a square bar once', () => {
    const { sections } = evaluateScenario({
      ...BASE,
      bars: [bar(40, 25), buildBar({ id: 'square', width: 40, thickness: 40 })],
    });
    expect(sections.map(({ barId, wayUp }) => `${barId} ${wayUp}`).sort()).toEqual([
      'bar-40 flat',
      'bar-40 onEdge',
      'square onEdge',
    ]);
    expect(sections.filter(({ chosen }) => chosen)).toHaveLength(1);
  });

  it('marks a bar that another beats in cost and grip', () => {
    const { sections } = evaluateScenario(BASE);
    const isDominated = (barId: string) =>
      sections.find((row) => row.barId === barId && row.wayUp === 'onEdge')?.dominated;
    expect(isDominated('bar-35')).toBe(true);
    expect(isDominated('bar-40')).toBe(false);
    expect(isDominated('bar-50')).toBe(false);
  });

  it('sets a bar without a price after the priced ones', () => {
    const { section, sections } = evaluateScenario({ ...BASE, bars: [bar(40, null), bar(50, 60)] });
    expect(section?.barId.value).toBe('bar-50');
    expect(sections.find(({ barId }) => barId === 'bar-40')?.cost).toBeNull();
  });

  it('shows the chosen row with the figures of the evaluation itself', () => {
    for (const sample of SAMPLE_NAMES) {
      const evaluation = evaluate(readSamplePlan(sample), defaultShop);
      const row = evaluation.sections.find(({ chosen }) => chosen);
      expect(row?.barId).toBe(evaluation.section?.barId.value);
      expect(row?.grip).toBeCloseTo(evaluation.seat?.grip ?? Number.NaN, 9);
      expect(row?.cost).toBe(evaluation.order?.cost?.value);
      expect(row?.massKg).toBeCloseTo(evaluation.order?.massKg.value ?? Number.NaN, 9);
      expect(row?.yieldToPart).toBeCloseTo(evaluation.order?.yieldToPart.value ?? Number.NaN, 9);
      expect(row?.holdFactor).toBeCloseTo(evaluation.figures.hold?.value ?? Number.NaN, 6);
    }
  });
});

describe('order', () => {
  it('lists every piece of a bar in the order of sawing, its cuts, and nothing left out', () => {
    const { order } = evaluateScenario(
      change((plan) => ({ ...plan, order: { ...plan.order, squaringTrim: { pinned: 4 }, badEnd: { pinned: 0 } } })),
    );
    for (const use of order?.bars ?? []) {
      const pieces = use.lines.reduce((sum, line) => sum + line.length + line.kerf, 0);
      expect(pieces).toBeCloseTo(use.length, 9);
      expect(use.lines.map(({ sequence }) => sequence)).toEqual(use.lines.map((_, index) => index + 1));
      expect(use.lines[0]).toMatchObject({ kind: 'trim', length: 4, label: 'Squaring trim' });
      expect(use.lines.filter(({ kerf }) => kerf > 0)).toHaveLength(use.cuts);
    }
    expect(order?.bars.length).toBeGreaterThan(0);
  });

  it('prices by piece, by length and by weight', () => {
    const cost = (extra: Partial<BarOffer>) =>
      evaluateScenario({ ...BASE, bars: [bar(40, 25, extra)] }).order?.cost?.value;
    expect(cost({ priceBasis: 'piece' })).toBe(25);
    expect(cost({ priceBasis: 'length' })).toBe(50);
    // 40 × 12 × 2000 mm of steel at 7850 kg/m³ is 7.536 kg.
    expect(cost({ priceBasis: 'weight' })).toBeCloseTo(7.536 * 25, 1);
  });

  it('saws a remnant on the rack before it buys, where that costs less', () => {
    const remnant: Remnant = {
      id: 'rest',
      materialId: 'material-low-carbon-steel',
      sizeClassId: 'class-test',
      width: 40,
      thickness: 12,
      length: 900,
      quantity: 1,
      worth: 2,
      heatMark: 'A1',
      note: '',
    };
    const { order } = evaluateScenario({ ...BASE, bars: [bar(40, 25)], shop: { rack: [remnant] } });
    expect(order?.bars.map(({ kind, lengthId }) => [kind, lengthId])).toEqual([['remnant', 'rest']]);
    expect(order?.purchase).toEqual([]);
    const other = evaluateScenario({ ...BASE, bars: [bar(40, 25)], shop: { rack: [{ ...remnant, width: 45 }] } });
    expect(other.order?.bars[0]?.kind).toBe('new');
  });

  it('says which blanks no bar takes', () => {
    const { order } = evaluateScenario({
      ...BASE,
      parts: [{ id: 'arm', name: 'Arm', length: 2500, height: 20, thickness: 8, quantity: 4 }],
    });
    expect(order?.unplaced).toEqual([
      {
        blankTemplateId: 'auto-arm',
        label: 'A: Arm',
        count: 4,
        reason: 'it is longer than any bar on offer leaves after its ends.',
      },
    ]);
  });

  it('is null for cost where no bar has a price, but still saws', () => {
    const { order } = evaluateScenario({ ...BASE, bars: [bar(40, null)] });
    expect(order?.cost).toBeNull();
    expect(order?.priceKnown).toBe(false);
    expect(order?.totalBars).toBe(1);
  });

  it('buys a dozen lengths from three bar lengths at a cost that is proven least', () => {
    const lengths = [1000, 2000, 3600].map((length) => ({
      id: `length-${length}`,
      length,
      price: Math.round(length * 0.02 + 4),
      stocked: true,
      quantity: null,
    }));
    const parts = Array.from({ length: 12 }, (_, index) => ({
      id: `part-${index}`,
      name: `Part ${index}`,
      length: 83 + 29 * index,
      height: 20,
      thickness: 8,
      quantity: 3 + (index % 4),
    }));
    const { order } = evaluateScenario(
      {
        ...change((plan) => ({ ...plan, partsPerBlank: { pinned: 1 } })),
        bars: [bar(40, 0, { lengths })],
        parts,
      },
      THOROUGH,
    );
    expect(order?.proven).toBe(true);
    expect(order?.bound).toBe(order?.cost?.value);
  });

  it('has yields between 0 and 1, each no more than the one before it allows', () => {
    const { order } = evaluateScenario(BASE);
    const byLength = order?.yieldByLength.value ?? Number.NaN;
    const toBlank = order?.yieldToBlank.value ?? Number.NaN;
    const toPart = order?.yieldToPart.value ?? Number.NaN;
    expect(byLength).toBeGreaterThan(0);
    expect(toBlank).toBeGreaterThanOrEqual(byLength);
    expect(toBlank).toBeLessThanOrEqual(1);
    expect(toPart).toBeLessThan(toBlank);
    // Part 100 × 20 × 8 from a bar 40 × 12: of the blank, a third by section.
    expect(toPart / toBlank).toBeCloseTo((20 * 8) / (40 * 12), 2);
  });
});

/** Every workings entry of an evaluation, with where it stands. */
function findWhys(value: unknown, path = ''): { path: string; rule: unknown; source: unknown; inputs: unknown }[] {
  if (value === null || typeof value !== 'object') return [];
  const record = value as Record<string, unknown>;
  const own = 'rule' in record && 'inputs' in record && 'source' in record ? [record] : [];
  return [
    ...own.map(({ rule, source, inputs }) => ({ path, rule, source, inputs })),
    ...Object.entries(record).flatMap(([key, entry]) => findWhys(entry, `${path}.${key}`)),
  ];
}

describe('workings', () => {
  it('stand behind every figure and decision of the samples: a rule, a source, inputs', () => {
    for (const sample of SAMPLE_NAMES) {
      const whys = findWhys(evaluate(readSamplePlan(sample), defaultShop));
      expect(whys.length).toBeGreaterThan(50);
      const empty = whys.filter(({ rule, source, inputs }) => rule === '' || source === '' || !Array.isArray(inputs));
      expect(empty.map(({ path }) => path)).toEqual([]);
    }
  });
});
