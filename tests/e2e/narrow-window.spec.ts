import type { Locator, Page } from '@playwright/test';
import { expect, getSample, showView, test } from './support/planner';

const HEIGHT = 720;

const side = (page: Page, name: 'Setup' | 'Findings'): Locator =>
  page
    .getByRole('complementary', { name })
    .getByRole('button', { name: `Fold the ${name.toLowerCase()} panel`, exact: true });

const unfold = (page: Page, name: 'Setup' | 'Findings'): Promise<void> =>
  page.getByRole('button', { name: `Unfold the ${name.toLowerCase()} panel` }).click();

for (const width of [900, 1024, 1280]) {
  test(`nothing in the top bar lies over anything else at ${width} px, with counts of three digits`, async ({
    planner,
    page,
  }) => {
    await page.setViewportSize({ width, height: HEIGHT });
    await planner.open(getSample('hoist-arms'));
    for (const count of await page.locator('[data-count]').all()) {
      await count.evaluate((element) => {
        element.textContent = '888';
      });
    }
    await expect(page.locator('[data-count="stop"]')).toHaveText('888');
    const overlaps = await page.locator('.top-bar').evaluate((bar) => {
      const shown = [...bar.querySelectorAll('button, [role="tab"], [role="radiogroup"], h1, .plan-title p')];
      const things = shown
        .filter((element) => element.checkVisibility())
        .map((element) => ({
          name: element.getAttribute('aria-label') ?? element.textContent,
          box: element.getBoundingClientRect(),
          element,
        }));
      return things.flatMap((one, index) =>
        things
          .slice(index + 1)
          .filter(
            (other) =>
              !one.element.contains(other.element) &&
              Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left) > 0.5 &&
              Math.min(one.box.bottom, other.box.bottom) - Math.max(one.box.top, other.box.top) > 0.5,
          )
          .map((other) => `${one.name} / ${other.name}`),
      );
    });
    expect(overlaps).toEqual([]);
    const counts = await page.locator('.finding-counts').boundingBox();
    expect((counts?.x ?? 0) + (counts?.width ?? 0)).toBeLessThan(width);
  });
}

test('a panel that only want of room folds is open again in a wide window, and at the next start', async ({
  planner,
  page,
}) => {
  await page.setViewportSize({ width: 1000, height: HEIGHT });
  await planner.open(getSample('hoist-arms'));
  await expect(side(page, 'Setup')).toBeVisible();
  await expect(side(page, 'Findings')).toHaveCount(0);
  await unfold(page, 'Findings');
  await expect(side(page, 'Setup')).toHaveCount(0);

  await page.setViewportSize({ width: 1280, height: HEIGHT });
  await expect(side(page, 'Setup')).toBeVisible();
  await expect(side(page, 'Findings')).toBeVisible();

  await page.setViewportSize({ width: 1000, height: HEIGHT });
  await expect(side(page, 'Findings')).toHaveCount(0);
  await page.reload();
  await expect(side(page, 'Setup')).toBeVisible();
  await page.setViewportSize({ width: 1280, height: HEIGHT });
  await page.reload();
  await expect(side(page, 'Findings')).toBeVisible();

  // What the user folds stays folded.
  await side(page, 'Findings').click();
  await showView(page, 'Order');
  await page.reload();
  await expect(side(page, 'Setup')).toBeVisible();
  await expect(side(page, 'Findings')).toHaveCount(0);
});
