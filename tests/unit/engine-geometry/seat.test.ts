import { describe, expect, it } from 'vitest';
import { computeParallels } from '../../../shared/engine/parallels';
import { buildHole } from '../../../shared/model/build-part';
import { getScrewHead } from '../../../shared/model/catalogue/socket-screws';
import type { SeatChoice } from '../../../shared/model/plan';
import type { ParallelPair } from '../../../shared/model/shop';
import { buildBar, buildJaws, buildVise, evaluateScenario, type Scenario } from './scenario';

const pair = (height: number, thickness = 3, count = 2): ParallelPair => ({
  id: `parallel-${height}`,
  height,
  thickness,
  length: 150,
  count,
});

const QUESTION = { jawHeight: 40, leastGrip: 5, mostGrip: 12, thickness: 10, fingerRoom: 1.5 };

describe('parallels', () => {
  it('fits the owned pair that gives most grip without the bar sitting too deep', () => {
    const answer = computeParallels(QUESTION, [pair(25), pair(30), pair(33), pair(36)]);
    expect(answer.best?.parallelId).toBe('parallel-30');
    expect(answer.rows.map(({ reason }) => reason)).toEqual([
      'the bar would sit too deep: the cut-off would meet the jaws',
      '',
      '',
      'too little grip',
    ]);
  });

  it('uses one where two with room between are wider than the bar, and none where one is', () => {
    const [one] = computeParallels(QUESTION, [pair(30, 5)]).rows;
    expect(one).toMatchObject({ count: 1, fits: true });
    const [none] = computeParallels(QUESTION, [pair(30, 11)]).rows;
    expect(none).toMatchObject({ fits: false, reason: 'wider than the bar, even one alone' });
  });

  it('rejects one that stands above the jaws', () => {
    expect(computeParallels(QUESTION, [pair(41)]).rows[0]?.reason).toBe('stands above the jaws');
  });

  it('answers an empty drawer', () => {
    const answer = computeParallels(QUESTION, []);
    expect(answer).toEqual({ rows: [], best: null, nextLower: null, nextHigher: null, shim: null });
  });

  it('needs no shim where the next lower pair serves', () => {
    expect(computeParallels(QUESTION, [pair(30)]).shim).toBeNull();
  });
});

describe('screw heads, ISO 4762 and ASME B18.3', () => {
  it.each([
    ['M10', 16, 10],
    ['M12', 18, 12],
    ['3/8', 14.2748, 9.525],
    ['3/8-16', 14.2748, 9.525],
  ])('%s: %f across, %f high', (thread, diameter, height) => {
    expect(getScrewHead(thread)?.headDiameter).toBeCloseTo(diameter, 4);
    expect(getScrewHead(thread)?.headHeight).toBeCloseTo(height, 4);
  });

  it('knows no head of an odd thread', () => {
    expect(getScrewHead('toString')).toBeUndefined();
    expect(getScrewHead('')).toBeUndefined();
  });
});

/** Part 20 high in a 40 × 12 bar, nothing else in the stack but a 3 kerf: 23 above the jaws, 17 of grip to be had. */
const BASE: Scenario = {
  units: 'mm',
  kerf: 3,
  parts: [{ id: 'arm', name: 'Arm', length: 100, height: 20, thickness: 8 }],
  bars: [buildBar({ id: 'bar', width: 40, thickness: 12 })],
  vise: buildVise({ jawHeight: 40 }),
  jaws: buildJaws({ thickness: 25, comfortableGrip: 8 }),
  rules: {
    shelfStepMm: 0.5,
    jawFloor: 6,
    counterboreLand: 1.5,
    ledge: 3,
    leastLedge: 1.5,
    spacerBelowFloor: 1,
    wallBehindLedge: 5,
    spacerStepMm: 1,
    spacerStepInch: 1,
  },
  plan: (plan) => ({ ...plan, stock: { ...plan.stock, wayUp: { pinned: 'onEdge' } } }),
};

const withSeat = (seat: SeatChoice, scenario: Scenario = BASE): Scenario => ({
  ...scenario,
  plan: (plan) => {
    const base = scenario.plan?.(plan) ?? plan;
    return { ...base, holding: { ...base.holding, seat: { pinned: seat } } };
  },
});

const bolts = { thread: 'M10', spacing: 100, centreHeight: 16, counterboreDiameter: 18, counterboreDepth: 11 };

describe('seat', () => {
  it('takes parallels that give the grip aimed at before a shelf is milled', () => {
    const { seat } = evaluateScenario({ ...BASE, shop: { parallels: [pair(31), pair(25)] } });
    expect(seat?.choice.value).toEqual({ kind: 'parallels', parallelId: 'parallel-25', count: 2 });
    expect(seat?.grip).toBeCloseTo(15, 9);
    expect(seat?.choice.why.rule).toContain('no jaw has to be milled');
  });

  it('takes a shelf where none do', () => {
    const { seat } = evaluateScenario({ ...BASE, shop: { parallels: [pair(34)] } });
    expect(seat?.choice.value).toEqual({ kind: 'shelf' });
    expect(seat?.grip).toBeCloseTo(17, 9);
  });

  it('takes the parallels with most grip where the jaw is not to be milled', () => {
    const jaws = buildJaws({ millable: false, comfortableGrip: 8 });
    const { seat } = evaluateScenario({ ...BASE, jaws, shop: { parallels: [pair(34), pair(36)] } });
    expect(seat?.choice.value).toMatchObject({ kind: 'parallels', parallelId: 'parallel-34' });
    expect(seat?.deepestLegalShelf.value).toBe(0);
    expect(seat?.deepestLimitedBy).toBe('jaw');
  });

  it('stands a tall bar on the bed', () => {
    const { seat } = evaluateScenario({ ...BASE, vise: buildVise({ jawHeight: 15 }) });
    expect(seat?.choice.value).toEqual({ kind: 'bed' });
    expect(seat?.grip).toBe(15);
  });

  it('reports the deepest shelf whatever the seat: floor, or counterbores with a land', () => {
    expect(evaluateScenario(withSeat({ kind: 'bed' })).seat).toMatchObject({ deepestLimitedBy: 'floor' });
    expect(evaluateScenario(BASE).seat?.deepestLegalShelf.value).toBeCloseTo(34, 9);
    const { seat } = evaluateScenario({ ...BASE, jaws: buildJaws({ bolts }) });
    expect(seat?.deepestLegalShelf.value).toBeCloseTo(40 - 25 - 1.5, 9);
    expect(seat?.deepestLimitedBy).toBe('counterbore');
    expect(seat?.shelfDepth.value).toBeCloseTo(13.5, 9);
  });

  it('mills the shelf on a spacer: ledge (T - spacer) / 2, spacer top below the floor', () => {
    const { seat } = evaluateScenario(withSeat({ kind: 'shelf' }));
    expect(seat?.spacer.value).toBe(6);
    expect(seat?.ledge.value).toBe(3);
    expect(seat?.wallBehind).toBe(22);
    expect(seat?.spacerHeight.value).toBe(22);
    expect(seat?.spacerHeight.value).toBeLessThan(40 - (seat?.shelfDepth.value ?? 0));
  });

  it('keeps the ledge short of the screw heads only where the shelf goes down beside them', () => {
    const deep: Scenario = {
      ...withSeat(
        { kind: 'shelf' },
        { ...BASE, jaws: buildJaws({ thickness: 25, bolts: { ...bolts, centreHeight: 25 } }) },
      ),
    };
    const { seat } = evaluateScenario({
      ...deep,
      plan: (plan) => {
        const base = deep.plan?.(plan) ?? plan;
        return { ...base, holding: { ...base.holding, shelfDepth: { pinned: 17 }, spacer: { pinned: 6 } } };
      },
    });
    expect(seat?.headFace).toBe(1);
    expect(seat?.reachesHead).toBe(true);
    const shallow = evaluateScenario({ ...BASE, jaws: buildJaws({ thickness: 25, bolts }) }).seat;
    expect(shallow?.ledge.value).toBe(3);
    expect(shallow?.reachesHead).toBe(false);
  });

  it('names through-holes that open over what carries the bar', () => {
    const parts = [
      {
        id: 'arm',
        name: 'Arm',
        length: 100,
        height: 20,
        thickness: 8,
        holes: [buildHole({ id: 'small', x: 20, diameter: 5 }), buildHole({ id: 'large', x: 60, diameter: 7 })],
      },
    ];
    const shelf = evaluateScenario(withSeat({ kind: 'shelf' }, { ...BASE, parts })).seat;
    expect(shelf?.holesOverSupport).toEqual([{ partId: 'arm', holeId: 'large' }]);
    const bed = evaluateScenario(withSeat({ kind: 'bed' }, { ...BASE, parts })).seat;
    expect(bed?.holesOverSupport).toHaveLength(2);
    expect(shelf?.stumpHeight).toBeCloseTo(17 + 3, 9);
  });
});
