import { describe, expect, it } from 'vitest';
import { type Evaluation, evaluate } from '../../shared/evaluate';
import { buildPart } from '../../shared/model/build-part';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import { buildEmptyPlan, getEveryFace } from '../../shared/model/defaults';
import type { Cut, Plan } from '../../shared/model/plan';
import {
  buildBar,
  buildCutter,
  evaluateScenario,
  inch,
  type Scenario,
  toInches,
} from '../unit/engine-geometry/scenario';

// Worked scenarios of the trade, from the project's own study of the practice: common practice, no source.
const HALF_THOU = 4;

describe('a cutter that reaches too short', () => {
  const cutters = [0.75, 0.875, 1].map((diameter) =>
    buildCutter(inch(0.125), {
      id: `cutter-${diameter}`,
      name: `${diameter} in`,
      diameter: inch(diameter),
      neckDiameter: inch(0.375),
    }),
  );
  const scenario = (cutterId: string | null): Scenario => ({
    parts: [{ id: 'lever', name: 'Lever', length: inch(4), height: inch(1), thickness: inch(0.5) }],
    bars: [buildBar({ id: 'bar', width: inch(2), thickness: inch(0.5) })],
    shop: { tools: cutters },
    rules: { runningClearance: inch(0.01), ribTarget: inch(0.02), mostRib: inch(0.04) },
    plan: (plan) => ({
      ...plan,
      release: { ...plan.release, cutterId: cutterId === null ? 'auto' : { pinned: cutterId } },
    }),
  });
  const codes = (evaluation: Evaluation) => evaluation.findings.map((finding) => finding.code);

  it('.750 reaches .1775 and leaves a rib of .145: stopped', () => {
    const evaluation = evaluateScenario(scenario('cutter-0.75'));
    expect(toInches(evaluation.release?.reach.value)).toBeCloseTo(0.1775, HALF_THOU);
    expect(toInches(evaluation.release?.parts[0]?.widest.rib)).toBeCloseTo(0.145, HALF_THOU);
    const finding = evaluation.findings.find((one) => one.code === 'rib-too-thick');
    expect(finding?.severity).toBe('stop');
  });

  it('.875 reaches .240 and leaves .020', () => {
    const evaluation = evaluateScenario(scenario('cutter-0.875'));
    expect(toInches(evaluation.release?.reach.value)).toBeCloseTo(0.24, HALF_THOU);
    expect(toInches(evaluation.release?.parts[0]?.widest.rib)).toBeCloseTo(0.02, HALF_THOU);
    expect(codes(evaluation)).not.toContain('rib-too-thick');
  });

  it('1.000 is held to .240 deep; its full reach of .3025 would cut the piece free', () => {
    const evaluation = evaluateScenario(scenario('cutter-1'));
    expect(toInches(evaluation.release?.reach.value)).toBeCloseTo(0.3025, HALF_THOU);
    expect(toInches(evaluation.release?.depthPerSide.value)).toBeCloseTo(0.24, HALF_THOU);
    expect(toInches(evaluation.release?.parts[0]?.narrowest.rib)).toBeCloseTo(0.02, HALF_THOU);
  });

  it('left to itself the planner takes the smallest that leaves the rib', () => {
    expect(evaluateScenario(scenario(null)).release?.cutterId.value).toBe('cutter-0.875');
  });
});

/** A cut in the order of work, with the sizes of a light cut where they do not matter. */
function buildCut(change: Partial<Cut> & Pick<Cut, 'id' | 'kind'>): Cut {
  return {
    name: change.id,
    toolId: '',
    holderId: '',
    stepDown: inch(0.02),
    sideEngagement: inch(0.02),
    feedPerTooth: inch(0.001),
    cuttingSpeedMPerMin: 60,
    stickOut: 'auto',
    ...change,
  };
}

describe('a rib strong enough now, not later', () => {
  const chamferTool = defaultShop.tools.find((tool) => tool.id === 'tool-em-carbide-0250');
  const cutOff = buildCut({ id: 'cut-off', kind: 'cutOff', sideEngagement: inch(0.05) });
  const chamfer = buildCut({ id: 'chamfer', kind: 'chamfer', toolId: 'tool-em-carbide-0250' });
  const evaluateOrder = (cuts: Cut[]): Evaluation =>
    evaluateScenario({
      parts: [{ id: 'lever', name: 'Lever', length: inch(1.5), height: inch(1), thickness: inch(0.5) }],
      bars: [buildBar({ id: 'bar', width: inch(2), thickness: inch(0.5) })],
      shop: { tools: [buildCutter(inch(0.125)), ...(chamferTool === undefined ? [] : [chamferTool])] },
      plan: (plan) => ({ ...plan, cuts, release: { ...plan.release, ribTarget: { pinned: inch(0.01) } } }),
    });

  it('stress now is that of the force at half the slot, later at the chamfer’s own height', () => {
    const evaluation = evaluateOrder([cutOff, chamfer]);
    const rib = evaluation.release?.parts[0];
    const force = (id: string) => evaluation.cuts.find((cut) => cut.cutId === id)?.sideForceN.value ?? 0;
    const square = inch(1.5) * inch(0.01) ** 2;
    expect(rib?.bendingStressNowMPa.value).toBeCloseTo((6 * force('cut-off') * inch(0.0625)) / square, 3);
    const height = inch(0.125 + 1) - inch(0.01);
    expect(rib?.later[0]?.stressMPa.value).toBeCloseTo((6 * force('chamfer') * height) / square, 3);
    expect(rib?.later[0]?.ok).toBe(false);
    const allowed = rib?.allowedStressMPa ?? 0;
    expect(rib?.later[0]?.ribNeeded).toBeCloseTo(Math.sqrt((6 * force('chamfer') * height) / (allowed * inch(1.5))), 6);
  });

  it('is warned of, and offers to make the cut-off the last cut', () => {
    const finding = evaluateOrder([cutOff, chamfer]).findings.find((one) => one.code === 'cut-after-cut-off');
    expect(finding?.severity).toBe('check');
    expect(finding?.fixes[0]?.edits[0]?.value).toEqual([chamfer, cutOff]);
    expect(evaluateOrder([chamfer, cutOff]).findings.map((one) => one.code)).not.toContain('cut-after-cut-off');
  });
});

// Small stainless levers: 0.050 in is left on top, bottom and sides, and they bow 0.005-0.010 in when they are cut off.
describe('usual practice with small stainless levers', () => {
  const start = buildEmptyPlan({ units: 'in', date: '', author: '', shop: defaultShop });
  const lever = (allowance: number, width: number): Plan => ({
    ...start,
    parts: [
      buildPart({
        id: 'lever',
        name: 'Lever',
        length: inch(6),
        height: inch(0.95),
        thickness: inch(0.375),
        quantity: 6,
      }),
    ],
    allowance: { ...getEveryFace(inch(allowance)), leftEnd: inch(0.05), rightEnd: inch(0.05) },
    stock: {
      ...start.stock,
      materialId: 'material-316',
      barId: {
        pinned:
          defaultShop.bars.find(
            (bar) =>
              bar.materialId === 'material-316' &&
              Math.abs(bar.width - inch(width)) < 0.01 &&
              Math.abs(bar.thickness - inch(0.5)) < 0.01,
          )?.id ?? '',
      },
      wayUp: { pinned: 'onEdge' },
    },
  });
  const take = (allowance: number, width: number) => evaluate(lever(allowance, width), defaultShop);
  const getFinding = (evaluation: Evaluation, code: string) => evaluation.findings.find((one) => one.code === code);

  it('the bow assumed is of that order', () => {
    const bow = toInches(take(0.05, 2).bow[0]?.bow.value);
    expect(bow).toBeGreaterThanOrEqual(0.005);
    expect(bow).toBeLessThanOrEqual(0.01);
  });

  it('0.050 passes on every face', () => {
    const evaluation = take(0.05, 2);
    expect(evaluation.allowance).toHaveLength(6);
    expect(evaluation.allowance.every((row) => row.ok)).toBe(true);
    expect(getFinding(evaluation, 'allowance-short')).toBeUndefined();
  });

  it('0.010 does not', () => {
    const evaluation = take(0.01, 2);
    const failing = evaluation.allowance.filter((row) => !row.ok).map((row) => row.face);
    expect(failing).toEqual(['top', 'bottom', 'fixedSide', 'movingSide']);
    expect(getFinding(evaluation, 'allowance-short')?.severity).toBe('stop');
  });

  it('the chance says the same: 0.050 is all but certain to clean up, 0.010 all but certain not to', () => {
    expect(take(0.05, 2).chance?.allowance.value).toBeGreaterThan(0.999);
    expect(take(0.01, 2).chance?.allowance.value).toBeLessThan(0.05);
  });

  it('the chance falls steadily between, and is even somewhere about the bow and the least cut', () => {
    const shares = [0.01, 0.014, 0.018, 0.022, 0.026, 0.03].map((left) => take(left, 2).chance?.allowance.value ?? -1);
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
    expect(shares[0]).toBeLessThan(0.5);
    expect(shares.at(-1)).toBeGreaterThan(0.5);
  });

  it('a 1-1/2 in bar leaves about 1/4 in in the vise, which is close: checks, but no stop', () => {
    const evaluation = take(0.05, 1.5);
    expect(toInches(evaluation.seat?.grip)).toBeGreaterThan(0.22);
    expect(toInches(evaluation.seat?.grip)).toBeLessThan(0.3);
    expect(getFinding(evaluation, 'grip-close')?.severity).toBe('check');
    expect(evaluation.findings.filter((one) => one.severity === 'stop')).toEqual([]);
  });

  it.each([1.75, 2])('a %f in bar is comfortable', (width) => {
    const evaluation = take(0.05, width);
    for (const code of ['grip-too-thin', 'grip-close', 'hold-weak']) {
      expect(getFinding(evaluation, code)).toBeUndefined();
    }
    expect(evaluation.findings.filter((one) => one.severity === 'stop')).toEqual([]);
  });
});

// A carbide key-seat cutter parts 316 off at about 2 in/min and 700 rpm, about as long as sawing it.
describe('parting 316 off with a carbide key-seat cutter', () => {
  const cutter = buildCutter(inch(0.125), {
    diameter: inch(0.875),
    neckDiameter: inch(0.375),
    neckLength: inch(1.5),
    flutes: 6,
    toolMaterial: 'carbide',
  });
  const speed = (Math.PI * 0.875 * 25.4 * 700) / 1000;
  const cutOff = buildCut({
    id: 'cut-off',
    kind: 'cutOff',
    sideEngagement: 0,
    feedPerTooth: inch(2 / (700 * 6)),
    cuttingSpeedMPerMin: speed,
  });
  const evaluation = evaluateScenario({
    parts: [{ id: 'lever', name: 'Lever', length: inch(6), height: inch(1), thickness: inch(0.5) }],
    bars: [buildBar({ id: 'bar', width: inch(2), thickness: inch(0.5), materialId: 'material-316' })],
    shop: { tools: [cutter] },
    plan: (plan) => ({ ...plan, stock: { ...plan.stock, materialId: 'material-316' }, cuts: [cutOff] }),
  });

  it('turns at 700 rpm and feeds 2 in/min', () => {
    expect(evaluation.cuts[0]?.spindleRpm).toBeCloseTo(700, 6);
    expect(toInches(evaluation.cuts[0]?.feedMmPerMin)).toBeCloseTo(2, 6);
  });

  it('takes the time of its path over its feed, twice at most what the saw takes and half at least', () => {
    const minutes = evaluation.release?.cutOffMinutes.value ?? 0;
    expect(minutes).toBeCloseTo((2 * (6 + 0.875)) / 2, 6);
    const ratio = minutes / (evaluation.release?.sawMinutes.value ?? 0);
    expect(ratio).toBeGreaterThan(0.5);
    expect(ratio).toBeLessThan(2);
  });
});

describe('a long bar in two or three vises', () => {
  // Blank 26.0, jaws 6.0 on 9.0 centres, bar 1.745 × .500, E 30e6 psi, limit .001, a force of 50 lbf at the part.
  const evaluateVises = (centres: number[]): Evaluation =>
    evaluateScenario({
      parts: [{ id: 'rail', name: 'Rail', length: inch(26), height: inch(1), thickness: inch(0.5) }],
      bars: [buildBar({ id: 'bar', width: inch(1.745), thickness: inch(0.5) })],
      rules: { deflectionLimit: inch(0.001) },
      shop: {
        tools: defaultShop.tools,
        materials: defaultShop.materials.map((material) => ({
          ...material,
          youngsModulusMPa: (30e6 * 4.4482216152605) / 25.4 ** 2,
        })),
      },
      plan: (plan) => ({
        ...plan,
        cuts: [buildCut({ id: 'side', kind: 'side', toolId: 'tool-em-carbide-0500' })],
        holding: {
          ...plan.holding,
          vises: { pinned: centres.map(inch) },
          viseCount: { pinned: centres.length },
          blankX: { pinned: 0 },
        },
      }),
    });
  const two = evaluateVises([8.5, 17.5]);
  const three = evaluateVises([4, 13, 22]);
  const forceShare = (evaluation: Evaluation) => (evaluation.cuts[0]?.sideForceN.value ?? 0) / (50 * 4.4482216152605);

  it('two vises leave 5.5 in free at each end, which bends .0051 for every 50 lbf', () => {
    const blank = two.blanks[0];
    expect(toInches(blank?.overhangLeft)).toBeCloseTo(5.5, 6);
    expect(toInches(blank?.overhangRight)).toBeCloseTo(5.5, 6);
    expect(toInches(blank?.deflection.overhang.value) / forceShare(two)).toBeCloseTo(0.0051, HALF_THOU);
  });

  it('three leave 1.0 in and gaps of 3.0 in: .00003 and .000013', () => {
    const blank = three.blanks[0];
    expect(toInches(blank?.overhangLeft)).toBeCloseTo(1, 6);
    expect(toInches(blank?.largestGap)).toBeCloseTo(3, 6);
    expect(toInches(blank?.deflection.overhang.value) / forceShare(three)).toBeCloseTo(0.00003, 5);
    expect(toInches(blank?.deflection.betweenVises.value) / forceShare(three)).toBeCloseTo(0.000013, 6);
  });

  it('the longest legal overhang is 3.20 in under 50 lbf, and goes with the cube root of the force', () => {
    const longest = toInches(two.blanks[0]?.longestLegalOverhang.value) * Math.cbrt(forceShare(two));
    expect(longest).toBeCloseTo(3.2, 2);
  });
});
