import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { ROOT } from '../run/run-program';
import { findLayoutFaults } from './support/layout-faults';
import { chooseInMenu, expect, getSample, showView, test, useTheme } from './support/planner';
import { VIEWS } from './support/views';

const FOLDER = join(ROOT, 'build/screenshots');
const SIZES = [
  { width: 1280, height: 720 },
  { width: 2560, height: 1440 },
] as const;
const THEMES = ['light', 'dark'] as const;

for (const theme of THEMES) {
  test(`every view at every size, ${theme}: nothing overlaps, is cut off or makes the window scroll`, async ({
    planner,
    page,
  }) => {
    await useTheme(page, theme);
    await planner.open(getSample('hoist-arms'));
    for (const size of SIZES) {
      await page.setViewportSize(size);
      for (const view of VIEWS) {
        await showView(page, view);
        await shoot(page, `${view.toLowerCase()}-${theme}-${size.width}x${size.height}`);
        expect(await page.evaluate(findLayoutFaults), view).toEqual([]);
      }
    }
  });
}

test('the picture of the README', async ({ planner, page }) => {
  await useTheme(page, 'light');
  await page.setViewportSize({ width: 1440, height: 900 });
  await planner.open(getSample('hoist-arms'));
  await settle(page);
  const isUpdate = process.env.KERFGRIP_UPDATE_SCREENSHOTS === '1';
  const path = isUpdate ? join(ROOT, 'assets/screenshots/bench.png') : join(FOLDER, 'readme-bench.png');
  mkdirSync(FOLDER, { recursive: true });
  await page.screenshot({ path });
});

test('what else the page shows: an empty plan, its dialogs and the metric sample', async ({ planner, page }) => {
  await useTheme(page, 'light');
  await page.setViewportSize(SIZES[0]);
  await planner.open(getSample('keeper-links'));
  await shoot(page, 'metric-bench');
  await showView(page, 'Order');
  await shoot(page, 'metric-order');
  await page.getByRole('region', { name: 'Decision figures' }).getByRole('button', { name: 'Hold' }).click();
  await shoot(page, 'workings-of-hold');
  await page.keyboard.press('Escape');
  await chooseInMenu(page, 'Open…');
  await shoot(page, 'dialog-open');
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+Shift+s');
  await shoot(page, 'dialog-save');
  await page.keyboard.press('Escape');
  await page.keyboard.press('F1');
  await shoot(page, 'dialog-guide');
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+k');
  await shoot(page, 'dialog-commands');
  await page.keyboard.press('Escape');
  await chooseInMenu(page, 'New plan');
  await shoot(page, 'empty-parts');
  await showView(page, 'Bench');
  await shoot(page, 'empty-bench');
  await showView(page, 'Order');
  await shoot(page, 'empty-order');
  await showView(page, 'Sheet');
  await shoot(page, 'empty-sheet');
});

async function shoot(page: Page, name: string): Promise<void> {
  await settle(page);
  mkdirSync(FOLDER, { recursive: true });
  await page.screenshot({ path: join(FOLDER, `${name}.png`) });
}

/** Waits until what moves has come to rest: fonts, and two frames after the last change of the layout. */
async function settle(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await document.fonts.ready;
    for (let frame = 0; frame < 3; frame += 1) await new Promise(requestAnimationFrame);
  });
  await page.waitForTimeout(150);
}
