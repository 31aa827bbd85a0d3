import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { openChanged } from './support/bench';
import { chooseInMenu, expect, getSample, openSetup, showView, test, typeInto, useTheme } from './support/planner';
import { DIALOGS_BY_KEY, VIEWS } from './support/views';

for (const theme of ['light', 'dark'] as const) {
  test(`no serious fault of access in any view, ${theme}`, async ({ planner, page }) => {
    test.slow();
    await useTheme(page, theme);
    await planner.open(getSample('hoist-arms'));
    for (const view of VIEWS) {
      await showView(page, view);
      await expectAccessible(page, view);
    }
    await page.getByRole('option', { name: 'Bars on offer' }).click();
    await expectAccessible(page, 'bars on offer');
    await page.getByRole('option', { name: 'House rules' }).click();
    await expectAccessible(page, 'house rules');
  });

  test(`no serious fault of access in any dialog, open panel or empty plan, ${theme}`, async ({ planner, page }) => {
    test.slow();
    await useTheme(page, theme);
    await planner.open(getSample('hoist-arms'));
    for (const section of ['Bar', 'Holding', 'Cut-off', 'Allowance', 'Cuts'] as const) {
      await openSetup(page, section);
      await expectAccessible(page, section);
    }
    await page.locator('.cut-open').first().click();
    await expectAccessible(page, 'a cut');
    await page.keyboard.press('Escape');
    await page.getByRole('region', { name: 'Decision figures' }).getByRole('button', { name: 'Hold' }).click();
    await expectAccessible(page, 'workings');
    await page.keyboard.press('Escape');
    await page.locator('.finding.is-check .finding-sentence').first().click();
    await expectAccessible(page, 'a finding in full');
    await page.getByRole('button', { name: 'Accept…' }).first().click();
    await expectAccessible(page, 'accept a finding');
    await page.keyboard.press('Escape');
    for (const [keys, name] of DIALOGS_BY_KEY) {
      await page.keyboard.press(keys);
      await expect(page.getByRole('dialog', { name, exact: true })).toBeVisible();
      await expectAccessible(page, name);
      await page.keyboard.press('Escape');
    }
    await chooseInMenu(page, 'Save one view…');
    await expectAccessible(page, 'save one view');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Menu', exact: true }).click();
    await expectAccessible(page, 'menu');
    await page.keyboard.press('Escape');
    await chooseInMenu(page, 'New plan');
    await expectAccessible(page, 'no parts');
    await showView(page, 'Bench');
    await expectAccessible(page, 'five steps');
  });

  test(`no serious fault of access where something is wrong or narrow, ${theme}`, async ({ planner, page }) => {
    test.slow();
    await useTheme(page, theme);
    await openChanged(planner, (plan) => ({
      ...plan,
      parts: plan.parts.map((part) => ({ ...part, height: part.height * 2 })),
      stock: { ...plan.stock, measuredBow: 3 },
    }));
    await expect(page.locator('.finding.is-stop').first()).toBeVisible();
    await expectAccessible(page, 'stops');
    await showView(page, 'Parts');
    await typeInto(page, 'Length of Pawl arm', '7-1/2-');
    await expectAccessible(page, 'a refused entry');
    await page.setViewportSize({ width: 900, height: 720 });
    for (const view of VIEWS) {
      await showView(page, view);
      await expectAccessible(page, `${view}, narrow`);
    }
    await chooseInMenu(page, 'New plan');
    await expectAccessible(page, 'the question about changes');
    await page.keyboard.press('Escape');
    const list = join(planner.home, 'list.csv');
    writeFileSync(list, 'name,qty,length,height,thickness\nPawl,2,4,1,0.5\n');
    await page.keyboard.press('Control+k');
    await page.keyboard.type('Read a parts list');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').getByRole('row', { name: 'list.csv', exact: true }).dblclick();
    await expect(page.getByRole('dialog').getByRole('table').first()).toBeVisible();
    await expectAccessible(page, 'a list that is read');
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
