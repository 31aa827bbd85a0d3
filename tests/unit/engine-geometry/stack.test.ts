import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Scenario } from './scenario';
import { buildBar, buildJaws, buildSizeClass, evaluateScenario } from './scenario';

const PART = { id: 'arm', name: 'Arm', length: 100, height: 20, thickness: 8 };

/** A 40 mm bar, ± 0.5; 20 mm part, kerf 3, clearance 1, cleanup 1, allowance 0.5: 26 mm above the jaws. */
const BASE: Scenario = {
  units: 'mm',
  kerf: 3,
  rules: { clearance: 1, shelfStepMm: 0.25 },
  parts: [PART],
  bars: [buildBar({ id: 'bar', width: 40, thickness: 10 })],
  sizeClass: buildSizeClass({ widthBands: [{ over: 0, upTo: 100, minus: 0.4, plus: 0.5 }] }),
  plan: (plan) => ({
    ...plan,
    allowance: { ...plan.allowance, top: 0.5, bottom: 0.5 },
    cleanup: { ...plan.cleanup, top: 1 },
    stock: { ...plan.stock, wayUp: { pinned: 'onEdge' } },
  }),
};

const withShelf = (shelfDepth: number): Scenario => ({
  ...BASE,
  plan: (plan) => {
    const base = BASE.plan?.(plan) ?? plan;
    const holding = {
      ...base.holding,
      seat: { pinned: { kind: 'shelf' as const } },
      shelfDepth: { pinned: shelfDepth },
    };
    return { ...base, holding };
  },
});

const getStack = (scenario: Scenario) => {
  const stack = evaluateScenario(scenario).blanks[0]?.stack;
  if (stack === undefined) throw new Error('no blank');
  return stack;
};

const getSlice = (stack: ReturnType<typeof getStack>, kind: string) =>
  stack.slices.find((slice) => slice.kind === kind)?.height;

describe('height stack', () => {
  it('leaves what the bar has over the stack to the grip, at nominal, smallest and largest bar', () => {
    const { availableGrip, needAboveJaws } = getStack(BASE);
    expect(needAboveJaws).toBeCloseTo(26, 9);
    expect(availableGrip.nominal).toBeCloseTo(14, 9);
    expect(availableGrip.least).toBeCloseTo(13.6, 9);
    expect(availableGrip.most).toBeCloseTo(14.5, 9);
  });

  it('rounds the shelf down to the step from the smallest bar, so that no bar brings the cut-off to the jaws', () => {
    const { seat } = evaluateScenario(BASE);
    expect(seat?.choice.value.kind).toBe('shelf');
    expect(seat?.shelfDepth.value).toBeCloseTo(13.5, 9);
    const stack = getStack(BASE);
    expect(stack.proudHeight.least).toBeGreaterThanOrEqual(stack.needAboveJaws);
  });

  it('gives the rest of a nominal bar to the clearance, not to chips', () => {
    const stack = getStack(BASE);
    expect(getSlice(stack, 'cleanup')).toBeCloseTo(1, 9);
    expect(stack.clearance).toBeCloseTo(1.5, 9);
  });

  it('takes a shelf that is too deep off the cleanup first, then off the clearance, then runs into the jaws', () => {
    const tooDeep = getStack(withShelf(14.5));
    expect(getSlice(tooDeep, 'cleanup')).toBeCloseTo(0.5, 9);
    expect(tooDeep.clearance).toBeCloseTo(1, 9);
    const deeper = getStack(withShelf(15.5));
    expect(getSlice(deeper, 'cleanup')).toBeCloseTo(0, 9);
    expect(deeper.clearance).toBeCloseTo(0.5, 9);
    expect(getStack(withShelf(17)).clearance).toBeCloseTo(-1, 9);
  });

  it('is short by what the smallest bar lacks for a shelf that is too deep', () => {
    expect(getStack(withShelf(13.6)).shortBy).toBeCloseTo(0, 9);
    expect(getStack(withShelf(14)).shortBy).toBeCloseTo(0.4, 9);
  });

  it('has slices that touch, from the top of the bar to the bottom of the grip, whatever the shelf', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 39, noNaN: true }), (depth) => {
        const stack = getStack(withShelf(depth));
        const sum = stack.slices.reduce((total, slice) => total + slice.height, 0);
        expect(sum).toBeCloseTo(40, 9);
        stack.slices.slice(1).forEach((slice, index) => {
          const above = stack.slices[index];
          expect((above?.zTop ?? Number.NaN) - (above?.height ?? Number.NaN)).toBeCloseTo(slice.zTop, 9);
        });
        expect(stack.slices.at(-1)?.zTop).toBe(0);
      }),
      { numRuns: 30, seed: 1 },
    );
  });

  it('keeps one seat for all blanks: the tallest part sets it, a shorter one gets more clearance', () => {
    const evaluation = evaluateScenario({ ...BASE, parts: [PART, { ...PART, id: 'low', name: 'Low', height: 12 }] });
    const [tall, low] = evaluation.blanks;
    expect(evaluation.governingBlank).toBe(0);
    expect(low?.stack.grip.nominal).toBe(tall?.stack.grip.nominal);
    expect(low?.stack.clearance).toBeCloseTo((tall?.stack.clearance ?? 0) + 8, 9);
  });

  it('lets a measured size win over the class', () => {
    const measured: Scenario = {
      ...BASE,
      plan: (plan) => {
        const base = BASE.plan?.(plan) ?? plan;
        return { ...base, stock: { ...base.stock, measuredHeight: 39.9 } };
      },
    };
    const evaluation = evaluateScenario(measured);
    expect(evaluation.section?.height).toEqual({ nominal: 39.9, least: 39.9, most: 39.9 });
    expect(evaluation.section?.sizeFrom).toBe('measured');
    expect(evaluation.seat?.shelfDepth.value).toBeCloseTo(13.75, 9);
    expect(evaluation.sections.find((row) => row.chosen)?.height).toBe(39.9);
  });

  it('counts only flat grip where corners are round', () => {
    const evaluation = evaluateScenario({
      ...BASE,
      jaws: buildJaws({ leastFlatGrip: 3, comfortableGrip: 6 }),
      sizeClass: buildSizeClass({ cornerBands: [{ upTo: 20, radius: 2 }] }),
      bars: [buildBar({ id: 'bar', width: 31, thickness: 10 })],
    });
    expect(evaluation.seat?.grip).toBeCloseTo(5, 9);
    expect(evaluation.seat?.flatGrip).toBeCloseTo(3, 9);
    expect(evaluation.blanks[0]?.stack.shortBy).toBeCloseTo(0, 9);
    expect(evaluation.blanks[0]?.stack.gripAsked).toBeCloseTo(5, 9);
  });

  it('is the same in inches and in mm, but for the step of the shelf', () => {
    const rules = { clearance: 1, shelfStepMm: 0.25, shelfStepInch: 0.25 };
    const inMm = evaluateScenario({ ...BASE, rules });
    const inInch = evaluateScenario({ ...BASE, rules, units: 'in' });
    expect(inInch.seat?.grip).toBe(inMm.seat?.grip);
    expect(inInch.blanks[0]?.stack.slices).toEqual(inMm.blanks[0]?.stack.slices);
  });

  it('names every length that went into the grip', () => {
    const names = getStack(BASE).gripFigure.why.inputs.map(({ name }) => name);
    for (const name of ['g', 'Hmin', 'cleanup', 'allowance top', 'h', 'allowance bottom', 'k', 'c']) {
      expect(names).toContain(name);
    }
  });
});
