import { describe, expect, it } from 'vitest';
import { getBlanksPerBar } from '../../../shared/engine/bar-count';
import { computeSpares } from '../../../shared/engine/spares';
import { buildPart } from '../../../shared/model/build-part';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import type { BlankTemplate, Plan } from '../../../shared/model/plan';
import type { Saw } from '../../../shared/model/shop';
import { buildBar, buildCutter, evaluateScenario, inch, type Scenario } from './scenario';

const NOTHING = { kerf: 0, squaringTrim: 0, badEnd: 0, stub: 0 };

describe('equal blanks from a bar', () => {
  it('counts the last piece without a cut of its own: 12 of 11.940 in from 144 in at a kerf of .0625', () => {
    const cutting = { ...NOTHING, kerf: inch(0.0625) };
    expect(getBlanksPerBar(inch(144), inch(11.94), cutting).blanks).toBe(12);
    expect(getBlanksPerBar(inch(144), inch(11.94), { ...cutting, squaringTrim: inch(0.125) })).toEqual({
      blanks: 11,
      drop: expect.closeTo(inch(11.785), 6),
    });
  });

  it('takes bad ends off both ends: 48 of 121 mm from 6000 at 2.5, 54.5 left', () => {
    const { blanks, drop } = getBlanksPerBar(6000, 121, { ...NOTHING, kerf: 2.5, badEnd: 15 });
    expect(blanks).toBe(48);
    expect(drop).toBeCloseTo(54.5, 9);
  });

  it('is 30 of 95 mm from 3000 after a trim of 10 at 1.6', () => {
    // floor((3000 - 10 + 1.6) / (95 + 1.6)), the trim counted with its kerf.
    expect(getBlanksPerBar(3000, 95, { ...NOTHING, kerf: 1.6, squaringTrim: 8.4 }).blanks).toBe(30);
  });

  it('keeps an exact fit: 20 of 0.1 from 2 without kerf, though 0.1 has no exact double', () => {
    expect(getBlanksPerBar(2, 0.1, NOTHING)).toEqual({ blanks: 20, drop: 0 });
  });

  it('keeps a stub the saw can hold', () => {
    const cutting = { ...NOTHING, kerf: 2, stub: 50 };
    expect(getBlanksPerBar(254, 100, cutting).blanks).toBe(2);
    expect(getBlanksPerBar(253, 100, cutting).blanks).toBe(1);
  });

  it('gives none of a blank longer than the bar, or of none', () => {
    expect(getBlanksPerBar(100, 101, NOTHING).blanks).toBe(0);
    expect(getBlanksPerBar(100, 0, NOTHING).blanks).toBe(0);
    expect(getBlanksPerBar(0, 10, NOTHING)).toEqual({ blanks: 0, drop: 0 });
  });
});

describe('spares', () => {
  const part = (length: number, quantity: number) =>
    buildPart({ id: 'a', name: 'A', length, height: 1, thickness: 1, quantity });

  it.each([
    [1.9, 20, 21],
    [2, 20, 21],
    [2.5, 20, 22],
    [3.25, 36, 40],
    [4, 36, 40],
    [7, 6, 7],
  ])('by length: %f in, %i ordered, %i made', (length, quantity, make) => {
    expect(computeSpares({ kind: 'byLength', setupPieces: 0 }, part(inch(length), quantity)).make).toBe(make);
  });

  it('adds setup pieces and fixed spares', () => {
    expect(computeSpares({ kind: 'byLength', setupPieces: 2 }, part(50, 20)).make).toBe(23);
    expect(computeSpares({ kind: 'pieces', pieces: 3 }, part(50, 20)).make).toBe(23);
    expect(computeSpares({ kind: 'none' }, part(50, 20)).make).toBe(20);
  });
});

const SAW: Saw = {
  id: 'saw-test',
  name: 'Saw',
  kerf: 2,
  lengthPlus: 0,
  lengthMinus: 0.5,
  stub: 0,
  squaringTrim: 0,
  badEnd: 0,
  areaRateMm2PerMin: 100,
  source: 'test',
};

const mill = defaultShop.tools.find((tool) => tool.kind === 'endMill');
if (mill === undefined) throw new Error('the shop has no end mill');

/** Parts 100 long; 10 mm end mill, 1 mm end allowances, 2 mm off each sawn end, the saw up to 0.5 short. */
const BASE: Scenario = {
  units: 'mm',
  kerf: 3,
  parts: [{ id: 'arm', name: 'Arm', length: 100, height: 20, thickness: 8, quantity: 7 }],
  bars: [
    buildBar({
      id: 'bar',
      width: 40,
      thickness: 12,
      lengths: [{ id: 'three', length: 3000, price: 30, stocked: true, quantity: null }],
    }),
  ],
  shop: { tools: [buildCutter(3), { ...mill, id: 'mill', diameter: 10 }], saws: [SAW] },
  plan: (plan): Plan => ({
    ...plan,
    allowance: { ...plan.allowance, leftEnd: 1, rightEnd: 1 },
    cleanup: { ...plan.cleanup, leftEnd: 2, rightEnd: 2 },
    order: { ...plan.order, sawId: 'saw-test' },
    cuts: [
      {
        id: 'cut-1',
        name: 'Profile',
        kind: 'side',
        toolId: 'mill',
        holderId: '',
        stepDown: 2,
        sideEngagement: 0.2,
        feedPerTooth: 0.01,
        cuttingSpeedMPerMin: 60,
        stickOut: 'auto',
      },
    ],
  }),
};

const change = (next: (plan: Plan) => Plan): Scenario => ({ ...BASE, plan: (plan) => next(BASE.plan?.(plan) ?? plan) });

const slot = (id: string, x: number, partId = 'arm', mirrored = false) => ({ id, partId, x, mirrored });
const template = (slots: BlankTemplate['slots'], extra: Partial<BlankTemplate> = {}): BlankTemplate => ({
  id: 'blank-1',
  length: 'auto',
  count: 'auto',
  slots,
  ...extra,
});

describe('layout', () => {
  it('is parts, gaps of cutter and allowances, end allowances, cleanups and what the saw may cut short', () => {
    const evaluation = evaluateScenario(change((plan) => ({ ...plan, partsPerBlank: { pinned: 3 } })));
    const blank = evaluation.blanks[0];
    expect(blank?.length).toBeCloseTo(3 * 100 + 2 * (10 + 2) + 2 * (1 + 2) + 0.5, 9);
    expect(blank?.parts.map(({ x }) => x)).toEqual([3, 115, 227]);
    expect(blank?.parts.every(({ clash }) => clash === '')).toBe(true);
  });

  it('cuts the rest of an order without spares as one shorter blank', () => {
    const { blanks } = evaluateScenario(change((plan) => ({ ...plan, partsPerBlank: { pinned: 3 } })));
    expect(blanks.map(({ count, parts }) => [count, parts.length])).toEqual([
      [2, 3],
      [1, 1],
    ]);
  });

  it('rounds up to whole blanks where spares are made anyway', () => {
    const { blanks, spares } = evaluateScenario(
      change((plan) => ({
        ...plan,
        partsPerBlank: { pinned: 3 },
        order: { ...plan.order, spares: { kind: 'pieces', pieces: 1 } },
      })),
    );
    expect(blanks.map(({ count, parts }) => [count, parts.length])).toEqual([[3, 3]]);
    expect(spares[0]).toMatchObject({ ordered: 7, spares: 1, make: 8, blanks: 3, made: 9 });
  });

  it('keeps a pinned layout, counts what is needed of it, and says what clashes', () => {
    const { blanks } = evaluateScenario(
      change((plan) => ({
        ...plan,
        layout: { pinned: [template([slot('s1', 3), slot('s2', 110), slot('s3', 222)])] },
      })),
    );
    const blank = blanks[0];
    expect(blank?.count).toBe(3);
    expect(blank?.parts.map(({ clash }) => clash)).toEqual([
      '7.00 mm to Arm, and 12.00 mm is needed between them.',
      '',
      '',
    ]);
    expect(blank?.tightLength).toBeCloseTo(330.5, 9);
  });

  it('says when parts run into each other, over an end, or are not in the plan', () => {
    const { blanks } = evaluateScenario(
      change((plan) => ({
        ...plan,
        layout: {
          pinned: [
            template([slot('s1', 1), slot('s2', 90), slot('s3', 200), slot('s4', 400, 'gone')], {
              length: { pinned: 301 },
            }),
          ],
        },
      })),
    );
    expect(blanks[0]?.parts.map(({ clash }) => clash)).toEqual([
      'runs 11.00 mm into Arm; 12.00 mm is needed between them.',
      '10.00 mm to Arm, and 12.00 mm is needed between them.',
      '2.00 mm too near the right end of the blank.',
      'this part is not in the plan, or has no size.',
    ]);
  });

  it('turns the end allowances round with a mirrored part', () => {
    const { blanks } = evaluateScenario(
      change((plan) => ({
        ...plan,
        allowance: { ...plan.allowance, leftEnd: 5, rightEnd: 0 },
        layout: { pinned: [template([slot('s1', 2, 'arm', true), slot('s2', 120, 'arm', false)])] },
      })),
    );
    // Left end of the blank meets the mirrored part's right end: 2 of cleanup and no allowance. Between them 5 + 10 + 5.
    expect(blanks[0]?.parts.map(({ clash }) => clash)).toEqual([
      '18.00 mm to Arm, and 20.00 mm is needed between them.',
      '',
    ]);
  });

  it('makes no more of a blank than is pinned, and makes up the rest on the others', () => {
    const { blanks, spares } = evaluateScenario(
      change((plan) => ({
        ...plan,
        layout: {
          pinned: [
            template([slot('s1', 3), slot('s2', 115)], { id: 'two', count: { pinned: 2 } }),
            template([slot('s3', 3)], { id: 'one' }),
          ],
        },
      })),
    );
    expect(blanks.map(({ templateId, count }) => [templateId, count])).toEqual([
      ['two', 2],
      ['one', 3],
    ]);
    expect(spares[0]?.made).toBe(7);
  });

  it('picks the gang with the fewest loads where bars cost the same', () => {
    const { blanks, order } = evaluateScenario(
      change((plan) => ({ ...plan, holding: { ...plan.holding, viseCount: { pinned: 3 } } })),
    );
    expect(order?.totalBars).toBe(1);
    expect(blanks[0]?.parts.length).toBeGreaterThan(1);
  });
});
