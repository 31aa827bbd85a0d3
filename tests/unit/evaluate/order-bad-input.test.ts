import { describe, expect, it } from 'vitest';
import type { Evaluation } from '../../../shared/evaluate';
import type { PartStart } from '../../../shared/model/build-part';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import type { Plan } from '../../../shared/model/plan';
import type { BarLength } from '../../../shared/model/shop';
import { buildBar, evaluateScenario } from '../engine-geometry/scenario';

const bars = (length: number, price: number | null, quantity: number | null = null): BarLength => ({
  id: `length-${length}`,
  length,
  price,
  stocked: true,
  quantity,
});

function order(parts: Partial<PartStart>[], lengths: BarLength[], change: Partial<Plan['order']> = {}): Evaluation {
  return evaluateScenario({
    units: 'mm',
    kerf: 3,
    parts: parts.map((part, index) => ({
      id: `part-${index}`,
      name: `Part ${index}`,
      height: 20,
      thickness: 8,
      length: 100,
      quantity: 4,
      ...part,
    })),
    bars: [buildBar({ id: 'bar', name: '40 × 12', width: 40, thickness: 12, lengths })],
    plan: (plan) => ({ ...plan, order: { ...plan.order, ...change } }),
  });
}

const getSentences = ({ findings }: Evaluation, ...codes: string[]): string[] =>
  findings.filter(({ code }) => codes.includes(code)).map(({ severity, sentence }) => `${severity}: ${sentence}`);

const countMade = ({ spares }: Evaluation): number[] => spares.map(({ made }) => made);

describe('an order with something amiss says so in a finding, and the rest is worked out', () => {
  it('a piece longer than every bar', () => {
    const evaluation = order([{ length: 2500, quantity: 2 }, {}], [bars(2000, 10)]);
    expect(getSentences(evaluation, 'blank-unplaced')).toEqual([
      'stop: 2 × A: Part 0 cannot be cut: it is longer than any bar on offer leaves after its ends.',
    ]);
    expect([evaluation.order?.totalBars, evaluation.order?.proven]).toEqual([1, true]);
  });

  it('none wanted, fewer than none, or half a piece', () => {
    const evaluation = order([{ quantity: 0 }, {}, { quantity: -2 }, { quantity: 1.5 }], [bars(2000, 10)]);
    expect(getSentences(evaluation, 'part-quantity')).toEqual(
      [0, 2, 3].map((index) => `stop: Part ${index}: its quantity must be a whole number of 1 or more.`),
    );
    expect(countMade(evaluation)).toEqual([4]);
  });

  it('a price missing, of one length and of all', () => {
    const one = order([{}], [bars(2000, null), bars(1000, 7)]);
    expect(getSentences(one, 'price-missing')).toEqual([
      'note: The 40 × 12 bar of 2000 mm has no price and is left out until one is entered in the shop.',
    ]);
    expect(one.order?.cost?.value).toBe(7);
    const all = order([{}], [bars(2000, null), bars(1000, null)]);
    expect(getSentences(all, 'price-missing')).toEqual(
      [2000, 1000].map(
        (length) =>
          `note: The 40 × 12 bar of ${length} mm has no price: bars are counted by their length until one is entered in the shop.`,
      ),
    );
    expect(all.order?.purchase.map(({ length }) => length)).toEqual([1000]);
  });

  it('a stub longer than the bar, of one length and of all', () => {
    const one = order([{}], [bars(2000, 10), bars(300, 2)], { stub: { pinned: 400 } });
    expect(getSentences(one, 'bar-used-up-by-ends', 'blank-unplaced')).toEqual([
      'note: Nothing can be cut from the 300 mm bar: squaring trim, bad ends and the stub the saw needs use it up.',
    ]);
    expect(one.order?.cost?.value).toBe(10);
    const all = order([{}], [bars(300, 2)], { stub: { pinned: 400 } });
    expect(getSentences(all, 'blank-unplaced')).toEqual([
      'stop: 4 × A: Part 0 cannot be cut: trim, bad ends and stub use up the whole bar.',
    ]);
  });

  it('a million pieces, and more than can be meant', () => {
    const million = order(
      [
        { length: 37, quantity: 600_000 },
        { length: 95, quantity: 400_000 },
      ],
      [bars(3000, 10), bars(6000, 18)],
    );
    expect(countMade(million)).toEqual([600_000, 400_000]);
    const cost = million.order?.cost?.value ?? Number.NaN;
    expect((cost - (million.order?.bound ?? Number.NaN)) / cost).toBeLessThan(1e-3);
    const tooMany = order([{ quantity: 1e9 }, {}], [bars(3000, 10)]);
    expect(getSentences(tooMany, 'part-quantity')).toEqual([
      'stop: Part 0: its quantity is over a million, more than can be planned at once.',
    ]);
    expect(countMade(tooMany)).toEqual([4]);
  });

  it('a part longer than a kilometre', () => {
    const evaluation = order([{ length: 2e6 }, {}], [bars(3000, 10)]);
    expect(getSentences(evaluation, 'part-size')).toEqual([
      'stop: Part 0: its length is over a kilometre, which no bar is.',
    ]);
    expect(countMade(evaluation)).toEqual([4]);
  });

  it('lengths a nanometre apart are not taken for one', () => {
    const kerf = defaultShop.saws[0]?.kerf ?? 0;
    const parts = [
      { length: 500, quantity: 2 },
      { length: 500.000_001, quantity: 2 },
    ];
    const evaluation = evaluateScenario({
      units: 'mm',
      kerf: 3,
      parts: parts.map((part, index) => ({ id: `p${index}`, name: `P${index}`, height: 20, thickness: 8, ...part })),
      bars: [buildBar({ id: 'bar', width: 40, thickness: 12, lengths: [bars(1000 + kerf, 10)] })],
      plan: (plan) => ({ ...plan, partsPerBlank: { pinned: 1 } }),
    });
    // Two of 500 and a kerf are the whole bar; one of the others is a nanometre too much beside anything.
    expect([evaluation.order?.totalBars, evaluation.order?.proven]).toEqual([3, true]);
    expect(evaluation.order?.bars.map(({ times, margin }) => [times, margin > 0])).toEqual([
      [2, true],
      [1, false],
    ]);
  });

  it('a limit on cutting patterns that cannot be kept', () => {
    const parts = [700, 450, 330].map((length) => ({ length, quantity: 5 }));
    const evaluation = order(parts, [bars(800, 10)], { maxPatterns: 1 });
    expect(getSentences(evaluation, 'too-many-patterns')).toEqual([
      'check: More cutting patterns are needed than the 1 allowed; the limit is not kept.',
    ]);
    expect(countMade(evaluation)).toEqual([5, 5, 5]);
  });

  it('bars that run out', () => {
    const evaluation = order([{ length: 700 }, { length: 450, quantity: 7 }], [bars(1500, 10, 2)]);
    expect(getSentences(evaluation, 'blank-unplaced')).toEqual([
      'stop: 7 × B: Part 1 cannot be cut: there are not enough bars of this size.',
    ]);
    expect(evaluation.order?.totalBars).toBe(2);
  });
});
