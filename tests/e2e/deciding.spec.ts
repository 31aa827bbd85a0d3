import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import {
  chooseInMenu,
  chooseOption,
  expect,
  findings,
  getSample,
  openSetup,
  readFigure,
  showView,
  test,
  typeInto,
} from './support/planner';

test('units change what is shown, in every view and on the sheet, and nothing of what is planned', async ({
  planner,
}) => {
  const page = await planner.open(getSample('hoist-arms'));
  const proud = await readFigure(page, 'proudHeight');
  const cost = await readFigure(page, 'cost');
  await chooseUnits(page, 'mm');
  await expect(page.locator('[data-figure="proudHeight"]')).toHaveText('44.45');
  expect(await readFigure(page, 'proudHeight')).toBe(proud);
  expect(await readFigure(page, 'cost')).toBe(cost);
  await showView(page, 'Parts');
  const length = page.getByLabel('Length of Pawl arm', { exact: true });
  await expect(length).toHaveValue('184.15');
  await typeInto(page, 'Length of Pawl arm', '7-1/4"');
  await expect(length).toHaveValue('184.15');
  await expect(page.getByRole('button', { name: 'Undo: show millimetres' })).toBeEnabled();
  await showView(page, 'Sheet');
  await expect(page.getByRole('listitem', { name: /^Page 1 of/ })).toContainText('44.45');
  await chooseUnits(page, 'in');
  await showView(page, 'Parts');
  await expect(length).toHaveValue('7.250');
});

test('a decision is pinned by typing, judged, and given back to auto by its mark, its key or an empty field', async ({
  planner,
}) => {
  const page = await planner.open(getSample('hoist-arms'));
  await openSetup(page, 'Cut-off');
  const rib = page.getByLabel('Rib aimed at', { exact: true });
  const auto = await rib.inputValue();
  await typeInto(page, 'Rib aimed at', '0.060');
  const mark = page.getByRole('button', { name: /^Rib aimed at: pinned; auto would take 0\.030 in/ });
  await expect(mark).toBeVisible();
  expect(await readFigure(page, 'rib')).toBeCloseTo(0.06 * 25.4, 6);
  await expect(findings(page, 'stop').filter({ hasText: /rib/i }).first()).toBeVisible();

  await mark.click();
  const why = page.getByRole('dialog', { name: 'Why Rib aimed at' });
  await expect(why).toContainText(/source/i);
  await why.getByRole('button', { name: /^Leave it to auto/ }).click();
  await expect(rib).toHaveValue(auto);
  await expect(page.getByRole('button', { name: 'Undo: leave rib aimed at to auto' })).toBeEnabled();

  await typeInto(page, 'Rib aimed at', '0.025');
  await rib.press('Alt+p');
  await expect(rib).toHaveValue(auto);
  await rib.press('Alt+p');
  await expect(page.getByRole('button', { name: /^Rib aimed at: pinned/ })).toBeVisible();
  await typeInto(page, 'Rib aimed at', '');
  await expect(page.getByRole('button', { name: /^Rib aimed at: auto/ })).toBeVisible();
});

test('every kind of step is undone and redone by its name, back to the plan as it was saved', async ({ planner }) => {
  const page = await planner.open(getSample('hoist-arms'));
  const steps: string[] = [];
  const step = async (name: string): Promise<void> => {
    await expect(page.getByRole('button', { name: `Undo: ${name}`, exact: true })).toBeEnabled();
    steps.push(name);
  };
  await showView(page, 'Parts');
  await typeInto(page, 'Length of Pawl arm', '7');
  await step('change length of Pawl arm to 7.000 in');
  await page.getByRole('button', { name: 'Turn Pawl arm to the other hand' }).click();
  await step('turn Pawl arm to the other hand');
  await page.getByRole('button', { name: 'Copy Pawl arm' }).click();
  await step('copy Pawl arm');
  await page.getByRole('button', { name: 'Remove Pawl arm copy' }).click();
  await step('remove Pawl arm copy');
  await page.getByRole('button', { name: 'Add a part' }).click();
  await step('add a part');
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('button', { name: 'Redo: add a part' })).toBeEnabled();
  await page.keyboard.press('Control+y');
  await showView(page, 'Order');
  await page.getByRole('button', { name: /^Take 3\/4 × 2-1\/2 in/ }).click();
  await step('take the 3/4 × 2-1/2 in 4140, cold finished, on edge bar');
  await showView(page, 'Bench');
  await openSetup(page, 'Holding');
  await typeInto(page, 'Vises', '2');
  await step('pin vises at 2');
  await openSetup(page, 'Bar');
  await chooseOption(page, 'Material', '6082-T6');
  await step('change material to 6082-T6');
  await page.locator('[data-feature="vise:0"]').press('ArrowRight');
  await expect(page.getByRole('button', { name: /^Undo: move vise 1 to/ })).toBeEnabled();
  steps.push('move vise 1');
  await page.getByRole('radio', { name: 'mm', exact: true }).check({ force: true });
  await step('show millimetres');
  await showView(page, 'Shop');
  await page.getByRole('option', { name: 'House rules' }).click();
  await typeInto(page, 'Thinnest rib aimed at', '0.5');
  await step('shop: thinnest rib aimed at: 0.50 mm');

  for (const name of steps.toReversed()) {
    await page.getByRole('button', { name: new RegExp(`^Undo: ${escapeText(name)}`) }).click();
  }
  await expect(page.getByRole('button', { name: 'Undo', exact: true })).toBeDisabled();
  await expect(page.getByRole('status', { name: 'Saved state' })).toHaveText('saved');
  await showView(page, 'Parts');
  await expect(page.getByLabel('Length of Pawl arm', { exact: true })).toHaveValue('7.250');
  for (const name of steps) {
    await page.getByRole('button', { name: new RegExp(`^Redo: ${escapeText(name)}`) }).click();
  }
  await expect(page.getByRole('button', { name: 'Redo', exact: true })).toBeDisabled();
  await expect(page.getByLabel('Length of Pawl arm', { exact: true })).toHaveValue('177.80');
});

test('the sections are compared, and one press takes another bar', async ({ planner }) => {
  const page = await planner.open(getSample('keeper-links'));
  await showView(page, 'Order');
  const rows = page.getByRole('region', { name: 'Sections compared' }).getByRole('row');
  const taken = rows.filter({ hasText: 'taken' });
  await expect(taken).toContainText('15 × 35 mm');
  await expect(rows.filter({ hasText: '15 × 30 mm' })).toContainText('5.25');
  const costs = await rows.locator('td:nth-child(7)').allTextContents();
  expect(costs.map(Number)).toEqual(costs.map(Number).toSorted((one, other) => one - other));
  const before = (await readFigure(page, 'cost')) ?? 0;
  await page.getByRole('button', { name: /^Take 15 × 40 mm/ }).click();
  await expect(taken).toContainText('15 × 40 mm');
  expect(await readFigure(page, 'cost')).toBeGreaterThan(before);
  expect(await readFigure(page, 'grip')).toBeCloseTo(15.075, 3);
  await page.getByRole('radio', { name: 'grip' }).check({ force: true });
  const grips = (await rows.locator('td:nth-child(3)').allTextContents()).map(Number);
  expect(grips).toEqual(grips.toSorted((one, other) => other - one));
  await page.getByRole('checkbox', { name: /^Show the \d+ that do not fit/ }).check({ force: true });
  await expect(rows.filter({ hasText: /too (low|thin)/ }).first()).toBeVisible();
});

test('a house rule changed in the shop moves the figure at once and is still there after a restart', async ({
  planner,
}) => {
  const page = await planner.open(getSample('hoist-arms'));
  expect(await readFigure(page, 'rib')).toBeCloseTo(0.762, 6);
  await showView(page, 'Shop');
  await page.getByRole('option', { name: 'House rules' }).click();
  await typeInto(page, 'Rib aimed at', '0.020');
  await expect.poll(() => readFigure(page, 'rib')).toBeCloseTo(0.508, 6);
  const shopFile = join(planner.dataFolder, 'shop.json');
  await expect.poll(() => existsSync(shopFile) && readFileSync(shopFile, 'utf8').includes('0.508')).toBe(true);
  await planner.open();
  await chooseInMenu(page, 'Open a sample', /pawl arms/);
  expect(await readFigure(page, 'rib')).toBeCloseTo(0.508, 6);
  await showView(page, 'Shop');
  await page.getByRole('option', { name: 'House rules' }).click();
  await page.getByRole('button', { name: 'Back to 0.030 in: Rib aimed at' }).click();
  await expect.poll(() => readFigure(page, 'rib')).toBeCloseTo(0.762, 6);
});

async function chooseUnits(page: Page, units: 'in' | 'mm'): Promise<void> {
  await page.getByRole('radio', { name: units, exact: true }).check({ force: true });
}

function escapeText(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\/]/g, '\\$&');
}
