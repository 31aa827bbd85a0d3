import { describe, expect, it } from 'vitest';
import { computeParallels } from '../../shared/engine/parallels';
import { getSupport, type ViseRoom } from '../../shared/engine/vise-plan';
import {
  buildBar,
  buildCutter,
  buildJaws,
  buildSizeClass,
  buildVise,
  evaluateScenario,
  inch,
  LOW_CARBON,
  type Scenario,
  toInches,
} from '../unit/engine-geometry/scenario';

// Worked scenarios of the trade, from the project's own study of the practice: common practice, no source, unless a
// standard is named. Pass: 0.0005 in or 0.01 mm, counts exact.
const HALF_THOU = 4;

/** ASTM A108 cold-finished flats, low carbon: all minus, by width. */
const A108_LOW_CARBON = buildSizeClass({
  standard: 'ASTM A108',
  bandBy: 'width',
  widthBands: [
    { over: 0, upTo: inch(0.75), minus: inch(0.003), plus: 0 },
    { over: inch(0.75), upTo: inch(1.5), minus: inch(0.004), plus: 0 },
    { over: inch(1.5), upTo: inch(3), minus: inch(0.005), plus: 0 },
    { over: inch(3), upTo: inch(4), minus: inch(0.006), plus: 0 },
  ],
});

const STACK: Scenario = {
  sizeClass: A108_LOW_CARBON,
  kerf: inch(0.125),
  rules: { clearance: inch(0.03), shelfStepInch: inch(0.005) },
  jaws: buildJaws({ leastFlatGrip: inch(0.375), comfortableGrip: inch(0.375) }),
  parts: [{ id: 'lever', name: 'Lever', length: inch(4), height: inch(1), thickness: inch(0.4) }],
  bars: [1.5, 1.75, 2].map((width) => buildBar({ id: `bar-${width}`, width: inch(width), thickness: inch(0.5) })),
  plan: (plan) => ({
    ...plan,
    allowance: { ...plan.allowance, top: inch(0.015), bottom: inch(0.015) },
    cleanup: { ...plan.cleanup, top: inch(0.03) },
  }),
};

describe('height stack, next size up', () => {
  const evaluation = evaluateScenario(STACK);
  const row = (barId: string) =>
    evaluation.sections.find((section) => section.barId === barId && section.wayUp === 'onEdge');

  it('needs 1.590 of actual bar height with the least grip, 1.215 of it above the jaws', () => {
    const stack = evaluation.blanks[0]?.stack;
    expect(toInches(stack?.needAboveJaws)).toBeCloseTo(1.215, HALF_THOU);
    expect(toInches((stack?.needAboveJaws ?? 0) + (stack?.gripAsked ?? 0))).toBeCloseTo(1.59, HALF_THOU);
  });

  it('finds 1-1/2 short by .094 with the smallest bar and takes 1-3/4', () => {
    expect(row('bar-1.5')?.fitsWorst).toBe(false);
    expect(toInches(row('bar-1.5')?.gripLeast)).toBeCloseTo(1.496 - 1.215, HALF_THOU);
    expect(row('bar-1.5')?.reason).toContain('0.094 in');
    expect(evaluation.section?.barId.value).toBe('bar-1.75');
  });

  it('gives what is spare to the grip: .530, standing 2.29 grips and 2.43 thicknesses above the jaws', () => {
    expect(toInches(evaluation.seat?.grip)).toBeCloseTo(0.53, HALF_THOU);
    const least = toInches(evaluation.blanks[0]?.stack.proudHeight.least);
    expect(least).toBeCloseTo(1.215, HALF_THOU);
    expect(least / 0.53).toBeCloseTo(2.29, 2);
    expect(least / 0.5).toBeCloseTo(2.43, 2);
  });
});

describe('jaws too shallow for the grip asked', () => {
  const evaluation = evaluateScenario({
    parts: [{ id: 'block', name: 'Block', length: inch(4), height: inch(1), thickness: inch(0.4) }],
    bars: [buildBar({ id: 'bar', width: inch(3), thickness: inch(0.5) })],
    vise: buildVise({ jawHeight: inch(0.625) }),
    rules: { jawFloor: inch(0.25) },
    plan: (plan) => ({ ...plan, holding: { ...plan.holding, targetGrip: { pinned: inch(0.75) } } }),
  });

  it('offers .625 on the bed or a shelf of .375, both under the .750 asked', () => {
    expect(toInches(evaluation.seat?.deepestLegalShelf.value)).toBeCloseTo(0.375, HALF_THOU);
    expect(evaluation.seat?.deepestLimitedBy).toBe('floor');
    expect(evaluation.seat?.choice.value).toEqual({ kind: 'bed' });
    expect(toInches(evaluation.seat?.grip)).toBeCloseTo(0.625, HALF_THOU);
    expect(toInches(evaluation.seat?.targetGrip.value)).toBeCloseTo(0.75, HALF_THOU);
  });
});

describe('no parallels of the height wanted', () => {
  const heights = [0.5, 0.625, 0.75, 0.875, 1, 1.125, 1.25, 1.375];
  const owned = heights.map((height) => ({
    id: `parallel-${height}`,
    height: inch(height),
    thickness: inch(0.125),
    length: inch(6),
    count: 2,
  }));

  it('finds none between 1.050 and 1.100, and says what 1.000 and 1-1/8 would give', () => {
    const answer = computeParallels(
      { jawHeight: inch(1.5), leastGrip: inch(0.4), mostGrip: inch(0.45), thickness: inch(0.5), fingerRoom: 0 },
      owned,
    );
    expect(answer.best).toBeNull();
    expect(answer.nextLower?.parallelId).toBe('parallel-1');
    expect(toInches(answer.nextLower?.grip)).toBeCloseTo(0.5, HALF_THOU);
    expect(answer.nextHigher?.parallelId).toBe('parallel-1.125');
    expect(toInches(answer.nextHigher?.grip)).toBeCloseTo(0.375, HALF_THOU);
    expect(toInches(answer.shim?.least)).toBeCloseTo(0.05, HALF_THOU);
    expect(toInches(answer.shim?.most)).toBeCloseTo(0.1, HALF_THOU);
  });

  it('takes the 1.000 pair in a plan: .500 of grip still leaves 1.245 above the jaws, .030 more than the stack needs', () => {
    const evaluation = evaluateScenario({
      ...STACK,
      vise: buildVise({ jawHeight: inch(1.5) }),
      jaws: buildJaws({ millable: false, leastFlatGrip: inch(0.4), comfortableGrip: inch(0.4) }),
      shop: { parallels: owned },
      plan: (plan) => ({
        ...(STACK.plan?.(plan) ?? plan),
        stock: { ...plan.stock, materialId: LOW_CARBON, barId: { pinned: 'bar-1.75' }, measuredHeight: inch(1.745) },
      }),
    });
    expect(evaluation.seat?.choice.value).toMatchObject({ kind: 'parallels', parallelId: 'parallel-1' });
    const stack = evaluation.blanks[0]?.stack;
    expect(toInches(stack?.proudHeight.nominal)).toBeCloseTo(1.245, HALF_THOU);
    expect(toInches((stack?.proudHeight.nominal ?? 0) - (stack?.needAboveJaws ?? 0))).toBeCloseTo(0.03, HALF_THOU);
    const higher = evaluation.seat?.parallels.find(({ parallelId }) => parallelId === 'parallel-1.125');
    expect(higher?.fits).toBe(false);
    expect(higher?.reason).toBe('too little grip');
  });
});

describe('hot-rolled thickness', () => {
  const evaluation = evaluateScenario({
    units: 'mm',
    sizeClass: buildSizeClass({
      form: 'hotRolled',
      standard: 'EN 10058',
      thicknessBands: [{ over: 0, upTo: 20, minus: 0.5, plus: 0.5 }],
      skinBands: [
        { upTo: 12.7, skin: 0.76 },
        { upTo: 20, skin: 0.76 },
      ],
    }),
    parts: [{ id: 'link', name: 'Link', length: 100, height: 20, thickness: 10 }],
    bars: [12, 15, 20].map((thickness) => buildBar({ id: `bar-${thickness}`, width: 40, thickness })),
    plan: (plan) => ({ ...plan, allowance: { ...plan.allowance, fixedSide: 0.25, movingSide: 0.25 } }),
  });
  const row = (barId: string) =>
    evaluation.sections.find((section) => section.barId === barId && section.wayUp === 'onEdge');

  it('needs 12.02: 12 at its thinnest is .52 short, 15 will do', () => {
    expect(evaluation.across[0]?.need).toBeCloseTo(12.02, 2);
    expect(row('bar-12')?.fitsWorst).toBe(false);
    expect(row('bar-12')?.reason).toContain('0.52 mm');
    expect(row('bar-15')?.fitsWorst).toBe(true);
    expect(evaluation.section?.barId.value).toBe('bar-15');
  });

  it('finds 12 short by .02 even at its nominal size', () => {
    expect(row('bar-12')?.fitsNominal).toBe(false);
  });
});

describe('a long bar in two or three vises', () => {
  const longestOverhang = Math.cbrt((0.001 * 3 * 30e6 * 0.018177) / 50);
  const room: ViseRoom = {
    jawWidth: inch(6),
    bodyLength: inch(6.5),
    bodyGap: inch(0.1),
    tableLength: Number.POSITIVE_INFINITY,
    overhangLimit: inch(longestOverhang),
    gapLimit: inch(4 * longestOverhang),
  };

  it('may stand out 3.20 at the most', () => {
    expect(longestOverhang).toBeCloseTo(3.2, 2);
  });

  it('stands out 5.5 on either side of two vises at 9.0 centres, too far', () => {
    const support = getSupport(room, [inch(8.5), inch(17.5)], 0, inch(26));
    expect(toInches(support.overhangLeft)).toBeCloseTo(5.5, HALF_THOU);
    expect(toInches(support.overhangRight)).toBeCloseTo(5.5, HALF_THOU);
    expect(toInches(support.largestGap)).toBeCloseTo(3, HALF_THOU);
    expect(support.worstRatio).toBeGreaterThan(1);
  });

  it('stands out 1.0 on either side of three, well within it', () => {
    const support = getSupport(room, [inch(4), inch(13), inch(22)], 0, inch(26));
    expect(toInches(support.overhangLeft)).toBeCloseTo(1, HALF_THOU);
    expect(toInches(support.contactLength)).toBeCloseTo(18, HALF_THOU);
    expect(support.worstRatio).toBeLessThan(1);
  });
});

describe('a gang on one blank', () => {
  const evaluation = evaluateScenario({
    parts: [{ id: 'key', name: 'Key', length: inch(3.25), height: inch(1), thickness: inch(0.4), quantity: 36 }],
    bars: [buildBar({ id: 'bar', width: inch(2), thickness: inch(0.5) })],
    shop: {
      tools: [
        buildCutter(inch(0.125)),
        {
          kind: 'endMill',
          id: 'mill',
          number: 'T1',
          name: '1/2 end mill',
          toolMaterial: 'carbide',
          diameter: inch(0.5),
          flutes: 4,
          shankDiameter: inch(0.5),
          overallLength: inch(4),
          wearFactor: 1,
          coatingFactor: 1,
          source: 'test',
          helixDeg: 30,
          fluteLength: inch(2),
          cornerRadius: 0,
          neck: null,
        },
      ],
      saws: [
        {
          id: 'saw-test',
          name: 'Saw',
          kerf: inch(0.0625),
          lengthPlus: 0,
          lengthMinus: 0,
          stub: 0,
          squaringTrim: 0,
          badEnd: 0,
          areaRateMm2PerMin: 100,
          source: 'test',
        },
      ],
    },
    plan: (plan) => ({
      ...plan,
      allowance: { ...plan.allowance, leftEnd: inch(0.015), rightEnd: inch(0.015) },
      cleanup: { ...plan.cleanup, leftEnd: inch(0.125), rightEnd: inch(0.125) },
      order: { ...plan.order, sawId: 'saw-test', spares: { kind: 'byLength', setupPieces: 0 } },
      cuts: [
        {
          id: 'cut-1',
          name: 'Profile',
          kind: 'side',
          toolId: 'mill',
          holderId: '',
          stepDown: inch(0.1),
          sideEngagement: inch(0.01),
          feedPerTooth: inch(0.0005),
          cuttingSpeedMPerMin: 60,
          stickOut: 'auto',
        },
      ],
    }),
  });

  it.each([
    [1, 3.53, 40, 40, 0.3],
    [2, 7.31, 19, 38, 3.9225],
    [3, 11.09, 12, 36, 10.17],
    [4, 14.87, 9, 36, 9.6075],
    [5, 18.65, 7, 35, 13.0125],
  ])('%i on a blank: %f long, %i blanks and %i parts a bar, drop %f', (count, blank, blanks, parts, drop) => {
    const row = evaluation.gang.find(({ partsPerBlank }) => partsPerBlank === count);
    expect(toInches(row?.blankLength)).toBeCloseTo(blank, HALF_THOU);
    expect(row?.blanksPerBar).toBe(blanks);
    expect(row?.partsPerBar).toBe(parts);
    expect(toInches(row?.drop)).toBeCloseTo(drop, HALF_THOU);
  });

  it('makes 40 of 36 ordered, from one bar only one to a blank', () => {
    expect(evaluation.spares[0]).toMatchObject({ ordered: 36, make: 40, made: 40, blanks: 40 });
    expect(evaluation.order?.totalBars).toBe(1);
    expect(evaluation.blanks[0]?.parts).toHaveLength(1);
  });
});

describe('a price step between sizes', () => {
  const evaluation = evaluateScenario({
    ...STACK,
    bars: [
      { width: 1.5, price: 38, stocked: true },
      { width: 1.75, price: 61, stocked: false },
      { width: 2, price: 50, stocked: true },
    ].map(({ width, price, stocked }) =>
      buildBar({
        id: `bar-${width}`,
        width: inch(width),
        thickness: inch(0.5),
        lengths: [{ id: 'twelve-foot', length: inch(144), price, stocked, quantity: null }],
      }),
    ),
  });

  it('takes the 2 bar: 1-1/2 does not fit and 1-3/4 is dearer', () => {
    expect(evaluation.section?.barId.value).toBe('bar-2');
    expect(evaluation.order?.cost?.value).toBe(50);
    expect(toInches(evaluation.seat?.mostGrip)).toBeCloseTo(0.78, HALF_THOU);
  });

  it('weighs the 12 ft bar at 40.8 lb, and says that 1-3/4 is not stocked', () => {
    expect((evaluation.order?.massKg.value ?? Number.NaN) / 0.45359237).toBeCloseTo(40.8, 0);
    const special = evaluation.sections.find((row) => row.barId === 'bar-1.75' && row.wayUp === 'onEdge');
    expect(special?.weakest).toBe('not stocked, run to order');
  });

  it('says why, with the cost', () => {
    const why = evaluation.section?.barId.why;
    expect(why?.rule).toContain('Cheapest bar');
    expect(why?.inputs).toContainEqual({ name: 'cost', value: 50, kind: 'money' });
  });
});

describe('cold-finished bar is all minus', () => {
  const evaluation = evaluateScenario({
    sizeClass: A108_LOW_CARBON,
    parts: [
      {
        id: 'guide',
        name: 'Guide',
        length: inch(4),
        height: inch(0.75),
        thickness: inch(0.75),
        asSupplied: ['fixedSide', 'movingSide'],
        thicknessTolerance: { plus: 0, minus: inch(0.002) },
      },
    ],
    bars: [buildBar({ id: 'bar', width: inch(1.5), thickness: inch(0.75) })],
  });

  it('.750 +.000/-.002 left as supplied is not met by a bar that may be .746', () => {
    expect(toInches(evaluation.section?.thickness.least)).toBeCloseTo(0.746, HALF_THOU);
    expect(toInches(evaluation.across[0]?.need)).toBeCloseTo(0.748, HALF_THOU);
    expect(toInches(evaluation.across[0]?.shortBy)).toBeCloseTo(0.002, HALF_THOU);
  });

  it('may be .747 where each size has its own band', () => {
    const each = evaluateScenario({
      sizeClass: { ...A108_LOW_CARBON, bandBy: 'each', thicknessBands: A108_LOW_CARBON.widthBands },
      parts: [{ id: 'guide', name: 'Guide', length: inch(4), height: inch(0.75), thickness: inch(0.75) }],
      bars: [buildBar({ id: 'bar', width: inch(1.5), thickness: inch(0.75) })],
    });
    const section = each.section;
    expect(toInches(section?.thickness.least)).toBeCloseTo(0.747, HALF_THOU);
  });
});
