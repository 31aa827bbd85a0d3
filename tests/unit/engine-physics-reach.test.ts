import { describe, expect, it } from 'vitest';
import { getLeastStickOut, getMostStickOut } from '../../shared/engine/tool-length';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import type { Cut } from '../../shared/model/plan';
import type { EndMill, Holder, KeySeatCutter, SlittingSaw, Tool } from '../../shared/model/shop';
import { buildBar, buildCutter, evaluateScenario, inch, type Scenario } from './engine-geometry/scenario';

const mill = defaultShop.tools.find((tool) => tool.id === 'tool-em-carbide-long-0500') as EndMill;
const holder: Holder = {
  id: 'holder',
  name: 'Chuck',
  noseDiameter: 40,
  noseLength: 30,
  bodyDiameter: 50,
  source: '',
};
const cutter: KeySeatCutter = buildCutter(inch(0.125), {
  diameter: inch(0.875),
  neckDiameter: inch(0.375),
  neckLength: inch(1.5),
});

function buildCut(change: Partial<Cut>): Cut {
  return {
    id: 'cut',
    name: 'Sides',
    kind: 'side',
    toolId: mill.id,
    holderId: 'holder',
    stepDown: inch(0.3),
    sideEngagement: inch(0.03),
    feedPerTooth: inch(0.0015),
    cuttingSpeedMPerMin: 90,
    stickOut: 'auto',
    ...change,
  };
}

/** A part 1.000 high in a bar 2.000 high: needs .125 of slot under it and stands with its top at jaw level + 1.125 + clearance. */
function getReach(cut: Partial<Cut>, tools: Tool[] = [mill, cutter], change: Scenario = {}) {
  const evaluation = evaluateScenario({
    parts: [{ id: 'lever', name: 'Lever', length: inch(4), height: inch(1), thickness: inch(0.5) }],
    bars: [buildBar({ id: 'bar', width: inch(2), thickness: inch(0.5) })],
    shop: { tools, holders: [holder] },
    rules: { clearance: inch(0.05), holderClearance: inch(0.06), runningClearance: inch(0.01) },
    plan: (plan) => ({ ...plan, cuts: [buildCut(cut)] }),
    ...change,
  });
  const row = evaluation.reach[0];
  const blank = evaluation.blanks[0];
  if (row === undefined || blank === undefined) throw new Error('no reach');
  return { row, blank };
}

describe('stick-out', () => {
  it('is the depth past the slot and the holder’s clearance, when the flutes are shorter', () => {
    const short = { ...mill, fluteLength: inch(0.5) };
    const { row, blank } = getReach({}, [short, cutter]);
    const depth = blank.stack.proudHeight.nominal - blank.stack.clearance;
    expect(row.needStickOut).toBeCloseTo(depth + inch(0.06), 6);
    expect(row.holderGap).toBeCloseTo(inch(0.06), 6);
    expect(row.beyondFlutes).toBeCloseTo(depth - inch(0.5), 6);
  });

  it('is never less than what must not be clamped: flutes, head and neck', () => {
    expect(getReach({}).row.needStickOut).toBeCloseTo(mill.fluteLength, 6);
    expect(getReach({ kind: 'cutOff', toolId: '' }).row.needStickOut).toBeCloseTo(inch(1.5 + 0.125), 6);
    expect(getLeastStickOut({ ...mill, neck: { diameter: 11, length: 20 } })).toBeCloseTo(mill.fluteLength + 20, 9);
  });

  it('pinned shorter than that, the holder clamps the neck', () => {
    const { row } = getReach({ kind: 'cutOff', toolId: '', stickOut: { pinned: inch(1.4) } });
    expect(row.clash).toContain('clamps the neck');
    expect(row.stickOut.auto).toBeCloseTo(inch(1.625), 6);
  });

  it('more than the tool has is said', () => {
    const stub = { ...mill, overallLength: inch(1.5), fluteLength: inch(0.5) };
    const { row } = getReach({}, [stub, cutter]);
    expect(row.mostStickOut).toBeCloseTo(getMostStickOut(stub), 9);
    expect(row.clash).toContain('too short');
  });

  it('goes down in as many steps as the depth holds', () => {
    const { row, blank } = getReach({});
    const depth = blank.stack.proudHeight.nominal - blank.stack.clearance;
    expect(row.stepDowns).toBe(Math.ceil(depth / inch(0.3)));
    expect(getReach({ kind: 'cutOff', toolId: '', sideEngagement: inch(0.1) }).row.stepDowns).toBe(3);
  });
});

describe('holder and shank beside the work', () => {
  it('a nose below the top of the work meets it', () => {
    const { row } = getReach({ stickOut: { pinned: mill.fluteLength - inch(1.2) } });
    expect(row.holderGap).toBeLessThan(0);
    expect(row.clash).toContain('the holder runs');
  });

  it('a slim nose passes beside the wall at a cut-off', () => {
    const slim = { ...holder, noseDiameter: inch(0.3), noseLength: 100 };
    const shallow = { ...cutter, neckLength: inch(0.3) };
    const cut = { kind: 'cutOff' as const, toolId: '', stickOut: { pinned: inch(0.6) } };
    const scenario = (one: Holder): Scenario => ({
      shop: { tools: [mill, { ...shallow, shankDiameter: inch(0.375) }], holders: [one] },
      plan: (plan) => ({ ...plan, cuts: [buildCut(cut)] }),
    });
    expect(getReach(cut, [], scenario(slim)).row.clash).not.toContain('holder runs');
    expect(getReach(cut, [], scenario(holder)).row.clash).toContain('holder runs');
  });

  it('a shank wider than its cutter rubs on a tall wall', () => {
    const fat = { ...mill, diameter: inch(0.25), shankDiameter: inch(0.5), fluteLength: inch(0.5) };
    expect(getReach({}, [fat, cutter]).row.clash).toContain('shank is wider');
    expect(getReach({}, [{ ...mill, shankDiameter: inch(0.4) }, cutter]).row.clash).toBe('');
  });

  it('a neck shorter than the wall counts the shank for the cut-off’s reach', () => {
    const reach = (neckLength: number) =>
      evaluateScenario({
        parts: [{ id: 'lever', name: 'Lever', length: inch(4), height: inch(1), thickness: inch(0.5) }],
        bars: [buildBar({ id: 'bar', width: inch(2), thickness: inch(0.5) })],
        shop: { tools: [{ ...cutter, shankDiameter: inch(0.5), neckLength }] },
        rules: { runningClearance: inch(0.01) },
      }).release?.reach.value;
    expect(reach(inch(1.1))).toBeCloseTo(inch((0.875 - 0.375) / 2 - 0.01), 6);
    expect(reach(inch(0.9))).toBeCloseTo(inch((0.875 - 0.5) / 2 - 0.01), 6);
  });
});

describe('the screw below a slitting saw', () => {
  const saw: SlittingSaw = {
    ...cutter,
    kind: 'slittingSaw',
    id: 'saw',
    diameter: inch(3),
    width: inch(1 / 16),
    flangeDiameter: inch(1.25),
    arborLength: inch(1.75),
    screwHeight: inch(0.16),
  };
  const cutOff = { kind: 'cutOff' as const, toolId: '' };
  const withClearance = (clearance: 'auto' | { pinned: number }): Scenario => ({
    shop: { tools: [mill, saw], holders: [holder] },
    plan: (plan) => ({ ...plan, cuts: [buildCut(cutOff)], release: { ...plan.release, clearance } }),
  });

  it('gets room over the jaws where the clearance is left to the engine', () => {
    const { row, blank } = getReach(cutOff, [], withClearance('auto'));
    expect(blank.stack.clearance).toBeGreaterThanOrEqual(inch(0.16 + 0.01) - 1e-9);
    expect(row.clash).not.toContain('screw');
  });

  it('runs into the jaws where a smaller clearance is pinned', () => {
    const tight: Scenario = {
      ...withClearance({ pinned: inch(0.05) }),
      bars: [buildBar({ id: 'bar', width: inch(1.6), thickness: inch(0.5) })],
    };
    const { row, blank } = getReach(cutOff, [], tight);
    expect(row.clash).toContain('the screw below the saw runs');
    expect(blank.stack.clearance).toBeLessThan(inch(0.16));
  });

  it('a flush one, and a key-seat cutter, need no more than the shop’s rule', () => {
    const flush: Scenario = { ...withClearance('auto'), shop: { tools: [mill, { ...saw, screwHeight: 0 }] } };
    expect(getReach(cutOff, [], flush).row.clash).not.toContain('screw');
    const evaluation = evaluateScenario({
      parts: [{ id: 'lever', name: 'Lever', length: inch(4), height: inch(1), thickness: inch(0.5) }],
      bars: [buildBar({ id: 'bar', width: inch(2), thickness: inch(0.5) })],
      rules: { clearance: inch(0.05) },
    });
    expect(evaluation.release?.clearance.value).toBeCloseTo(inch(0.05), 9);
  });
});

describe('bending of the tool', () => {
  it('goes with the cube of the stick-out while flutes reach the holder', () => {
    const long = { ...mill, fluteLength: 200, overallLength: 400 };
    const at = (stickOut: number) => getReach({ stickOut: { pinned: stickOut } }, [long, cutter]).row.deflection.value;
    expect(at(120) / at(60)).toBeCloseTo(8, 6);
  });

  it('limits belong to the tool’s material', () => {
    const hss = { ...mill, toolMaterial: 'hss' as const };
    expect(getReach({}, [hss, cutter]).row.ratioLimit).toBe(defaultShop.rules.stickOutLimitHss);
    expect(getReach({}).row.ratioLimit).toBe(defaultShop.rules.stickOutLimitCarbide);
    expect(getReach({}, [hss, cutter]).row.deflection.value / getReach({}).row.deflection.value).toBeCloseTo(
      600 / 210,
      6,
    );
  });
});

describe('a cut without its tool', () => {
  it('is there, infeasible, and puts no force on the work', () => {
    const evaluation = evaluateScenario({
      parts: [{ id: 'lever', name: 'Lever', length: inch(4), height: inch(1), thickness: inch(0.5) }],
      bars: [buildBar({ id: 'bar', width: inch(2), thickness: inch(0.5) })],
      plan: (plan) => ({ ...plan, cuts: [buildCut({ toolId: 'gone' })] }),
    });
    expect(evaluation.cuts).toHaveLength(1);
    expect(evaluation.cuts[0]?.feasible).toBe(false);
    expect(evaluation.cuts[0]?.sideForceN.value).toBe(0);
    expect(evaluation.reach).toEqual([]);
    expect(evaluation.blanks[0]?.hold.weakest).toBeNull();
  });

  it('nothing in the shop to cut off with leaves no reach and no kerf', () => {
    const evaluation = evaluateScenario({
      parts: [{ id: 'lever', name: 'Lever', length: inch(4), height: inch(1), thickness: inch(0.5) }],
      bars: [buildBar({ id: 'bar', width: inch(2), thickness: inch(0.5) })],
      shop: { tools: [] },
    });
    expect(evaluation.release?.cutterId.value).toBe('');
    expect(evaluation.release?.reach.value).toBe(0);
    expect(evaluation.release?.depthPerSide.value).toBe(0);
  });
});
