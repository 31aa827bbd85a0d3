import { describe, expect, it } from 'vitest';
import { getAtPath, removePart, setAtPath } from '../../../shared/model/edit';
import type { Plan } from '../../../shared/model/plan';
import { buildTestPlan } from './build-plan';

describe('setAtPath', () => {
  it('replaces one value and shares the rest', () => {
    const plan = buildTestPlan();
    const edited = setAtPath(plan, ['parts', 1, 'length'], 200);
    expect(edited.parts[1]?.length).toBe(200);
    expect(plan.parts[1]?.length).toBe(184.15);
    expect(edited.parts[0]).toBe(plan.parts[0]);
    expect(edited.holding).toBe(plan.holding);
  });

  it('works on a frozen plan', () => {
    const plan = Object.freeze(buildTestPlan());
    expect(setAtPath(plan, ['name'], 'Hoist').name).toBe('Hoist');
  });

  it('appends at the end of a list', () => {
    const plan = buildTestPlan();
    const part = { ...plan.parts[0], id: 'part-3' };
    expect(setAtPath(plan, ['parts', 2], part).parts.map(({ id }) => id)).toEqual(['part-1', 'part-2', 'part-3']);
  });

  it('replaces everything by an empty path', () => {
    expect(setAtPath({ a: 1 }, [], { a: 2 })).toEqual({ a: 2 });
  });

  it.each([
    [['parts', 3]],
    [['parts', -1]],
    [['parts', 0.5]],
    [['parts', '0', 'length']],
    [['parts', 2, 'length']],
    [['nothing', 'here']],
    [['holding', 'clamp', 'kind', 'deeper']],
    [['__proto__', 'polluted']],
    [['constructor', 'prototype', 'polluted']],
  ])('refuses %j, which leads nowhere', (path) => {
    expect(() => setAtPath(buildTestPlan(), path, 1)).toThrow(RangeError);
  });

  it('reads back what it set', () => {
    const plan = setAtPath(buildTestPlan(), ['holding', 'shelfDepth'], { pinned: 7 });
    expect(getAtPath(plan, ['holding', 'shelfDepth', 'pinned'])).toBe(7);
    expect(getAtPath(plan, ['holding', 'toString'])).toBeUndefined();
  });
});

describe('removePart', () => {
  const plan: Plan = {
    ...buildTestPlan(),
    layout: {
      pinned: [
        {
          id: 'blank-1',
          length: 'auto',
          count: 'auto',
          slots: [{ id: 'slot-1', partId: 'part-1', x: 1, mirrored: false }],
        },
        {
          id: 'blank-2',
          length: 'auto',
          count: 'auto',
          slots: [{ id: 'slot-1', partId: 'part-2', x: 1, mirrored: false }],
        },
      ],
    },
    release: { ...buildTestPlan().release, tabs: { pinned: [{ partId: 'part-1', x: 20 }] } },
  };

  it('takes its places, its tabs and the blanks left empty with it', () => {
    const rest = removePart(plan, 'part-1');
    expect(rest.parts.map(({ id }) => id)).toEqual(['part-2']);
    expect(rest.layout === 'auto' || rest.layout.pinned.map(({ id }) => id)).toEqual(['blank-2']);
    expect(rest.release.tabs).toEqual({ pinned: [] });
  });

  it('leaves the layout to the engine when no blank is left', () => {
    expect(removePart(removePart(plan, 'part-1'), 'part-2').layout).toBe('auto');
  });
});
