import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CutSpec, computeCutForce } from '../../shared/engine/cut-force';
import { computeHoldFactors, type HoldState } from '../../shared/engine/hold-state';
import type { Remedy } from '../../shared/engine/results';
import { evaluate } from '../../shared/evaluate';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import { buildHoistArms } from '../../shared/model/catalogue/sample-hoist-arms';
import { buildKeeperLinks } from '../../shared/model/catalogue/sample-keeper-links';
import type { CutKind, Plan } from '../../shared/model/plan';
import type { Tool } from '../../shared/model/shop';

const KINDS: readonly CutKind[] = ['side', 'slot', 'plunge', 'drill', 'chamfer', 'cutOff'];

const tools = defaultShop.tools;

function getToolFor(kind: CutKind, pick: number): Tool {
  const wanted = kind === 'cutOff' ? ['keySeat', 'slittingSaw'] : kind === 'drill' ? ['drill'] : ['endMill'];
  const fitting = tools.filter((tool) => wanted.includes(tool.kind));
  return fitting[pick % fitting.length] as Tool;
}

const specs: fc.Arbitrary<CutSpec> = fc
  .record({
    kind: fc.constantFrom(...KINDS),
    pick: fc.nat(200),
    material: fc.constantFrom(...defaultShop.materials),
    stepDown: fc.double({ min: 0.1, max: 15, noNaN: true }),
    sideEngagement: fc.double({ min: 0.05, max: 12, noNaN: true }),
    feedPerTooth: fc.double({ min: 0.005, max: 0.2, noNaN: true }),
    cuttingSpeedMPerMin: fc.double({ min: 10, max: 300, noNaN: true }),
    radialRatio: fc.double({ min: 0, max: 1, noNaN: true }),
  })
  .map(({ kind, pick, ...rest }) => ({ ...rest, kind, tool: getToolFor(kind, pick) }));

const states: fc.Arbitrary<HoldState> = fc
  .record({
    clampForceN: fc.double({ min: 100, max: 60_000, noNaN: true }),
    friction: fc.double({ min: 0.05, max: 0.6, noNaN: true }),
    flatGrip: fc.double({ min: 0.5, max: 40, noNaN: true }),
    bothFaces: fc.boolean(),
    proudHeight: fc.double({ min: 5, max: 120, noNaN: true }),
  })
  .map(({ proudHeight, ...grip }) => ({ grip, proudHeight, clearance: 1.2, kerf: 3, cuts: [] }));

describe('hold factors move the way they must', () => {
  it('more grip never lowers one', () => {
    fc.assert(
      fc.property(states, specs, fc.double({ min: 0, max: 30, noNaN: true }), (state, spec, more) => {
        const deeper: HoldState = {
          ...state,
          grip: { ...state.grip, flatGrip: state.grip.flatGrip + more },
          proudHeight: Math.max(0, state.proudHeight - more),
        };
        const before = computeHoldFactors(state, spec);
        const after = computeHoldFactors(deeper, spec);
        for (const key of ['slip', 'tip', 'lift', 'factor'] as const) {
          expect(after[key]).toBeGreaterThanOrEqual(before[key] * (1 - 1e-12));
        }
      }),
    );
  });

  it('a bigger step-down never raises one', () => {
    fc.assert(
      fc.property(states, specs, fc.double({ min: 1, max: 3, noNaN: true }), (state, spec, times) => {
        // Above the whole height there is nothing to step down into.
        fc.pre(spec.stepDown * times < state.proudHeight);
        const before = computeHoldFactors(state, spec);
        const after = computeHoldFactors(state, { ...spec, stepDown: spec.stepDown * times });
        for (const key of ['slip', 'tip', 'lift', 'factor'] as const) {
          expect(after[key]).toBeLessThanOrEqual(before[key] * (1 + 1e-12));
        }
      }),
    );
  });

  it('more clamp force never lowers one, and a factor goes with it', () => {
    fc.assert(
      fc.property(states, specs, (state, spec) => {
        const twice = { ...state, grip: { ...state.grip, clampForceN: 2 * state.grip.clampForceN } };
        const before = computeHoldFactors(state, spec).factor;
        const after = computeHoldFactors(twice, spec).factor;
        expect(after).toBeCloseTo(Math.min(1000, 2 * before), 6);
      }),
    );
  });
});

describe('no cut gives a number that is not finite', () => {
  const odd = fc.constantFrom(0, -1, 1e-300, 1e300, Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY);

  it('whatever is entered', () => {
    fc.assert(
      fc.property(
        specs,
        states,
        fc.record({
          stepDown: odd,
          sideEngagement: odd,
          feedPerTooth: odd,
          cuttingSpeedMPerMin: odd,
          radialRatio: odd,
        }),
        fc.subarray(['stepDown', 'sideEngagement', 'feedPerTooth', 'cuttingSpeedMPerMin', 'radialRatio'] as const),
        (spec, state, values, broken) => {
          const bad = { ...spec };
          for (const key of broken) bad[key] = values[key];
          const numbers = [...Object.values(computeCutForce(bad)), ...Object.values(computeHoldFactors(state, bad))];
          for (const value of numbers) if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
        },
      ),
      { numRuns: 500 },
    );
  });
});

describe('units make no difference', () => {
  it('the same cut is the same force in an inch and in a metric plan', () => {
    const plan = buildHoistArms();
    const inch = evaluate(plan, defaultShop);
    const metric = evaluate({ ...plan, units: 'mm' }, defaultShop);
    expect(metric.cuts.map((cut) => cut.sideForceN.value)).toEqual(inch.cuts.map((cut) => cut.sideForceN.value));
  });
});

describe('units make no difference to a whole plan', () => {
  // On the vise bed and with the vises where they are: shelves and vise places are rounded to another step in each unit.
  it.each([
    ['hoist arms', buildHoistArms()],
    ['keeper links', buildKeeperLinks()],
  ])('%s', (_name, plan) => {
    const { vises: placed, section } = evaluate(plan, defaultShop);
    if (placed === null || section === null) throw new Error('the sample has no setup');
    const held: Plan = {
      ...plan,
      stock: { ...plan.stock, barId: { pinned: section.barId.value }, wayUp: { pinned: section.wayUp.value } },
      holding: { ...plan.holding, seat: { pinned: { kind: 'bed' } }, vises: { pinned: placed.centres.value } },
    };
    const [inch, metric] = (['in', 'mm'] as const).map((units) => {
      const { blanks, vises, bow, allowance, chance, reach, release } = evaluate({ ...held, units }, defaultShop);
      return {
        factors: blanks.map(({ hold }) => hold.rows.map(({ factor }) => factor)),
        pressure: blanks.map(({ hold }) => hold.jawPressureMPa.value),
        bends: blanks.map(({ deflection }) => deflection.worst.value),
        overhang: blanks.map(({ longestLegalOverhang }) => longestLegalOverhang.value),
        clampForceN: vises?.clampForceN.value,
        bow: bow.map((row) => [row.bow.value, row.springBack]),
        worstCase: allowance.map((row) => row.worstCase),
        chance: chance?.all.value,
        stickOut: reach.map((row) => row.stickOut.value),
        ribs: release?.parts.map((rib) => [rib.widest.rib, rib.snapForceN.value, rib.tabs]),
      };
    });
    expect(metric).toEqual(inch);
  });
});

/** The plan with a remedy carried out; null for those that change the seat, which the engine then rounds to its steps. */
function carryOut(plan: Plan, { change }: Remedy): Plan | null {
  switch (change.kind) {
    case 'stepDown':
      return {
        ...plan,
        cuts: plan.cuts.map((cut) => ({
          ...cut,
          stepDown: change.cuts.find((one) => one.cutId === cut.id)?.stepDown ?? cut.stepDown,
        })),
      };
    case 'passDepth':
      return {
        ...plan,
        cuts: plan.cuts.map((cut) => ({
          ...cut,
          sideEngagement: change.cuts.find((one) => one.cutId === cut.id)?.sideEngagement ?? cut.sideEngagement,
        })),
      };
    case 'clamp':
      return { ...plan, holding: { ...plan.holding, clamp: change.clamp } };
    default:
      return null;
  }
}

describe('remedies do what they say', () => {
  /** The sample clamped so lightly that it does not hold, its vises and bar as chosen before. */
  function weaken(plan: Plan, clampForceN: number): Plan {
    const chosen = evaluate(plan, defaultShop);
    const { section, vises, seat } = chosen;
    if (section === null || vises === null || seat === null) throw new Error('the sample has no setup');
    return {
      ...plan,
      stock: { ...plan.stock, barId: { pinned: section.barId.value }, wayUp: { pinned: section.wayUp.value } },
      release: { ...plan.release, cutterId: { pinned: chosen.release?.cutterId.value ?? '' } },
      holding: {
        ...plan.holding,
        vises: { pinned: vises.centres.value },
        seat: { pinned: seat.choice.value },
        clamp: { kind: 'force', clampForceN },
      },
    };
  }

  it.each([
    ['hoist arms', buildHoistArms(), 5000],
    ['hoist arms, a little short', buildHoistArms(), 7000],
    ['keeper links', buildKeeperLinks(), 3000],
  ])('%s', (_name, plan, clampForceN) => {
    const weak = weaken(plan, clampForceN);
    const blanks = evaluate(weak, defaultShop).blanks;
    let carried = 0;
    blanks.forEach((blank, index) => {
      const { weakest, remedies } = blank.hold;
      const current = weakest?.factor.value ?? 0;
      if (current >= defaultShop.rules.holdFactorCheck) return;
      expect(remedies.length).toBeGreaterThan(0);
      expect(remedies.length).toBeLessThanOrEqual(3);
      expect(remedies.map((remedy) => remedy.factor)).toEqual(
        remedies.map((remedy) => remedy.factor).toSorted((a, b) => b - a),
      );
      for (const remedy of remedies) {
        expect(remedy.factor).toBeGreaterThan(current);
        const changed = carryOut(weak, remedy);
        if (changed === null) continue;
        carried += 1;
        const after = evaluate(changed, defaultShop).blanks[index]?.hold.weakest?.factor.value;
        expect(after).toBeCloseTo(remedy.factor, 2);
      }
    });
    expect(carried).toBeGreaterThan(0);
  });

  it('a hold that is comfortable needs none', () => {
    const strong = evaluate(
      { ...buildHoistArms(), holding: { ...buildHoistArms().holding, clamp: { kind: 'force', clampForceN: 30_000 } } },
      defaultShop,
    );
    for (const blank of strong.blanks) expect(blank.hold.remedies).toEqual([]);
  });
});
