import type { Page } from '@playwright/test';
import { expect, getSample, test } from './support/planner';

const PANES = ['elevation', 'plan', 'section', 'stack'] as const;

/** Each view as it is seen: where it lies, and its first canvas, which carries the drawing. */
function readPanes(page: Page): Promise<{ pane: string; box: number[]; picture: string }[]> {
  return page.evaluate(
    (panes) =>
      panes.map((pane) => {
        const surface = document.querySelector(`.bench-pane.is-${pane} .bench-surface`);
        const { x = 0, y = 0, width = 0, height = 0 } = surface?.getBoundingClientRect() ?? {};
        return { pane, box: [x, y, width, height], picture: surface?.querySelector('canvas')?.toDataURL() ?? '' };
      }),
    PANES,
  );
}

for (const { theme, width } of [
  { theme: 'light', width: 1440 },
  { theme: 'dark', width: 1024 },
] as const) {
  test(`the Bench is drawn before it can be worked with, as it is drawn then: ${theme}, ${width} px wide`, async ({
    planner,
    page,
  }) => {
    await page.emulateMedia({ colorScheme: theme });
    await page.setViewportSize({ width, height: 900 });
    // The page's own code is held back until the still picture has been looked at.
    let letOn: () => void = () => undefined;
    const held = new Promise<void>((resolve) => {
      letOn = resolve;
    });
    await page.route(/\/page-[^/]*\.js$/u, async (route) => {
      await held;
      await route.continue();
    });
    const opening = planner.open(getSample('hoist-arms'));
    await expect(page.locator('.frame[aria-hidden="true"] canvas')).toHaveCount(PANES.length);
    await page.evaluate(() => document.fonts.ready.then(() => undefined));
    await expect(page.getByRole('heading')).toHaveCount(0);
    const still = await readPanes(page);
    letOn();
    await opening;
    await expect(page.locator('.frame[aria-hidden="true"]')).toHaveCount(0);
    await expect(page.locator('.bench-feature').first()).toBeAttached();
    expect(still.every(({ picture }) => picture.length > 2000)).toBe(true);
    // The canvas is drawn again when its letters are there.
    await expect.poll(() => readPanes(page)).toEqual(still);
  });
}
