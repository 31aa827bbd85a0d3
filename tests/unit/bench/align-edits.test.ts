import { describe, expect, it } from 'vitest';
import {
  applyBarAt,
  applyBarOverVises,
  applyPartsAt,
  applyVisesUnderBar,
} from '../../../renderer/bench/gestures/align-edits';
import { applyOtherHand } from '../../../renderer/bench/gestures/part-edits';
import { getPartMover } from '../../../renderer/bench/gestures/part-mover';
import { getPinned } from '../../../shared/model/choice';
import { planSchema } from '../../../shared/model/plan-schema';
import { buildSetting, inch, pinHolding, settle } from './setting';

const { plan, setting } = buildSetting(pinHolding);
const { scene } = setting;
const [first, second] = scene.parts;
if (first === undefined || second === undefined) throw new Error('two parts are needed');
const both = new Set([first.placed.slotId, second.placed.slotId]);
/** A blank longer than what is on it, so that there is room to align. */
const long = {
  ...plan,
  layout: {
    pinned: scene.evaluation.blanks.map((blank) => ({
      id: blank.templateId,
      length: { pinned: blank.length + 100 },
      count: { pinned: blank.count },
      slots: blank.parts.map(({ slotId, partId, x, mirrored }) => ({ id: slotId, partId, x, mirrored })),
    })),
  },
};
const roomy = settle(long).scene;

describe('parts on their bar', () => {
  it.each(['leftEnd', 'middle', 'rightEnd'] as const)('keep their distances when they go to the %s', (place) => {
    const moved = settle(applyPartsAt(long, roomy, both, place)).scene;
    const [one, other] = moved.parts;
    if (one === undefined || other === undefined) throw new Error('parts were lost');
    expect(other.placed.x - one.placed.x).toBeCloseTo(second.placed.x - first.placed.x, 6);
    const left = one.placed.x;
    const right = moved.blank.length - other.placed.xEnd;
    if (place === 'middle') expect(left).toBeCloseTo(right, 6);
    if (place === 'leftEnd') expect(left).toBeCloseTo(scene.parts[0]?.placed.x ?? Number.NaN, 6);
    if (place === 'rightEnd') expect(right).toBeCloseTo(scene.blank.length - second.placed.xEnd, 6);
    expect(moved.parts.map(({ placed }) => placed.clash)).toEqual(['', '']);
  });

  it('come to rest with their middle on the middle of the bar, and halfway between two others', () => {
    const mover = getPartMover({ scene: roomy, blankIndex: 0, sectionX: 0 }, [first.placed.slotId]);
    expect(mover?.snapLines).toContainEqual({
      at: (roomy.blank.x + roomy.blank.xEnd) / 2,
      label: 'middle of the bar',
    });
    const three = applyOtherHand(plan, scene, first.placed.slotId);
    const added = settle(three.plan);
    const between = getPartMover(added, three.ids)?.snapLines.find(({ label }) => label.startsWith('halfway'));
    expect(between?.at).toBeCloseTo((first.right + second.left) / 2, 6);
    expect(between?.meets).toBe('middle');
  });
});

describe('the bar and its vises', () => {
  it('centres the vises under the bar, and the bar over the vises, to the same overhangs', () => {
    const chosen = new Set([0, 1, 2]);
    const centred = settle(applyVisesUnderBar(plan, scene, chosen)).scene;
    const half = scene.vise.jawWidth / 2;
    const getOverhangs = ({ blank, vises }: typeof scene): [number, number] => [
      Math.min(...vises.centres.value) - half - blank.x,
      blank.xEnd - Math.max(...vises.centres.value) - half,
    ];
    const [left, right] = getOverhangs(centred);
    expect(left).toBeCloseTo(right, 6);
    const [own, other] = getOverhangs(settle(applyBarOverVises(plan, scene)).scene);
    expect(own).toBeCloseTo(other, 6);
    expect(own).toBeCloseTo(left, 6);
  });

  it('pushes the bar against the stop', () => {
    const off = settle(applyBarAt(plan, 2 * inch)).scene;
    expect(off.blank.x).toBeCloseTo(2 * inch, 9);
    expect(settle(applyBarAt(off.plan, 0)).scene.blank.x).toBe(0);
  });
});

describe('the other hand of a part', () => {
  const added = applyOtherHand(plan, scene, first.placed.slotId);
  const handed = added.plan.parts.filter((part) => part.name === first.part.name);

  it('makes a pair: the part becomes the left one, its mirror image the right one', () => {
    expect(handed.map(({ hand }) => hand)).toEqual(['left', 'right']);
    const [left, right] = handed;
    expect(right?.holes.map(({ x }) => x)).toEqual(left?.holes.map(({ x }) => left.length - x));
    expect(planSchema.safeParse(added.plan).success).toBe(true);
  });

  it('lies on the bar after the others and clashes with nothing', () => {
    const after = settle(added.plan).scene;
    expect(after.parts.map(({ placed }) => placed.slotId)).toEqual([...both, ...added.ids]);
    expect(after.parts.at(-1)?.part.hand).toBe('right');
    expect(after.parts.map(({ placed }) => placed.clash)).toEqual(['', '', '']);
  });

  it('is found again the second time: the plan has one part of each hand', () => {
    const again = applyOtherHand(added.plan, settle(added.plan).scene, first.placed.slotId);
    expect(again.plan.parts).toHaveLength(added.plan.parts.length);
    const slots = getPinned(again.plan.layout)?.[0]?.slots ?? [];
    expect(slots.slice(-2).map(({ partId }) => partId)).toEqual([handed[1]?.id, handed[1]?.id]);
  });
});
