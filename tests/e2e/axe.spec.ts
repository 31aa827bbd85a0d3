import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { chooseInMenu, expect, getSample, openSetup, showView, test, useTheme } from './support/planner';
import { VIEWS } from './support/views';

for (const theme of ['light', 'dark'] as const) {
  test(`no serious fault of access in any view, ${theme}`, async ({ planner, page }) => {
    await useTheme(page, theme);
    await planner.open(getSample('hoist-arms'));
    for (const view of VIEWS) {
      await showView(page, view);
      await expectAccessible(page, view);
    }
    await page.getByRole('option', { name: 'House rules' }).click();
    await expectAccessible(page, 'house rules');
  });

  test(`no serious fault of access in any dialog, open panel or empty plan, ${theme}`, async ({ planner, page }) => {
    await useTheme(page, theme);
    await planner.open(getSample('hoist-arms'));
    for (const section of ['Bar', 'Holding', 'Cut-off', 'Cuts', 'Allowance'] as const) await openSetup(page, section);
    await page.getByRole('region', { name: 'Decision figures' }).getByRole('button', { name: 'Hold' }).click();
    await expectAccessible(page, 'workings');
    await page.keyboard.press('Escape');
    for (const [keys, name] of [
      ['Control+o', 'Open a plan'],
      ['Control+Shift+s', 'Save the plan'],
      ['F1', 'Guide and cautions'],
      ['Control+k', 'Commands'],
    ] as const) {
      await page.keyboard.press(keys);
      await expect(page.getByRole('dialog', { name })).toBeVisible();
      await expectAccessible(page, name);
      await page.keyboard.press('Escape');
    }
    await chooseInMenu(page, 'New plan');
    await expectAccessible(page, 'no parts');
    await showView(page, 'Bench');
    await expectAccessible(page, 'five steps');
  });
}

async function expectAccessible(page: Page, where: string): Promise<void> {
  // In one page: opening another for each look would take longer than looking.
  const { violations } = await new AxeBuilder({ page })
    .setLegacyMode()
    .options({ resultTypes: ['violations'], runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa'] })
    .analyze();
  const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
  const told = serious.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join(', ')}`);
  expect(told, where).toEqual([]);
}
