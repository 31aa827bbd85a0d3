import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Evaluation, evaluate } from '../../../shared/evaluate';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { buildHoistArms } from '../../../shared/model/catalogue/sample-hoist-arms';
import { buildKeeperLinks } from '../../../shared/model/catalogue/sample-keeper-links';
import { getEveryFace } from '../../../shared/model/defaults';
import type { Plan } from '../../../shared/model/plan';
import type { BarOffer } from '../../../shared/model/shop';
import { inchesToMm } from '../../../shared/units/exact';

const choice = <T>(value: fc.Arbitrary<T>) => fc.oneof(fc.constant('auto' as const), fc.record({ pinned: value }));
const rarely = <T>(value: fc.Arbitrary<T>) =>
  fc.oneof(
    { weight: 3, arbitrary: fc.constant('auto' as const) },
    { weight: 1, arbitrary: fc.record({ pinned: value }) },
  );
const length = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const seat = fc.oneof(
  fc.constant({ kind: 'shelf' as const }),
  fc.constant({ kind: 'bed' as const }),
  fc.record({
    kind: fc.constant('parallels' as const),
    parallelId: fc.constantFrom(...defaultShop.parallels.map(({ id }) => id)),
    count: fc.constantFrom(1 as const, 2 as const),
  }),
);

const pins = fc.record({
  wayUp: rarely(fc.constantFrom('onEdge' as const, 'flat' as const)),
  measuredBow: fc.option(length(0, 1), { freq: 5 }),
  seat: rarely(seat),
  shelfDepth: choice(length(2, 25)),
  spacer: rarely(length(0, 30)),
  spacerHeight: rarely(length(0, 40)),
  targetGrip: rarely(length(1, 20)),
  viseCount: choice(fc.integer({ min: 1, max: 4 })),
  vises: rarely(fc.array(length(0, 600), { minLength: 1, maxLength: 4 })),
  blankX: rarely(length(0, 300)),
  clampForceN: length(1000, 20_000),
  clearance: rarely(length(0.1, 4)),
  fromFixedJaw: rarely(length(0, 6)),
  skinPerSide: rarely(length(0, 3)),
  partsPerBlank: rarely(fc.integer({ min: 1, max: 4 })),
  cutterId: rarely(fc.constantFrom(...defaultShop.tools.filter(({ kind }) => kind === 'keySeat').map(({ id }) => id))),
  keep: rarely(fc.constantFrom('rib' as const, 'tabs' as const)),
  allowance: length(0, 2),
  stocked: fc.array(fc.boolean(), { minLength: 6, maxLength: 6 }),
});

type Pins = typeof pins extends fc.Arbitrary<infer T> ? T : never;

function pin(plan: Plan, odd: Pins): Plan {
  return {
    ...plan,
    stock: { ...plan.stock, barId: 'auto', wayUp: odd.wayUp, measuredBow: odd.measuredBow },
    allowance: getEveryFace(odd.allowance),
    cleanup: { ...plan.cleanup, fromFixedJaw: odd.fromFixedJaw, skinPerSide: odd.skinPerSide },
    partsPerBlank: odd.partsPerBlank,
    holding: {
      ...plan.holding,
      seat: odd.seat,
      shelfDepth: odd.shelfDepth,
      spacer: odd.spacer,
      spacerHeight: odd.spacerHeight,
      targetGrip: odd.targetGrip,
      viseCount: odd.viseCount,
      vises: odd.vises,
      blankX: odd.blankX,
      clamp: { kind: 'force', clampForceN: odd.clampForceN },
    },
    release: { ...plan.release, clearance: odd.clearance, cutterId: odd.cutterId, keep: odd.keep },
  };
}

/** Six bars, from too small to very large, some of them run to order. */
function offer(bars: readonly BarOffer[], stocked: readonly boolean[]): BarOffer[] {
  const step = Math.max(1, Math.floor(bars.length / stocked.length));
  return stocked.flatMap((isStocked, index) => {
    const bar = bars[index * step];
    return bar === undefined
      ? []
      : [{ ...bar, lengths: bar.lengths.map((one) => ({ ...one, stocked: isStocked, quantity: null })) }];
  });
}

/** Stops that the comparison of sections works out for every bar. */
const COMPARED = [
  'bar-too-low',
  'bar-too-thin',
  'opening-too-small',
  'grip-too-thin',
  'shelf-too-deep',
  'cut-off-below-jaws',
  'ledge-narrow',
  'spacer-too-tall',
  'cutter-in-jaws',
  'vises-clash',
  'not-in-a-vise',
  'hold-weak',
];

function getStops({ findings }: Pick<Evaluation, 'findings'>): string[] {
  return findings.filter(({ severity }) => severity === 'stop').map(({ code }) => code);
}

const SAMPLES: [string, Plan][] = [
  ['hoist arms', buildHoistArms()],
  ['keeper links', buildKeeperLinks()],
];

describe.each(SAMPLES)('the automatic bar: %s', (_name, sample) => {
  const ofMaterial = defaultShop.bars.filter(({ materialId }) => materialId === sample.stock.materialId);
  const unlisted: Plan = { ...sample, library: { ...sample.library, bars: [] } };

  it('is not stopped where another on offer is not, and the comparison says of each what stops it', () => {
    let free = 0;
    fc.assert(
      fc.property(pins, (odd) => {
        const plan = pin(unlisted, odd);
        const shop = { ...defaultShop, bars: offer(ofMaterial, odd.stocked) };
        const automatic = evaluate(plan, shop);
        const stops = getStops(automatic);
        if (stops.length === 0) free += 1;
        for (const { barId, wayUp, verdict, name } of automatic.sections) {
          if (odd.wayUp !== 'auto' && odd.wayUp.pinned !== wayUp) continue;
          const stock = { ...plan.stock, barId: { pinned: barId }, wayUp: { pinned: wayUp } };
          const itsStops = getStops(evaluate({ ...plan, stock }, shop));
          if (itsStops.length === 0) expect(stops, `${name}, ${wayUp} would do`).toEqual([]);
          if (itsStops.some((code) => COMPARED.includes(code))) {
            expect(verdict, `${name}, ${wayUp}: ${itsStops.join(', ')}`).toBe('stop');
          }
        }
      }),
      { numRuns: 40, seed: 7 },
    );
    // Pins that let no bar pass would prove nothing.
    expect(free).toBeGreaterThan(4);
  }, 120_000);
});

describe('the automatic bar: hoist arms', () => {
  const hoistArms = buildHoistArms();
  const cheapest = evaluate(hoistArms, defaultShop).section?.barId.value;

  it('is the next that takes a shelf pinned deeper than the cheapest allows', () => {
    const holding = { ...hoistArms.holding, seat: { pinned: { kind: 'shelf' as const } } };
    const plan: Plan = { ...hoistArms, holding: { ...holding, shelfDepth: { pinned: inchesToMm(0.625) } } };
    const { section, sections, findings } = evaluate(plan, defaultShop);
    expect(section?.barId.value).not.toBe(cheapest);
    expect(getStops({ findings })).toEqual([]);
    expect(sections.find(({ barId }) => barId === cheapest)).toMatchObject({
      verdict: 'stop',
      weakest: expect.stringContaining('too low for the stack and 0.625 in of grip'),
    });
    const passedOver = section?.barId.why.inputs.map(({ name }) => name) ?? [];
    expect(passedOver.filter((name) => name.startsWith('cheaper: '))).not.toEqual([]);
  });

  it('is one that bends less where the cheapest bends away the allowance', () => {
    const plan: Plan = {
      ...hoistArms,
      holding: { ...hoistArms.holding, viseCount: { pinned: 1 } },
      allowance: { ...hoistArms.allowance, fixedSide: 0.7, movingSide: 0.7 },
    };
    const { section, sections, findings } = evaluate(plan, defaultShop);
    expect(section?.barId.value).not.toBe(cheapest);
    expect(getStops({ findings })).toEqual([]);
    const passedOver = sections.find(({ barId }) => barId === cheapest);
    expect(passedOver).toMatchObject({ verdict: 'stop', weakest: 'too little allowance for how this bar bends' });
    const pinned: Plan = { ...plan, stock: { ...plan.stock, barId: { pinned: cheapest ?? '' } } };
    expect(getStops(evaluate(pinned, defaultShop))).toEqual(['allowance-short']);
  });

  it('comes from stock where one from stock serves, even if it costs more', () => {
    const plan: Plan = { ...hoistArms, library: { ...hoistArms.library, bars: [] } };
    const shop = {
      ...defaultShop,
      bars: defaultShop.bars.map((bar) =>
        bar.id === cheapest ? { ...bar, lengths: bar.lengths.map((one) => ({ ...one, stocked: false })) } : bar,
      ),
    };
    const { section, sections, findings } = evaluate(plan, shop);
    expect(section?.barId.value).not.toBe(cheapest);
    expect(findings.map(({ code }) => code)).not.toContain('not-stocked');
    expect(sections.find(({ barId }) => barId === cheapest)?.weakest).toBe('not stocked, run to order');
    expect(section?.barId.why.inputs).toContainEqual(
      expect.objectContaining({ value: 'not stocked, run to order', kind: 'text' }),
    );
  });

  it('buys lengths that are in stock, as long as they make every blank', () => {
    const buy = (stocked: (length: number) => boolean) => {
      const shop = {
        ...defaultShop,
        bars: defaultShop.bars.map((bar) => ({
          ...bar,
          lengths: [
            { id: 'short', length: inchesToMm(40), price: 10, stocked: stocked(40), quantity: null },
            { id: 'long', length: inchesToMm(144), price: 1000, stocked: stocked(144), quantity: null },
          ],
        })),
      };
      const plan: Plan = { ...hoistArms, library: { ...hoistArms.library, bars: [] } };
      const { order } = evaluate({ ...plan, stock: { ...plan.stock, barId: { pinned: cheapest ?? '' } } }, shop);
      return order?.purchase.map(({ lengthId }) => lengthId);
    };
    expect(buy(() => true)).toEqual(['short']);
    expect(buy((length) => length === 144)).toEqual(['long']);
  });

  it('is sized in the plan’s units where one of those is comfortable, and says what was cheaper', () => {
    const pattern = defaultShop.bars.find(({ id }) => id === cheapest);
    if (pattern === undefined) throw new Error('the shop does not have the bar the plan takes');
    const metric: BarOffer = {
      ...pattern,
      id: 'bar-metric',
      name: '20 × 58 mm',
      width: 58,
      thickness: 20,
      lengths: pattern.lengths.map((one) => ({ ...one, price: 1 })),
    };
    const both = { ...defaultShop, bars: [...defaultShop.bars, metric] };
    const { section } = evaluate(hoistArms, both);
    expect(section?.barId.value).toBe(cheapest);
    expect(section?.barId.why.inputs).toContainEqual(
      expect.objectContaining({ name: 'cheaper: 20 × 58 mm', value: 'sized in mm' }),
    );
    const unlisted: Plan = { ...hoistArms, library: { ...hoistArms.library, bars: [] } };
    const alone = evaluate(unlisted, { ...defaultShop, bars: [metric] }).section?.barId;
    expect(alone).toMatchObject({ value: 'bar-metric', why: { rule: expect.stringContaining('plan’s units') } });
  });
});
