import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, type Locator, type Page } from '@playwright/test';
import type { Plan } from '../../../shared/model/plan';
import { parseLength } from '../../../shared/units/parse-length';
import { getSample, type Planner } from './planner';

export const inch = 25.4;

/** Vises pinned and the bar at the stop, so that nothing but the gesture moves. */
export const pinVises = (plan: Plan): Plan => ({
  ...plan,
  holding: {
    ...plan.holding,
    vises: { pinned: [3.5 * inch, 12 * inch, 20.5 * inch] },
    blankX: { pinned: 0 },
  },
});

/** Opens the hoist sample with what a test needs changed. */
export async function openChanged(planner: Planner, change: (plan: Plan) => Plan = (plan) => plan): Promise<Page> {
  const sample = JSON.parse(readFileSync(getSample('hoist-arms'), 'utf8')) as Plan;
  const path = join(planner.home, 'hoist.kgplan');
  writeFileSync(path, JSON.stringify(change(sample)));
  const page = await planner.open(path);
  await expect(page.locator('.bench-feature').first()).toBeAttached();
  return page;
}

/** The button that lies over a thing on the canvas: `vise:1`, or the start of an id. */
export function getFeature(page: Page, feature: string): Locator {
  return page.locator(`[data-feature^="${feature}"]`).first();
}

/** The number of a thing, in mm, as the list beside the canvas says it. */
export async function readPlace(thing: Locator): Promise<number> {
  const label = (await thing.getAttribute('aria-label')) ?? '';
  const text = /, (-?[\d.]+ (?:in|mm)) /u.exec(label)?.[1];
  const parsed = text === undefined ? null : parseLength(text, 'in', { allowNegative: true });
  if (parsed?.ok !== true) throw new Error(`no length in "${label}"`);
  return parsed.mm;
}

export interface DragOptions {
  /** Where in the thing to take hold, 0 to 1 of its width and height. */
  readonly hold?: { readonly x: number; readonly y: number };
  /** Hold Alt: no snapping. */
  readonly free?: boolean;
  /** Leave the button down. */
  readonly keep?: boolean;
}

/** Drags a thing on the canvas by px of the screen, as a hand does: in steps, a frame each. */
export async function dragBy(page: Page, thing: Locator, dx: number, dy: number, options: DragOptions = {}) {
  const box = await thing.boundingBox();
  if (box === null) throw new Error('the thing is not on the canvas');
  const { x, y } = options.hold ?? { x: 0.5, y: 0.5 };
  const from = { x: box.x + box.width * x, y: box.y + box.height * y };
  await page.mouse.move(from.x, from.y);
  if (options.free) await page.keyboard.down('Alt');
  await page.mouse.down();
  const steps = 12;
  for (let step = 1; step <= steps; step += 1) {
    await page.mouse.move(from.x + (dx * step) / steps, from.y + (dy * step) / steps);
  }
  if (options.keep) return;
  await page.mouse.up();
  if (options.free) await page.keyboard.up('Alt');
  await expect(page.locator('.bench-bubble')).toHaveCount(0);
}

/** px of the elevation to a mm, from two vises whose places are known. */
export async function readScale(page: Page): Promise<number> {
  const [first, second] = [getFeature(page, 'vise:0'), getFeature(page, 'vise:1')];
  const [one, other] = [await first.boundingBox(), await second.boundingBox()];
  if (one === null || other === null) throw new Error('two vises are needed');
  return (other.x + other.width / 2 - one.x - one.width / 2) / ((await readPlace(second)) - (await readPlace(first)));
}

/** The name of the step that undo would take back, '' when there is none. */
export async function readUndo(page: Page): Promise<string> {
  const button = page.getByRole('button', { name: /^Undo/u });
  if (await button.isDisabled()) return '';
  return ((await button.getAttribute('aria-label')) ?? '').replace(/^Undo:? ?/u, '');
}
