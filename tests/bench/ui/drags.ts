import type { Browser, Page } from '@playwright/test';
import { measureDrag, type Place } from './measures';
import type { Frames } from './trace';

/** One thing on the Bench to drag to and fro. */
export interface DragCase {
  readonly name: string;
  readonly feature: string;
  /** What the value beside the pointer says while it is the right thing that is dragged. */
  readonly says: RegExp;
  /** Where in the thing to take hold, 0 to 1; the first place where it is not hidden by another is taken. */
  readonly holds: readonly Place[];
}

export const REACH: Place = { x: 40, y: 0 };
const along = (steps: number): number[] => Array.from({ length: steps }, (_, index) => (index + 0.5) / steps);

export const DRAGS: readonly DragCase[] = [
  { name: 'a vise', feature: 'vise:1', says: /vise 2/u, holds: along(40).map((x) => ({ x, y: 0.92 })) },
  {
    name: 'a part',
    feature: 'part:',
    says: /^Part|Part \d/u,
    holds: [0.6, 0.3, 0.8].flatMap((y) => along(40).map((x) => ({ x, y }))),
  },
  {
    name: 'the bar',
    feature: 'blank:',
    says: /the bar,/u,
    holds: [0.35, 0.9, 0.96, 0.06].flatMap((y) => along(40).map((x) => ({ x, y }))),
  },
  {
    name: 'the section line',
    feature: 'field:sectionX',
    says: /section A/u,
    holds: [0.3, 0.05, 0.95, 0.5].flatMap((y) => along(10).map((x) => ({ x: 1 - x, y }))),
  },
];

/** A point of the screen at which a press takes hold of the thing meant and of nothing else. */
async function findHold(page: Page, { name, feature, says, holds }: DragCase): Promise<Place> {
  const box = await page.locator(`[data-feature^="${feature}"]`).first().boundingBox();
  if (box === null) throw new Error(`${feature} is not on the Bench`);
  for (const hold of holds) {
    const from = { x: box.x + box.width * hold.x, y: box.y + box.height * hold.y };
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x + 8, from.y);
    const said = (await page.locator('.bench-bubble').allTextContents()).join('');
    await page.keyboard.press('Escape');
    await page.mouse.up();
    if (says.test(said)) return from;
  }
  throw new Error(`no place to take hold of ${name}`);
}

/** Drags one thing for a while; the plan is put back afterwards. */
export async function measureBenchDrag(browser: Browser, page: Page, drag: DragCase, forMs: number): Promise<Frames> {
  const from = await findHold(page, drag);
  await page.getByRole('button', { name: 'Fit', exact: true }).click();
  await page.waitForTimeout(400);
  const frames = await measureDrag(browser, page, from, REACH, forMs);
  // The last figures of a large plan come a while after it was let go.
  await page.locator('.bench-bubble').waitFor({ state: 'detached' });
  await page.keyboard.press('Control+z');
  await page.waitForTimeout(300);
  return frames;
}
