import { expect, getSample, showView, test } from './support/planner';

test.describe('the workings', () => {
  test('open from the strip, are found by words, and open to formula, numbers and source', async ({ planner }) => {
    const page = await planner.open(getSample('hoist-arms'));
    await page.getByRole('button', { name: 'Workings', exact: true }).click();
    const dialog = page.getByRole('dialog', { name: 'Workings' });
    await expect(dialog.getByRole('heading', { name: 'Stack and grip' })).toBeVisible();
    await dialog.getByLabel('Find a figure').fill('kienzle side force');
    await expect(dialog.getByRole('heading', { name: 'Stack and grip' })).toBeHidden();
    await dialog.getByText('Rough sides: side force').click();
    await expect(dialog.getByText(/^F = kc b hmax/)).toBeVisible();
    await expect(dialog.getByText(/^F = .*psi · .* in ·/)).toBeVisible();
    await expect(dialog.getByText(/VDI 3323/).first()).toBeVisible();
  });

  test('go with the sheet when asked', async ({ planner }) => {
    const page = await planner.open(getSample('hoist-arms'));
    await page.keyboard.press('Alt+w');
    await page.getByRole('button', { name: 'Add them to the sheet' }).click();
    await expect(page.getByRole('tabpanel', { name: 'Sheet', exact: true })).toBeVisible();
    await expect(page.getByRole('checkbox', { name: 'Workings' })).toBeChecked();
    const pages = page.getByRole('list', { name: 'Pages of the sheet' }).getByRole('listitem');
    const withWorkings = await pages.count();
    await page.locator('.checkbox', { hasText: 'Workings' }).click();
    await expect.poll(() => pages.count()).toBeLessThan(withWorkings);
  });
});

test('the chance stands under the findings and opens to what it rests on', async ({ planner }) => {
  const page = await planner.open(getSample('hoist-arms'));
  const line = page.getByRole('button', { name: /Chance that grip, allowance and hold are met/ });
  await expect(line).toContainText('%');
  await line.click();
  await expect(page.getByRole('dialog', { name: 'Workings of the chance' })).toContainText('Shigley');
});

test('the section shows the end mill at its deepest pass when asked', async ({ planner }) => {
  const page = await planner.open(getSample('hoist-arms'));
  await showView(page, 'Bench');
  const passes = page.getByRole('radiogroup', { name: 'Tool in the section' });
  await passes.getByRole('radio', { name: 'end mill' }).click();
  await expect(passes.getByRole('radio', { name: 'end mill' })).toBeChecked();
});
