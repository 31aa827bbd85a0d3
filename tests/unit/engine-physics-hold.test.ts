import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CutSpec, computeCutForce } from '../../shared/engine/cut-force';
import { computeHoldFactors, type HoldState } from '../../shared/engine/hold-state';
import type { BlankResult, Remedy } from '../../shared/engine/results';
import { type Evaluation, evaluate } from '../../shared/evaluate';
import { applyFix } from '../../shared/findings/apply-fix';
import { buildJudge } from '../../shared/findings/judge';
import { buildRemedyFix } from '../../shared/findings/remedy-fix';
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

describe('remedies do what they say', () => {
  const arms = buildHoistArms();
  const links = buildKeeperLinks();
  const clamp = (plan: Plan, clampForceN: number): Plan => ({
    ...plan,
    holding: { ...plan.holding, clamp: { kind: 'force', clampForceN } },
  });
  const turn = (plan: Plan, handleTorqueNm: number): Plan => ({
    ...plan,
    holding: { ...plan.holding, clamp: { kind: 'torque', handleTorqueNm, nutFactor: null } },
  });
  const onShelf = (plan: Plan, depth: number | null): Plan => ({
    ...plan,
    holding: {
      ...plan.holding,
      seat: { pinned: { kind: 'shelf' } },
      shelfDepth: depth === null ? 'auto' : { pinned: depth },
    },
  });
  const inJaws = (plan: Plan, jawSetId: string): Plan => ({ ...plan, holding: { ...plan.holding, jawSetId } });
  const inBar = (plan: Plan, barId: string): Plan => ({ ...plan, stock: { ...plan.stock, barId: { pinned: barId } } });
  const feedCutOff = (plan: Plan, times: number): Plan => ({
    ...plan,
    cuts: plan.cuts.map((cut) => (cut.kind === 'cutOff' ? { ...cut, feedPerTooth: cut.feedPerTooth * times } : cut)),
  });
  const inVises = (plan: Plan, count: number): Plan => ({
    ...plan,
    holding: { ...plan.holding, viseCount: { pinned: count } },
  });

  /** The bar, its way up and the blanks as the engine took them, so that nothing but the remedy changes. */
  function keepChoice(plan: Plan): Plan {
    const { section, blanks } = evaluate(plan, defaultShop);
    if (section === null) throw new Error('the sample has no bar');
    return {
      ...plan,
      partsPerBlank: { pinned: blanks[0]?.parts.length ?? 1 },
      stock: { ...plan.stock, barId: { pinned: section.barId.value }, wayUp: { pinned: section.wayUp.value } },
    };
  }

  function getWeakest({ blanks }: Evaluation): BlankResult | undefined {
    return blanks
      .filter(({ hold }) => hold.weakest !== null)
      .toSorted((a, b) => (a.hold.weakest?.factor.value ?? 0) - (b.hold.weakest?.factor.value ?? 0))[0];
  }

  function getFactorAfter(plan: Plan, evaluation: Evaluation, remedy: Remedy, templateId: string): number {
    const fix = buildRemedyFix(remedy, buildJudge(plan, defaultShop, evaluation));
    const after = evaluate(applyFix(plan, fix), defaultShop);
    const blank = after.blanks.find((one) => one.templateId === templateId);
    return blank?.hold.weakest?.factor.value ?? Number.NaN;
  }

  const WEAK: [string, Plan][] = [
    ['arms at 1500 N', clamp(arms, 1500)],
    ['arms at 5000 N', clamp(arms, 5000)],
    ['arms a little short', clamp(arms, 7000)],
    ['arms by torque', turn(arms, 20)],
    ['arms on a shelf', onShelf(clamp(arms, 5000), null)],
    ['arms on a shallow shelf', onShelf(clamp(arms, 5000), 6)],
    ['arms in one vise', inVises(clamp(arms, 6000), 1)],
    ['arms in a low bar', inBar(clamp(arms, 5000), 'bar-4140-0750x2000')],
    ['arms in a high bar', inBar(clamp(arms, 5000), 'bar-4140-0750x3000')],
    ['arms parted off too fast', feedCutOff(clamp(arms, 9000), 25)],
    ['links at 1500 N', clamp(links, 1500)],
    ['links at 3000 N in two vises', inVises(clamp(links, 3000), 2)],
    ['links on a shallow shelf', onShelf(clamp(links, 3000), 4)],
    ['links in a higher bar', inBar(inVises(clamp(links, 3000), 2), 'bar-6082-15x40')],
    ...defaultShop.jawSets.map((jaws): [string, Plan] => [`arms in ${jaws.id}`, inJaws(clamp(arms, 4000), jaws.id)]),
  ];
  const tried = new Set<string>();

  it.each(WEAK)('the factor named is the one that comes, nothing else changing: %s', (_name, free) => {
    const plan = keepChoice(free);
    const evaluation = evaluate(plan, defaultShop);
    const weakest = getWeakest(evaluation);
    if (weakest === undefined) throw new Error('no cut works on the sample');
    const current = weakest.hold.weakest?.factor.value ?? 0;
    const { remedies } = weakest.hold;
    expect(remedies.length).toBeGreaterThan(0);
    expect(remedies.length).toBeLessThanOrEqual(3);
    const factors = remedies.map(({ factor }) => factor);
    expect(factors).toEqual(factors.toSorted((a, b) => b - a));
    for (const remedy of remedies) {
      tried.add(remedy.change.kind);
      expect(remedy.factor).toBeGreaterThan(current);
      const after = getFactorAfter(plan, evaluation, remedy, weakest.templateId);
      expect(after, remedy.sentence).toBeCloseTo(remedy.factor, 6);
      expect(remedy.sentence).toContain(`factor ${remedy.factor.toFixed(1)}`);
    }
  });

  it.each(WEAK)('where the bar is free too, no less comes: %s', (_name, plan) => {
    const evaluation = evaluate(plan, defaultShop);
    const weakest = getWeakest(evaluation);
    for (const remedy of weakest?.hold.remedies ?? []) {
      const least = Math.min(remedy.factor, defaultShop.rules.holdFactorCheck);
      const after = getFactorAfter(plan, evaluation, remedy, weakest?.templateId ?? '');
      expect(after, remedy.sentence).toBeGreaterThanOrEqual(least * (1 - 1e-9));
    }
  });

  it('every kind of remedy comes up among them', () => {
    expect([...tried].sort()).toEqual(['bar', 'clamp', 'grip', 'jawSet', 'passDepth', 'stepDown', 'vises']);
  });

  it('another bar does not keep what was measured of the one in hand', () => {
    const plan = keepChoice(inBar(clamp(arms, 5000), 'bar-4140-0750x2000'));
    const measured: Plan = { ...plan, stock: { ...plan.stock, measuredHeight: 50.7, measuredBow: 0.2 } };
    const evaluation = evaluate(measured, defaultShop);
    const weakest = getWeakest(evaluation);
    const remedy = weakest?.hold.remedies.find(({ change }) => change.kind === 'bar');
    if (weakest === undefined || remedy === undefined) throw new Error('a higher bar expected');
    const fix = buildRemedyFix(remedy, buildJudge(measured, defaultShop, evaluation));
    expect(applyFix(measured, fix).stock).toMatchObject({ measuredHeight: null, measuredBow: null });
    expect(getFactorAfter(measured, evaluation, remedy, weakest.templateId)).toBeCloseTo(remedy.factor, 6);
  });

  it('a hold that is comfortable needs none', () => {
    const strong = evaluate(
      { ...buildHoistArms(), holding: { ...buildHoistArms().holding, clamp: { kind: 'force', clampForceN: 30_000 } } },
      defaultShop,
    );
    for (const blank of strong.blanks) expect(blank.hold.remedies).toEqual([]);
  });
});
