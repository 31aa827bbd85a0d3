import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { OUTLINE_FILES } from '../data/outlines/outline-files';
import { ROOT } from '../run/run-program';
import { chooseOption, expect, getSample, messages, showView, test } from './support/planner';

const SHOTS = join(ROOT, 'build/screenshots');

async function shoot(page: Page, name: string): Promise<void> {
  mkdirSync(SHOTS, { recursive: true });
  await page.screenshot({ path: join(SHOTS, `${name}.png`) });
}

/** Chooses a file of the folder looked at, which is that of the plan. */
async function chooseFile(page: Page, name: string): Promise<void> {
  await page.getByRole('row', { name }).dblclick();
}

const dialog = (page: Page, name: string | RegExp) => page.getByRole('dialog', { name });

test('an outline without units is asked about, closed where it gapes, and becomes a part that can be undone', async ({
  planner,
}) => {
  const file = OUTLINE_FILES.get('r5-gap-and-duplicates.dxf') ?? new Uint8Array();
  writeFileSync(join(planner.home, 'strut.dxf'), file);
  const page = await planner.open(getSample('hoist-arms'));
  await showView(page, 'Parts');
  const rows = page.locator('.parts-table tbody tr');
  await expect(page.getByLabel('Length of Pawl arm', { exact: true })).toBeVisible();
  const before = await rows.count();
  await page.getByRole('button', { name: 'Read an outline…' }).click();
  await chooseFile(page, 'strut.dxf');
  const box = dialog(page, 'Outline in strut.dxf');
  await expect(box.getByText(/Which unit is it in\?/u)).toBeVisible();
  await expect(box.getByText(/4\.724 × 0\.787 in \(119\.99 × 19\.99 mm\)/u).first()).toBeVisible();
  await expect(box.getByText('Nothing in the drawing closes to an outline.')).toBeVisible();
  await expect(box.getByText('1 gap left open: 0.020 in.')).toBeVisible();
  await expect(box.getByText('2 lines or curves drawn twice, taken once.')).toBeVisible();
  await expect(box.getByRole('button', { name: 'Add the part' })).toBeDisabled();
  await box.getByLabel('Close gaps up to').fill('.050');
  await box.getByLabel('Close gaps up to').press('Enter');
  await expect(box.getByText('1 gap closed: 0.020 in.')).toBeVisible();
  await shoot(page, 'outline');
  await box.getByRole('button', { name: 'Show where: 1 gap closed: 0.020 in.' }).click();
  await shoot(page, 'outline-gap');
  await box.getByRole('button', { name: 'Show where: 1 gap closed: 0.020 in.' }).click();
  await box.getByRole('button', { name: 'Add the part' }).click();
  await expect(rows).toHaveCount(before + 1);
  await expect(page.getByLabel('Length of strut', { exact: true })).toHaveValue('4.724');
  await page.getByRole('button', { name: /^Undo/u }).click();
  await expect(rows).toHaveCount(before);
});

test('an outline changes the chosen part: its stations and bores', async ({ planner }) => {
  for (const name of ['shanked.dxf', 'svg-shapes.svg', 'truncated.dxf']) {
    writeFileSync(join(planner.home, name), OUTLINE_FILES.get(name) ?? new Uint8Array());
  }
  const page = await planner.open(getSample('keeper-links'));
  await showView(page, 'Parts');
  await page.getByRole('button', { name: 'Read an outline…' }).click();
  await chooseFile(page, 'shanked.dxf');
  const box = dialog(page, 'Outline in shanked.dxf');
  await chooseOption(page, 'Part', 'Keeper link');
  await expect(box.getByText('It reads differently from its two ends')).toBeVisible();
  await shoot(page, 'outline-shanked');
  await box.getByRole('button', { name: 'Change the part' }).click();
  await expect(page.getByLabel(/^Length of /u).first()).toHaveValue('120.00');
  await shoot(page, 'outline-taken');

  await page.getByRole('button', { name: 'Read an outline…' }).click();
  await chooseFile(page, 'svg-shapes.svg');
  await expect(
    dialog(page, 'Outline in svg-shapes.svg')
      .getByText(/Skipped|Read:/u)
      .first(),
  ).toBeVisible();
  await shoot(page, 'outline-svg');
  await dialog(page, 'Outline in svg-shapes.svg').getByRole('button', { name: 'Cancel' }).click();

  await page.getByRole('button', { name: 'Read an outline…' }).click();
  await chooseFile(page, 'truncated.dxf');
  await expect(messages(page).filter({ hasText: 'truncated.dxf ends in the middle of a section' })).toBeVisible();
});

test('a parts list in German style is read, its bad row kept aside, and the list goes out again', async ({
  planner,
}) => {
  const list = 'Bezeichnung;Anzahl;Länge (mm);Höhe (mm);Dicke (mm)\r\nStrut;12;120,5;25;12\r\nLever;viele;90;25;12\r\n';
  writeFileSync(join(planner.home, 'teile.csv'), list);
  const page = await planner.open(getSample('keeper-links'));
  await showView(page, 'Parts');
  await page.getByRole('button', { name: 'Read a parts list…' }).click();
  await chooseFile(page, 'teile.csv');
  const box = dialog(page, 'Parts in teile.csv');
  await expect(box.getByText('Quantity: "viele" is not a number.')).toBeVisible();
  await shoot(page, 'parts-list');
  await box.getByRole('button', { name: 'Take 1 row' }).click();
  await expect(page.getByLabel('Length of Strut', { exact: true })).toHaveValue('120.50');

  await page.getByRole('button', { name: 'Export the parts list…' }).click();
  const save = dialog(page, 'Save the parts list');
  await save.getByLabel('File name').fill('out.csv');
  await save.getByRole('button', { name: 'Save' }).click();
  await expect(messages(page).filter({ hasText: 'Wrote out.csv' })).toBeVisible();
  const written = readFileSync(join(planner.home, 'out.csv'), 'utf8');
  expect(written).toContain('Name,Number,Hand,Quantity,Length (mm),Height (mm),Thickness (mm),Note');
  expect(written).toContain('Strut,,,12,120.5,25,12,');
});

test('another shop is merged entry by entry', async ({ planner }) => {
  const page = await planner.open(getSample('keeper-links'));
  await showView(page, 'Shop');
  await page.getByRole('button', { name: 'Export the library…' }).click();
  const save = dialog(page, 'Save the shop library');
  await save.getByLabel('File name').fill('theirs.kgshop');
  await save.getByRole('button', { name: 'Save' }).click();
  await expect(messages(page).filter({ hasText: 'Wrote theirs.kgshop' })).toBeVisible();
  const path = join(planner.home, 'theirs.kgshop');
  const shop = JSON.parse(readFileSync(path, 'utf8'));
  shop.vises[0].jawWidth += 3;
  shop.parallels.push({ ...shop.parallels[0], id: 'parallel-theirs' });
  writeFileSync(path, JSON.stringify(shop));

  await page.getByRole('button', { name: 'Read another library…' }).click();
  await chooseFile(page, 'theirs.kgshop');
  const box = dialog(page, 'Shop library in theirs.kgshop');
  await expect(box.getByText(/takes the place of yours: jaw width/u)).toBeVisible();
  await shoot(page, 'shop-merge');
  await box.getByRole('button', { name: 'Take 1 entry' }).click();
  await expect(page.getByRole('button', { name: /^Undo/u })).toBeEnabled();
});
