import { describe, expect, it } from 'vitest';
import {
  applyEvenSpacing,
  applyMirror,
  applyPaste,
  applyRemoval,
  applyTightSpacing,
  getCopy,
} from '../../../renderer/bench/gestures/part-edits';
import { applyEvenVises, applyFewerVises, applyOneMoreVise } from '../../../renderer/bench/gestures/vise-edits';
import { isPinned } from '../../../shared/model/choice';
import { planSchema } from '../../../shared/model/plan-schema';
import { buildSetting, inch, pinHolding, settle } from './setting';

const getSlots = (setting: ReturnType<typeof settle>): string[] =>
  setting.scene.parts.map((piece) => piece.placed.slotId);

describe('parts of a blank', () => {
  it('are taken off; a blank with none left goes', () => {
    const { plan, setting } = buildSetting();
    const slots = getSlots(setting);
    const one = applyRemoval(plan, setting.scene, new Set(slots.slice(0, 1)));
    expect(getSlots(settle(one))).toEqual(slots.slice(1));
    const none = applyRemoval(plan, setting.scene, new Set(slots));
    expect(isPinned(none.layout) && none.layout.pinned.map((blank) => blank.id)).toEqual(
      setting.scene.evaluation.blanks.slice(1).map((blank) => blank.templateId),
    );
  });

  it('are turned end for end in their places', () => {
    const { plan, setting } = buildSetting();
    const [first = ''] = getSlots(setting);
    const { parts } = settle(applyMirror(plan, setting.scene, new Set([first]))).scene;
    expect(parts.map((piece) => piece.placed.mirrored)).toEqual([true, false]);
    expect(parts[0]?.placed.x).toBeCloseTo(setting.scene.parts[0]?.placed.x ?? Number.NaN, 9);
  });

  it('are pasted after the last one with room for the cutter, and clash with nothing', () => {
    const { plan, setting } = buildSetting();
    const copied = getCopy(setting.scene, new Set(getSlots(setting)));
    const pasted = applyPaste(plan, setting.scene, copied);
    const after = settle(pasted.plan);
    expect(pasted.ids).toHaveLength(2);
    expect(getSlots(after)).toEqual([...getSlots(setting), ...pasted.ids]);
    expect(after.scene.parts.map((piece) => piece.placed.clash)).toEqual(['', '', '', '']);
    expect(planSchema.safeParse(pasted.plan).success).toBe(true);
  });

  it('are set tight from the first, as the engine sets them', () => {
    const { plan, setting } = buildSetting();
    const [first, second] = setting.scene.parts;
    if (first === undefined || second === undefined) throw new Error('two parts are needed');
    const pulledApart = settle(
      applyTightSpacing(
        { ...plan, layout: { pinned: spread(setting) } },
        settle({ ...plan, layout: { pinned: spread(setting) } }).scene,
        new Set(getSlots(setting)),
      ),
    );
    const places = pulledApart.scene.parts.map((piece) => piece.placed.x);
    expect(places[0]).toBeCloseTo(first.placed.x, 9);
    expect(places[1]).toBeCloseTo(second.placed.x, 6);
  });

  it('are spaced evenly between the first and the last', () => {
    const { plan, setting } = buildSetting();
    const pasted = applyPaste(plan, setting.scene, getCopy(setting.scene, new Set(getSlots(setting).slice(0, 1))));
    const three = settle(pasted.plan);
    const [, middle = ''] = getSlots(three);
    const moved = applyRemovalShift(pasted.plan, middle, 30);
    const even = settle(applyEvenSpacing(moved, settle(moved).scene, new Set(getSlots(settle(moved)))));
    const gaps = even.scene.parts
      .slice(1)
      .map((piece, at) => piece.placed.x - (even.scene.parts[at]?.placed.xEnd ?? Number.NaN));
    expect(gaps[0]).toBeCloseTo(gaps[1] ?? Number.NaN, 6);
  });

  function spread(setting: ReturnType<typeof settle>) {
    return setting.scene.evaluation.blanks.map((blank) => ({
      id: blank.templateId,
      length: 'auto' as const,
      count: 'auto' as const,
      slots: blank.parts.map((placed, at) => ({
        id: placed.slotId,
        partId: placed.partId,
        x: placed.x + at * 40,
        mirrored: false,
      })),
    }));
  }

  function applyRemovalShift(plan: ReturnType<typeof buildSetting>['plan'], slotId: string, by: number) {
    if (!isPinned(plan.layout)) throw new Error('not pinned');
    const pinned = plan.layout.pinned.map((blank) => ({
      ...blank,
      slots: blank.slots.map((slot) => (slot.id === slotId ? { ...slot, x: slot.x + by } : slot)),
    }));
    return { ...plan, layout: { pinned } };
  }
});

describe('vises in a row', () => {
  it('are set at equal distances between the first and the last', () => {
    const { plan, setting } = buildSetting((start) => {
      const pinned = pinHolding(start);
      return { ...pinned, holding: { ...pinned.holding, vises: { pinned: [0, 2 * inch, 12 * inch] } } };
    });
    const row = applyEvenVises(plan, setting.scene, new Set([1])).holding.vises;
    expect(isPinned(row) && row.pinned.map((x) => Number(x.toFixed(4)))).toEqual([0, 152.4, 304.8]);
  });

  it('are taken away, but never the last one', () => {
    const { plan, setting } = buildSetting(pinHolding);
    expect(applyFewerVises(plan, setting.scene, new Set([1])).holding.vises).toEqual({
      pinned: [3 * inch, 15 * inch],
    });
    expect(applyFewerVises(plan, setting.scene, new Set([0, 1, 2]))).toBe(plan);
  });

  it('get one more beside the last', () => {
    const { plan, setting } = buildSetting(pinHolding);
    const row = applyOneMoreVise(plan, setting.scene).holding.vises;
    const pitch = setting.scene.vise.bodyLength + setting.scene.shop.rules.viseGap;
    expect(isPinned(row) && row.pinned.at(-1)).toBeCloseTo(15 * inch + pitch, 9);
  });
});
