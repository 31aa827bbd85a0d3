import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { chooseInMenu, expect, getSample, messages, showView, test, typeInto } from './support/planner';

const FAULT = 'spoilt on purpose';

/** Makes the page fail wherever it would draw one of these texts. */
async function spoilTexts(page: Page, ...texts: string[]): Promise<void> {
  await page.route('**/assets/*.js', async (route) => {
    const response = await route.fetch();
    const code = await response.text();
    const literal = new RegExp(`(["'\`])(?:${texts.join('|')})\\1`, 'g');
    await route.fulfill({
      response,
      body: code.replace(literal, `(()=>{throw new Error(${JSON.stringify(FAULT)})})()`),
    });
  });
}

/** What React tells on the console of a fault that it was told to catch. */
function expectFaultsOnly(faults: string[]): void {
  expect(faults.length).toBeGreaterThan(0);
  expect(faults.filter((fault) => !fault.includes(FAULT))).toEqual([]);
  faults.length = 0;
}

test('a panel that fails says so with a report; the plan, the other views and saving go on', async ({
  planner,
  page,
  faults,
}) => {
  await spoilTexts(page, 'Chance that grip, allowance and hold are met', 'Cut list');
  await planner.open(getSample('hoist-arms'));
  const findings = page.getByRole('complementary', { name: 'Findings' });
  await expect(findings.getByRole('alert')).toContainText('The findings panel could not be shown');
  await expect(page.locator('.bench-feature').first()).toBeAttached();
  await showView(page, 'Order');
  const alert = page.getByRole('alert').filter({ hasText: 'Order could not be shown' });
  await expect(alert).toContainText(FAULT);
  await alert.getByText('Report to copy').click();
  await expect(alert.getByLabel('Report to copy', { exact: true })).toHaveValue(/^Kerfgrip \d+\.\d+\.\d+, Order: /);

  await showView(page, 'Parts');
  await typeInto(page, 'Length of Pawl arm', '7.5');
  await page.keyboard.press('Control+s');
  await expect(page.getByLabel('Saved state')).toHaveText('saved');
  const saved = JSON.parse(readFileSync(join(planner.home, 'hoist-arms.kgplan'), 'utf8'));
  expect(saved.parts[0].length).toBe(190.5);
  expectFaultsOnly(faults);
});

test('a window over the page that fails can be closed, and the page goes on', async ({ planner, page, faults }) => {
  await spoilTexts(page, 'Find a figure');
  await planner.open(getSample('hoist-arms'));
  await page.keyboard.press('Alt+w');
  const dialog = page.getByRole('alertdialog', { name: 'This window could not be shown' });
  await expect(dialog).toContainText(FAULT);
  await dialog.getByRole('button', { name: 'Close' }).last().click();
  await expect(dialog).toHaveCount(0);
  await chooseInMenu(page, 'New plan');
  await expect(page.getByText('No parts yet')).toBeVisible();
  expectFaultsOnly(faults);
});

test('where the page itself fails, a plan that was never saved can still be saved', async ({
  planner,
  page,
  faults,
}) => {
  await spoilTexts(page, 'not saved');
  await planner.open();
  await showView(page, 'Parts');
  await page.getByRole('button', { name: 'Add a part' }).click();
  const alert = page.getByRole('alert').filter({ hasText: 'The planner could not be shown' });
  await expect(alert).toContainText(FAULT);
  await alert.getByRole('button', { name: 'Save', exact: true }).click();
  const dialog = page.getByRole('dialog', { name: /^Save/ });
  await dialog.getByRole('textbox', { name: 'File name' }).fill('rescued');
  await dialog.getByRole('button', { name: 'Save', exact: true }).click();
  await expect(messages(page)).toContainText('The plan is saved.');
  const { parts } = JSON.parse(readFileSync(join(planner.home, 'rescued.kgplan'), 'utf8'));
  expect(parts.at(-1).name).toBe('Part 3');
  expectFaultsOnly(faults);
});
