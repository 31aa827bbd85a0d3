import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Page, TestInfo } from '@playwright/test';
import type { Plan } from '../../shared/model/plan';
import { ROOT } from '../run/run-program';
import { findLayoutFaults } from './support/layout-faults';
import { chooseInMenu, expect, getSample, openSetup, showView, test, useTheme } from './support/planner';
import { DIALOGS_BY_KEY, VIEWS } from './support/views';

const FOLDER = join(ROOT, 'build/screenshots');
const USUAL = { width: 1280, height: 720 };
const SIZES = [
  USUAL,
  { width: 2560, height: 1440 },
  { width: 900, height: 720 },
  // A window of 1440 × 900 with its text at 150 %.
  { width: 960, height: 600 },
];
const THEMES = ['light', 'dark'] as const;

for (const theme of THEMES) {
  test(`every view at every size, ${theme}: nothing overlaps, is cut off or makes the window scroll`, async ({
    planner,
    page,
  }) => {
    test.slow();
    await useTheme(page, theme);
    await planner.open(getSample('hoist-arms'));
    // What fits does so in either theme, so narrow windows are looked at in one.
    for (const size of theme === 'light' ? SIZES : SIZES.slice(0, 2)) {
      await page.setViewportSize(size);
      for (const view of VIEWS) {
        await showView(page, view);
        await look(page, `${view.toLowerCase()}-${theme}-${size.width}x${size.height}`);
      }
    }
  });

  // The pictures hold for the browser that drew them. Where they change, or another browser is to be the measure:
  // npm run test:e2e -- screenshots --update-snapshots, then look at each of them before it is kept.
  test(`the main views look as they were drawn, ${theme}`, async ({ planner, page }, testInfo) => {
    test.slow();
    skipInAnotherBrowser(page, testInfo);
    await useTheme(page, theme);
    await page.setViewportSize(USUAL);
    await planner.open(getSample('hoist-arms'));
    await expect(page.locator('[data-figure="cost"]')).toHaveText('223.00 USD');
    for (const view of VIEWS) {
      await showView(page, view);
      // Where nothing lies that answers to the pointer.
      await page.mouse.move(1, 1);
      await expect(page).toHaveScreenshot(`${view.toLowerCase()}-${theme}.png`, { maxDiffPixelRatio: 0.01 });
    }
  });
}

test('the picture of the README', async ({ planner, page }) => {
  await useTheme(page, 'light');
  await page.setViewportSize({ width: 1440, height: 900 });
  await planner.open(getSample('hoist-arms'));
  await expect(page.locator('.finding').first()).toBeVisible();
  await settle(page);
  const isUpdate = process.env.KERFGRIP_UPDATE_SCREENSHOTS === '1';
  const path = isUpdate ? join(ROOT, 'assets/screenshots/bench.png') : join(FOLDER, 'readme-bench.png');
  mkdirSync(FOLDER, { recursive: true });
  await page.screenshot({ path });
});

for (const size of [USUAL, { width: 900, height: 720 }]) {
  test(`every dialog and what opens over the page, ${size.width} wide`, async ({ planner, page }) => {
    test.slow();
    const name = (what: string): string => `${what}-${size.width}`;
    await useTheme(page, 'light');
    await page.setViewportSize(size);
    await planner.open(getSample('keeper-links'));
    await look(page, name('metric-bench'));
    for (const section of ['Bar', 'Holding', 'Cut-off', 'Cuts', 'Allowance'] as const) {
      await openSetup(page, section);
      await look(page, name(`setup-${section.toLowerCase()}`));
    }
    await page.getByRole('region', { name: 'Decision figures' }).getByRole('button', { name: 'Hold' }).click();
    await look(page, name('workings-of-hold'));
    await page.keyboard.press('Escape');
    for (const [keys, dialog] of DIALOGS_BY_KEY) {
      await page.keyboard.press(keys);
      await expect(page.getByRole('dialog', { name: dialog, exact: true })).toBeVisible();
      await look(page, name(`dialog-${dialog.toLowerCase().replaceAll(' ', '-')}`));
      await page.keyboard.press('Escape');
      await expect(page.getByRole('dialog')).toHaveCount(0);
    }
    await chooseInMenu(page, 'New plan');
    for (const view of VIEWS.slice(0, 4)) {
      await showView(page, view);
      await look(page, name(`empty-${view.toLowerCase()}`));
    }
  });
}

test('every list of the shop', async ({ planner, page }) => {
  test.slow();
  await useTheme(page, 'light');
  await planner.open(getSample('hoist-arms'));
  await showView(page, 'Shop');
  const lists = page.getByRole('navigation', { name: 'Parts of the shop' }).getByRole('option');
  await page.setViewportSize({ width: 960, height: 600 });
  for (const list of await lists.all()) {
    await list.click();
    await look(page, `shop-${((await list.textContent()) ?? '').replaceAll(/\W+/g, '-')}`);
  }
});

test('forty parts with long names, in every view', async ({ planner, page }) => {
  test.slow();
  const path = join(planner.home, 'many.kgplan');
  writeFileSync(path, JSON.stringify(buildManyParts()));
  await useTheme(page, 'light');
  await planner.open(path);
  for (const size of [USUAL, { width: 960, height: 600 }]) {
    await page.setViewportSize(size);
    for (const view of VIEWS.slice(0, 4)) {
      await showView(page, view);
      await look(page, `many-${view.toLowerCase()}-${size.width}`);
    }
  }
});

function buildManyParts(): Plan {
  const sample = JSON.parse(readFileSync(getSample('hoist-arms'), 'utf8')) as Plan;
  const parts = Array.from({ length: 40 }, (_, index) => ({
    ...(sample.parts[index % sample.parts.length] as Plan['parts'][number]),
    id: `part-${index}`,
    number: `SG-2026-${1000 + index}-B`,
    name:
      index % 3 === 0 ? `Connecting lever ${index} of the upper sluice, with a boss at each end` : `Pawl arm ${index}`,
    quantity: 3 + index,
  }));
  return { ...sample, name: 'Second pair of pawl arms and levers for the upper sluice and its spare rack', parts };
}

/** Finds what is wrong with the layout once the page has come to rest, and leaves a picture of it to look at. */
async function look(page: Page, name: string): Promise<void> {
  await settle(page);
  await expect.poll(() => page.evaluate(findLayoutFaults), { message: name }).toEqual([]);
  mkdirSync(FOLDER, { recursive: true });
  await page.screenshot({ path: join(FOLDER, `${name}.png`) });
}

/** Waits for the fonts, and for what moves to come to its end. */
async function settle(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await document.fonts.ready;
    await Promise.all(document.getAnimations().map((animation) => animation.finished.catch(() => undefined)));
  });
}

/** Letters are drawn a little differently by each version of a browser; the one that drew the pictures is named beside them. */
function skipInAnotherBrowser(page: Page, testInfo: TestInfo): void {
  const version = page.context().browser()?.version().split('.')[0] ?? '';
  const now = `${process.platform}, Chromium ${version}\n`;
  const path = testInfo.snapshotPath('drawn-by.txt');
  if (testInfo.config.updateSnapshots === 'all' || testInfo.config.updateSnapshots === 'changed') {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, now);
  }
  const drawnBy = existsSync(path) ? readFileSync(path, 'utf8') : '';
  test.skip(drawnBy !== now, `The pictures were drawn by ${drawnBy.trim()}; this is ${now.trim()}.`);
}
