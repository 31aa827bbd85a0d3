import type { Browser, Locator, Page } from '@playwright/test';
import { measureDrag, type Place } from './measures';
import type { Frames } from './trace';

/** One thing on the Bench to drag to and fro. */
export interface DragCase {
  readonly name: string;
  /** What the value beside the pointer says while it is the right thing that is dragged. */
  readonly says: RegExp;
  /** Brings it to where a pointer can take hold of it: on a long bar a thin thing is hardly seen between its neighbours. */
  readonly prepare?: (page: Page) => Promise<void>;
  /** Places of the screen to take hold of it; the first where it is not hidden by another is taken. */
  readonly findHolds: (page: Page) => Promise<Place[]>;
}

export const REACH: Place = { x: 40, y: 0 };

const along = (steps: number): number[] => Array.from({ length: steps }, (_, index) => (index + 0.5) / steps);

const getFeatures = (page: Page, feature: string): Locator => page.locator(`[data-feature^="${feature}"]`);

/** Places in the box of a thing, from shares of its width and height. */
async function getHolds(page: Page, feature: string, shares: readonly Place[]): Promise<Place[]> {
  const box = await getFeatures(page, feature).first().boundingBox();
  if (box === null) throw new Error(`${feature} is not on the Bench`);
  return shares.map(({ x, y }) => ({ x: box.x + box.width * x, y: box.y + box.height * y }));
}

/** Between two vises the gripped side of the bar is seen, between two parts the bar itself. */
async function getGaps(page: Page): Promise<Place[]> {
  const bar = await getFeatures(page, 'blank:').first().boundingBox();
  if (bar === null) throw new Error('the bar is not on the Bench');
  const getMiddles = async (feature: string): Promise<number[]> => {
    const boxes = await Promise.all((await getFeatures(page, feature).all()).map((one) => one.boundingBox()));
    const row = boxes.flatMap((box) => (box === null ? [] : [box])).toSorted((a, b) => a.x - b.x);
    return row.slice(1).map((right, index) => {
      const left = row[index] ?? right;
      return (left.x + left.width + right.x) / 2;
    });
  };
  return [
    ...(await getMiddles('vise:')).map((x) => ({ x, y: bar.y + bar.height * 0.9 })),
    ...(await getMiddles('part:')).map((x) => ({ x, y: bar.y + bar.height * 0.35 })),
  ];
}

async function zoomIn(page: Page): Promise<void> {
  for (let step = 0; step < 6; step += 1) await page.getByRole('button', { name: 'Zoom in' }).click();
}

async function takeSectionThroughVise(page: Page): Promise<void> {
  await getFeatures(page, 'vise:1').first().focus();
  await page.keyboard.press('s');
}

export const DRAGS: readonly DragCase[] = [
  {
    name: 'a vise',
    says: /vise 2/u,
    findHolds: (page) =>
      getHolds(
        page,
        'vise:1',
        along(40).map((x) => ({ x, y: 0.92 })),
      ),
  },
  {
    name: 'a part',
    says: /^Part|Part \d/u,
    findHolds: (page) =>
      getHolds(
        page,
        'part:',
        [0.6, 0.3, 0.8].flatMap((y) => along(40).map((x) => ({ x, y }))),
      ),
  },
  { name: 'the bar', says: /the bar,/u, prepare: zoomIn, findHolds: getGaps },
  {
    name: 'the section line',
    says: /section A/u,
    prepare: takeSectionThroughVise,
    findHolds: (page) =>
      getHolds(
        page,
        'field:sectionX',
        [0.3, 0.05, 0.95, 0.5].flatMap((y) => along(10).map((x) => ({ x: 1 - x, y }))),
      ),
  },
];

const TWO_FRAMES = 'new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)))';

/** A point of the screen at which a press takes hold of the thing meant and of nothing else. */
async function findHold(page: Page, { name, says, findHolds }: DragCase): Promise<Place> {
  const others: string[] = [];
  for (const from of await findHolds(page)) {
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x + 8, from.y);
    await page.evaluate(TWO_FRAMES);
    const said = (await page.locator('.bench-bubble').allTextContents()).join('');
    await page.keyboard.press('Escape');
    await page.mouse.up();
    if (says.test(said)) return from;
    others.push(said);
  }
  throw new Error(`no place to take hold of ${name}, only of ${others.join(' | ')}`);
}

/** Drags one thing for a while; the plan is put back afterwards. */
export async function measureBenchDrag(browser: Browser, page: Page, drag: DragCase, forMs: number): Promise<Frames> {
  await page.getByRole('button', { name: 'Fit', exact: true }).click();
  await drag.prepare?.(page);
  await page.waitForTimeout(300);
  const from = await findHold(page, drag);
  const frames = await measureDrag(browser, page, from, REACH, forMs);
  // The last figures of a large plan come a while after it was let go.
  await page.locator('.bench-bubble').waitFor({ state: 'detached' });
  await page.keyboard.press('Control+z');
  await page.waitForTimeout(300);
  return frames;
}
