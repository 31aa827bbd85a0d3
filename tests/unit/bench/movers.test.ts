import { describe, expect, it } from 'vitest';
import { computeDrag, computeNudge } from '../../../renderer/bench/gestures/drag';
import { getMover } from '../../../renderer/bench/gestures/get-mover';
import type { Mover } from '../../../renderer/bench/gestures/mover';
import { evaluate } from '../../../shared/evaluate';
import { isPinned } from '../../../shared/model/choice';
import { planSchema } from '../../../shared/model/plan-schema';
import { buildSetting, inch, pinHolding, settle, withTabs } from './setting';

const need = <T>(value: T | null | undefined): T => {
  if (value === null || value === undefined) throw new Error('not there');
  return value;
};

const getPartMover = (setting: ReturnType<typeof settle>, index: number): Mover =>
  need(getMover(setting, { kind: 'part', id: need(setting.scene.parts[index]).placed.slotId }));

describe('part along the bar', () => {
  it('pins the layout with the part where it was put and every other part where it was', () => {
    const { plan, setting } = buildSetting();
    const mover = getPartMover(setting, 1);
    const was = setting.scene.parts.map((piece) => piece.placed.x);
    const edited = need(mover.apply)(plan, mover.value + 10);
    const after = settle(edited).scene.parts.map((piece) => piece.placed.x);
    expect(isPinned(plan.layout)).toBe(false);
    expect(isPinned(edited.layout)).toBe(true);
    expect(after[0]).toBeCloseTo(need(was[0]), 9);
    expect(after[1]).toBeCloseTo(need(was[1]) + 10, 9);
  });

  it('keeps slot and blank names when auto becomes pinned, so that the selection stays', () => {
    const { plan, setting } = buildSetting();
    const mover = getPartMover(setting, 1);
    const after = settle(need(mover.apply)(plan, mover.value + 5));
    expect(after.scene.parts.map((piece) => piece.placed.slotId)).toEqual(
      setting.scene.parts.map((piece) => piece.placed.slotId),
    );
    expect(after.scene.blank.templateId).toBe(setting.scene.blank.templateId);
  });

  it('makes as many pieces of every part as before', () => {
    const { plan, shop, setting } = buildSetting();
    const mover = getPartMover(setting, 0);
    const count = (edited: typeof plan): string[] =>
      evaluate(edited, shop).blanks.map((blank) => `${blank.templateId} ${blank.count}`);
    expect(count(need(mover.apply)(plan, mover.value + 1))).toEqual(count(plan));
  });

  it('moves several selected parts by the same distance', () => {
    const { plan, setting } = buildSetting();
    const [first, second] = setting.scene.parts.map((piece) => ({ kind: 'part' as const, id: piece.placed.slotId }));
    const mover = need(getMover(setting, need(first), [need(first), need(second)]));
    const after = settle(need(mover.apply)(plan, mover.value + 7));
    const moved = after.scene.parts.map((piece, at) => piece.placed.x - need(setting.scene.parts[at]).placed.x);
    expect(moved.map((by) => Number(by.toFixed(6)))).toEqual([7, 7]);
  });

  it('shows an absurd place as what it is, in a plan that can still be saved', () => {
    const { plan, setting } = buildSetting();
    const mover = getPartMover(setting, 1);
    const edited = need(mover.apply)(plan, -500);
    expect(planSchema.safeParse(edited).success).toBe(true);
    expect(settle(edited).scene.parts.some((piece) => piece.placed.clash !== '')).toBe(true);
  });

  it('rests where the cutter has just room beside the neighbour', () => {
    const { setting } = buildSetting();
    const mover = getPartMover(setting, 1);
    const tight = mover.value;
    const snapped = computeDrag(mover, { from: 0, to: 0.4, units: 'in', pxPerMm: 2, suspended: false });
    expect(snapped.value).toBeCloseTo(tight, 9);
    expect(snapped.line?.label).toMatch(/^room for the cutter after /u);
  });
});

describe('vise along the table', () => {
  it('pins every centre and leaves the other vises where they were', () => {
    const { plan, setting } = buildSetting(pinHolding);
    const mover = need(getMover(setting, { kind: 'vise', id: '1' }));
    const edited = need(mover.apply)(plan, 10 * inch);
    expect(edited.holding.vises).toEqual({ pinned: [3 * inch, 10 * inch, 15 * inch] });
  });

  it('numbers the vises from the left again when one is carried past another', () => {
    const { plan, setting } = buildSetting(pinHolding);
    const mover = need(getMover(setting, { kind: 'vise', id: '0' }));
    const edited = need(mover.apply)(plan, 12 * inch);
    expect(edited.holding.vises).toEqual({ pinned: [9 * inch, 12 * inch, 15 * inch] });
    expect(need(mover.getMoved)(12 * inch)).toEqual([{ kind: 'vise', id: '1' }]);
  });

  it('rests with its jaw edge on the end of the bar', () => {
    const { setting } = buildSetting(pinHolding);
    const mover = need(getMover(setting, { kind: 'vise', id: '2' }));
    const half = setting.scene.vise.jawWidth / 2;
    const wanted = setting.scene.blank.xEnd - half;
    const by = wanted - mover.value;
    const snapped = computeDrag(mover, { from: 0, to: by + 0.5, units: 'in', pxPerMm: 2, suspended: false });
    expect(snapped.value).toBeCloseTo(wanted, 9);
    expect(`${snapped.anchorLabel} on ${snapped.line?.label}`).toBe('right jaw edge on right end of the bar');
  });

  it('stands body to body with the least gap of the shop between', () => {
    const { setting } = buildSetting(pinHolding);
    const mover = need(getMover(setting, { kind: 'vise', id: '1' }));
    const { vise, shop } = setting.scene;
    const wanted = 3 * inch + vise.bodyLength + shop.rules.viseGap;
    const snapped = computeDrag(mover, {
      from: mover.value,
      to: wanted + 0.2,
      units: 'in',
      pxPerMm: 2,
      suspended: false,
    });
    expect(snapped.value).toBeCloseTo(wanted, 9);
  });

  it('is not drawn to anything while Alt is held', () => {
    const { setting } = buildSetting(pinHolding);
    const mover = need(getMover(setting, { kind: 'vise', id: '2' }));
    const half = setting.scene.vise.jawWidth / 2;
    const to = setting.scene.blank.xEnd - half + 0.5 - mover.value;
    const snapped = computeDrag(mover, { from: 0, to, units: 'in', pxPerMm: 2, suspended: true });
    expect(snapped.line).toBeNull();
    expect(snapped.value).toBeCloseTo(Math.round((mover.value + to) / (0.001 * inch)) * 0.001 * inch, 9);
  });
});

describe('bar against its stop', () => {
  it('pins its place, and rests on the stop', () => {
    const { plan, setting } = buildSetting(pinHolding);
    const mover = need(getMover(setting, { kind: 'blank', id: setting.scene.blank.templateId }));
    expect(need(mover.apply)(plan, 12).holding.blankX).toEqual({ pinned: 12 });
    const back = need(getMover(settle(need(mover.apply)(plan, 12)), { kind: 'blank', id: '' }));
    expect(computeDrag(back, { from: 0, to: -11, units: 'in', pxPerMm: 2, suspended: false })).toMatchObject({
      value: 0,
      line: { label: 'work stop' },
    });
  });
});

describe('shelf and cut-off in height', () => {
  it('deepens the shelf when it is dragged down, and the bar sits that much lower', () => {
    const { plan, setting } = buildSetting(pinHolding);
    const mover = need(getMover(setting, { kind: 'stack', id: 'grip' }));
    expect(mover.axis).toBe('Z');
    const { value } = computeDrag(mover, { from: 0, to: -2, units: 'in', pxPerMm: 8, suspended: true });
    expect(value).toBeGreaterThan(mover.value);
    const after = settle(need(mover.apply)(plan, value));
    expect(after.scene.seat.shelfDepth.value).toBeCloseTo(value, 9);
    expect(after.scene.blank.stack.grip.nominal).toBeCloseTo(value, 9);
  });

  it('never makes a shelf shallower than the jaw tops', () => {
    const { plan, setting } = buildSetting(pinHolding);
    const mover = need(getMover(setting, { kind: 'seat', id: 'shelf' }));
    const { value } = computeDrag(mover, { from: 0, to: 400, units: 'in', pxPerMm: 2, suspended: false });
    expect(value).toBe(0);
    expect(planSchema.safeParse(need(mover.apply)(plan, -5)).success).toBe(true);
  });

  it('has no shelf to move where the bar stands on parallels', () => {
    const { setting } = buildSetting();
    expect(setting.scene.seat.choice.value.kind).toBe('parallels');
    expect(getMover(setting, { kind: 'seat', id: 'parallels' })).toBeNull();
  });

  it('lifts the cut-off with the kerf', () => {
    const { plan, setting } = buildSetting();
    const mover = need(getMover(setting, { kind: 'stack', id: 'kerf' }));
    expect(need(mover.apply)(plan, 3).release.clearance).toEqual({ pinned: 3 });
    expect(need(mover.release)(need(mover.apply)(plan, 3)).release.clearance).toBe('auto');
  });
});

describe('tab along its part', () => {
  it('pins the tabs of that part alone, with one moved', () => {
    const { plan, setting } = buildSetting(withTabs);
    const piece = need(setting.scene.parts[0]);
    const tabs = need(piece.rib).tabs;
    expect(tabs.length).toBeGreaterThan(1);
    const mover = need(getMover(setting, { kind: 'tab', id: `${piece.placed.slotId}:0` }));
    const edited = need(mover.apply)(plan, need(tabs[0]).x + 4);
    const after = need(need(settle(edited).scene.parts[0]).rib).tabs;
    expect(after.map((tab) => Number(tab.x.toFixed(6)))).toEqual(
      tabs.map((tab, at) => Number((tab.x + (at === 0 ? 4 : 0)).toFixed(6))),
    );
    expect(need(mover.release)(edited).release.tabs).toBe('auto');
  });

  it('follows the pointer on a part that is turned end for end', () => {
    const { plan, setting } = buildSetting(withTabs);
    const part = getPartMover(setting, 0);
    const pinned = need(part.apply)(plan, part.value);
    if (!isPinned(pinned.layout)) throw new Error('not pinned');
    const turned = {
      ...pinned,
      layout: {
        pinned: pinned.layout.pinned.map((blank) => ({
          ...blank,
          slots: blank.slots.map((slot) => ({ ...slot, mirrored: true })),
        })),
      },
    };
    const after = settle(turned);
    const mover = need(getMover(after, { kind: 'tab', id: `${need(after.scene.parts[0]).placed.slotId}:0` }));
    const { value } = computeDrag(mover, { from: 0, to: 10, units: 'mm', pxPerMm: 2, suspended: true });
    expect(value).toBeCloseTo(mover.value - 10, 1);
    expect(mover.sign).toBe(-1);
  });
});

describe('arrow keys', () => {
  it('move a thing the way the arrow points, whichever way its number runs', () => {
    const { setting } = buildSetting(pinHolding);
    const shelf = need(getMover(setting, { kind: 'seat', id: 'shelf' }));
    const vise = need(getMover(setting, { kind: 'vise', id: '0' }));
    expect(computeNudge(shelf, -1, 1)).toBeCloseTo(shelf.value + 1, 9);
    expect(computeNudge(vise, 1, 1.27)).toBeCloseTo(vise.value + 1.27, 9);
  });

  it('stop at the least value', () => {
    const { setting } = buildSetting(pinHolding);
    const shelf = need(getMover(setting, { kind: 'seat', id: 'shelf' }));
    expect(computeNudge(shelf, 1, 1000)).toBe(0);
  });
});

describe('section line', () => {
  it('is moved without touching the plan', () => {
    const { setting } = buildSetting();
    const mover = need(getMover(setting, { kind: 'field', id: 'sectionX' }));
    expect(mover.apply).toBeNull();
    expect(mover.value).toBe(40);
  });
});
