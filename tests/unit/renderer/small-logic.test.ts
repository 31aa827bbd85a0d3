import { describe, expect, test, vi } from 'vitest';
import { formatShortcut, isShortcut, type KeyPress } from '../../../renderer/state/actions';
import { APP_ACTIONS } from '../../../renderer/state/app-actions';
import { createDialogs } from '../../../renderer/state/dialogs';
import { createEvaluator, EMPTY_EVALUATION } from '../../../renderer/state/evaluator';
import { getAcceptance } from '../../../renderer/state/findings';
import { buildHttpHost } from '../../../renderer/state/host';
import { addPart, copyPart, mirrorPart } from '../../../renderer/state/part-edits';
import { buildHole, buildPart, buildStation } from '../../../shared/model/build-part';
import { partSchema } from '../../../shared/model/plan-schema';
import { buildSmallPlan, shop } from './small-plan';

const press = (key: string, ...held: ('ctrl' | 'meta' | 'alt' | 'shift')[]): KeyPress => ({
  key,
  ctrlKey: held.includes('ctrl'),
  metaKey: held.includes('meta'),
  altKey: held.includes('alt'),
  shiftKey: held.includes('shift'),
});

describe('a shortcut', () => {
  test('takes Ctrl, or Cmd on a Mac, and nothing more or less', () => {
    expect(isShortcut(press('s', 'ctrl'), 'Mod+S', false)).toBe(true);
    expect(isShortcut(press('s', 'meta'), 'Mod+S', true)).toBe(true);
    expect(isShortcut(press('s', 'ctrl'), 'Mod+S', true)).toBe(false);
    expect(isShortcut(press('S', 'ctrl', 'shift'), 'Mod+S', false)).toBe(false);
    expect(isShortcut(press('Z', 'ctrl', 'shift'), 'Mod+Shift+Z', false)).toBe(true);
  });

  test('is written as on the keyboard', () => {
    expect(formatShortcut('Mod+Shift+Z', false)).toBe('Ctrl+Shift+Z');
    expect(formatShortcut('Mod+Shift+Z', true)).toBe('⌘⇧Z');
  });

  test('belongs to one action only', () => {
    const all = APP_ACTIONS.flatMap((action) => action.shortcuts ?? []);
    expect(new Set(all).size).toBe(all.length);
    expect(new Set(APP_ACTIONS.map(({ id }) => id)).size).toBe(APP_ACTIONS.length);
  });
});

describe('the evaluator', () => {
  test('computes once for a plan and a shop', () => {
    const evaluate = vi.fn(() => EMPTY_EVALUATION);
    const get = createEvaluator(evaluate, EMPTY_EVALUATION);
    const plan = buildSmallPlan();
    get(plan, shop);
    get(plan, shop);
    expect(evaluate).toHaveBeenCalledTimes(1);
    get({ ...plan, sheet: { ...plan.sheet, paper: { pinned: 'a3' } } }, shop);
    expect(evaluate).toHaveBeenCalledTimes(1);
    get({ ...plan, order: { ...plan.order } }, shop);
    expect(evaluate).toHaveBeenCalledTimes(2);
  });

  test('keeps the last good figures when the engine fails, and says so', () => {
    const good = { ...EMPTY_EVALUATION, governingBlank: 7 };
    const get = createEvaluator((plan) => {
      if (plan.name === 'bad') throw new Error('divided by nothing');
      return good;
    }, EMPTY_EVALUATION);
    get(buildSmallPlan(), shop);
    const result = get({ ...buildSmallPlan(), name: 'bad' }, shop);
    expect(result).toEqual({ evaluation: good, fault: 'divided by nothing' });
  });
});

describe('parts', () => {
  test('get ids that no other has, also after one was removed', () => {
    const first = addPart(buildSmallPlan());
    const second = addPart(first.plan);
    const removed = { ...second.plan, parts: second.plan.parts.filter(({ id }) => id !== first.id) };
    const third = addPart(removed);
    expect(new Set(third.plan.parts.map(({ id }) => id)).size).toBe(third.plan.parts.length);
  });

  test('are copied after the one they are a copy of', () => {
    const { plan, id } = copyPart(addPart(buildSmallPlan()).plan, 'part-1');
    expect(plan.parts[1]).toMatchObject({ id, name: 'Pawl arm copy', length: 184.15 });
  });

  test('turned to the other hand twice are as they were', () => {
    const part = buildPart({
      id: 'p',
      name: 'lever',
      length: 100,
      height: 20,
      thickness: 10,
      hand: 'left',
      stations: [
        buildStation({ from: 0, to: 20, width: 10 }),
        buildStation({ kind: 'taper', from: 20, to: 40, width: 10, widthEnd: 6 }),
      ],
      holes: [buildHole({ id: 'hole-1', x: 10, diameter: 5 })],
      keepOuts: [{ from: 0, to: 15 }],
    });
    const turned = mirrorPart(part);
    expect(turned).toMatchObject({ hand: 'right', keepOuts: [{ from: 85, to: 100 }] });
    expect(turned.stations[0]).toMatchObject({ from: 60, to: 80, width: 6, widthEnd: 10 });
    expect(turned.holes[0]?.x).toBe(90);
    expect(mirrorPart(turned)).toEqual(part);
  });

  test('turned end for end, what reaches past its end is cut off there, so that the plan can still be saved', () => {
    const part = buildPart({
      id: 'p',
      name: 'Arm',
      length: 100,
      height: 20,
      thickness: 10,
      stations: [buildStation({ kind: 'boss', from: 80, to: 120, width: 10, widthEnd: 10 })],
      keepOuts: [{ from: 110, to: 130 }],
    });
    const turned = mirrorPart(part);
    expect(turned.stations[0]).toMatchObject({ from: 0, to: 20 });
    expect(partSchema.safeParse(turned).success).toBe(true);
  });
});

test('a finding accepted again is kept once, in its newest words', () => {
  const finding = { key: 'grip-close', sentence: 'Grip is 0.3.' } as Parameters<typeof getAcceptance>[1];
  const once = getAcceptance(buildSmallPlan(), finding, 'A', '2025-06-30');
  const twice = getAcceptance(once, { ...finding, sentence: 'Grip is 0.31.' }, 'B', '2025-07-01');
  expect(twice.accepted).toEqual([{ code: 'grip-close', by: 'B', date: '2025-07-01', sentence: 'Grip is 0.31.' }]);
});

test('a second question answers the first as Escape would', async () => {
  const dialogs = createDialogs();
  const first = dialogs.ask('unsaved', { planName: 'A', about: '' });
  const second = dialogs.ask('acceptFinding', { sentence: 's' });
  expect(await first).toBe('cancel');
  const open = dialogs.store.getState().open;
  expect(open?.kind).toBe('acceptFinding');
  if (open?.kind === 'acceptFinding') open.answer('me');
  expect(await second).toBe('me');
  expect(dialogs.store.getState().open).toBeNull();
});

describe('the host over HTTP', () => {
  test('posts the request as JSON and hands back the reply', async () => {
    const fetch = vi.fn(async (_path: string, _init: RequestInit) => Response.json({ ok: true, value: [] }));
    const host = buildHttpHost(fetch, 'page-1');
    expect(await host.call('recents', {})).toEqual({ ok: true, value: [] });
    const [path, init] = fetch.mock.calls[0] ?? [];
    expect(path).toMatch(/call\/recents$/);
    expect(init).toMatchObject({ body: '{}', headers: { 'x-kerfgrip-page': 'page-1' } });
  });

  test.each([
    ['a service that is gone', async () => Promise.reject(new TypeError('fetch failed')), 'host-gone'],
    ['an answer that is not JSON', async () => new Response('<html>', { status: 502 }), 'host-answer'],
    ['JSON that is no reply', async () => Response.json({ yes: 1 }), 'host-answer'],
  ])('%s is a problem in words, never an exception', async (_name, fetch, code) => {
    expect(await buildHttpHost(fetch, 'page-1').call('recents', {})).toMatchObject({ ok: false, problem: { code } });
  });
});
