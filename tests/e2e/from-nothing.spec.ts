import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { dragBy, getFeature } from './support/bench';
import { readPdf } from './support/pdf';
import {
  chooseInMenu,
  chooseOption,
  expect,
  findings,
  getSample,
  openSetup,
  readFigure,
  saveInDialog,
  showView,
  test,
  typeInto,
} from './support/planner';

test('a plan from nothing: typed and dragged, mended by its fixes, saved, reopened and exported', async ({
  planner,
}) => {
  const page = await planner.open();
  await chooseInMenu(page, 'New plan');
  await page.getByRole('radio', { name: 'in', exact: true }).check({ force: true });
  await expect(page.getByText('No parts yet')).toBeVisible();
  await expect(page.getByRole('button', { name: '1 stop 0 checks 0 notes', exact: true })).toBeVisible();

  await page.getByRole('button', { name: 'Add a part' }).click();
  await typeInto(page, 'Name of part 1', 'Brake lever');
  await typeInto(page, 'Quantity of Brake lever', '4');
  await typeInto(page, 'Length of Brake lever', '15-1/2');
  await typeInto(page, 'Height of Brake lever', '1¼');
  await typeInto(page, 'Thickness of Brake lever', '12.7 mm');
  await expect(page.getByText('15.500 in / 393.70 mm')).toBeVisible();
  await expect(page.getByText('1.250 in / 31.75 mm')).toBeVisible();
  await expect(page.getByText('0.500 in / 12.70 mm')).toBeVisible();
  expect(await readFigure(page, 'grip')).toBeGreaterThan(25.4 * 0.3);

  // One vise cannot keep so long a bar from bending: pinned, judged, and mended by the finding's own button.
  await showView(page, 'Bench');
  await openSetup(page, 'Holding');
  await typeInto(page, 'Vises', '1');
  const bends = findings(page, 'check').filter({ hasText: 'sticks out 4.850 in past the last jaw' });
  await bends.getByRole('button', { name: 'Use 2 vises' }).click();
  await expect(bends).toHaveCount(0);
  await expect(page.getByRole('button', { name: 'Undo: use 2 vises' })).toBeEnabled();

  // A vise dragged along the table is pinned where it is let go, and undo says so.
  const before = await getVises(page);
  await dragBy(page, getFeature(page, 'vise:1'), -20, 0, { hold: { x: 0.8, y: 0.9 }, free: true });
  await expect(page.getByRole('button', { name: /^Undo: move vise 2 to [\d.]+ in$/ })).toBeEnabled();
  expect(await getVises(page)).not.toEqual(before);

  await chooseInMenu(page, 'Save as…');
  await saveInDialog(page, 'brake');
  await expect(page.getByRole('status', { name: 'Saved state' })).toHaveText('saved');
  expect(readdirSync(planner.home)).toContain('brake.kgplan');
  const saved = JSON.parse(readFileSync(join(planner.home, 'brake.kgplan'), 'utf8'));
  expect(saved.parts[0]).toMatchObject({
    name: 'Brake lever',
    quantity: 4,
    length: 393.7,
    height: 31.75,
    thickness: 12.7,
  });
  expect(saved.holding.vises).toMatchObject({ pinned: expect.any(Array) });
  const grip = await readFigure(page, 'grip');
  const vises = await getVises(page);

  const again = await planner.open(join(planner.home, 'brake.kgplan'));
  expect(await readFigure(again, 'grip')).toBe(grip);
  expect(await getVises(again)).toEqual(vises);
  await showView(again, 'Parts');
  await expect(again.getByLabel('Name of part 1', { exact: true })).toHaveValue('Brake lever');

  await showView(again, 'Sheet');
  await again.getByRole('button', { name: /Export PDF/ }).click();
  await saveInDialog(again, 'brake-sheet');
  await expect.poll(() => readdirSync(planner.home)).toContain('brake-sheet.pdf');
  const exported = await readPdf(join(planner.home, 'brake-sheet.pdf'));
  exported.forEach((text, index) => {
    expect(text).toContain(`page ${index + 1} of ${exported.length}`);
    expect(text).toContain('Planning estimates only');
  });
  expect(exported[0]).toContain('4 × Brake lever');
  expect(exported.join()).toContain('fixed jaw');
  expect(exported.join()).toContain('⌀');
});

test('what the browser prints is the sheet as exported, page by page, and nothing of the window round it', async ({
  planner,
}) => {
  const page = await planner.open(getSample('keeper-links'));
  await page.evaluate(() => {
    window.print = () => document.body.setAttribute('data-printed', document.title);
  });
  await page.keyboard.press('Control+p');
  await expect(page.locator('body')).toHaveAttribute('data-printed', /keeper.links/);
  const shown = await page.getByRole('listitem', { name: /^Page \d+ of \d+/ }).count();
  const path = join(planner.dataFolder, 'printed.pdf');
  await page.pdf({ path, preferCSSPageSize: true });
  const printed = await readPdf(path);
  expect(printed).toHaveLength(shown);
  printed.forEach((text, index) => {
    expect(text).toContain(`page ${index + 1} of ${shown}`);
  });
  expect(printed.join()).not.toContain('What the sheet says');

  await page.getByRole('button', { name: 'Export PDF…' }).click();
  await saveInDialog(page, 'links');
  await expect.poll(() => readdirSync(planner.home)).toContain('links.pdf');
  expect(await readPdf(join(planner.home, 'links.pdf'))).toHaveLength(shown);
});

test('a close grip is mended by the larger bar that its finding offers, and undo takes it back by name', async ({
  planner,
}) => {
  const page = await planner.open(getSample('hoist-arms'));
  await openSetup(page, 'Bar');
  await chooseOption(page, 'Section', /^3\/4 × 2 in 4140/);
  const close = (await readFigure(page, 'grip')) ?? 0;
  expect(close / 25.4).toBeCloseTo(0.29, 2);
  await expect(page.locator('.strip-figure.is-check', { hasText: 'Grip' })).toBeVisible();

  const card = findings(page, 'check').filter({ hasText: 'is wanted for' });
  await card.getByRole('button', { name: /^Take the 3\/4 × 2-1\/4/ }).click();
  await expect(card).toHaveCount(0);
  expect((await readFigure(page, 'grip')) ?? 0).toBeCloseTo(12.7, 3);

  await page.getByRole('button', { name: /^Undo: take the 3\/4 × 2-1\/4/ }).click();
  expect(await readFigure(page, 'grip')).toBe(close);
  await page.getByRole('button', { name: /^Undo: pin section at 3\/4 × 2 in/ }).click();
  expect(await readFigure(page, 'grip')).toBeCloseTo(12.7, 3);
  await page.getByRole('button', { name: /^Redo: pin section at 3\/4 × 2 in/ }).click();
  expect(await readFigure(page, 'grip')).toBe(close);
});

test('every decision figure opens to its formula, its numbers and its source', async ({ planner }) => {
  const page = await planner.open(getSample('hoist-arms'));
  const strip = page.getByRole('region', { name: 'Decision figures' });
  for (const name of ['Grip', 'Proud', 'Hold', 'Rib', 'Stick-out', 'Yield', 'Cost']) {
    await strip.getByRole('button', { name }).first().click();
    const workings = page.getByRole('dialog', { name: `Workings of ${name}` });
    await expect(workings).toContainText('=');
    await expect(workings).toContainText(/source/i);
    await page.keyboard.press('Escape');
    await expect(workings).toHaveCount(0);
  }
});

/** Where each vise stands, as the list beside the canvas says it. */
async function getVises(page: Page): Promise<string[]> {
  return page
    .locator('[data-feature^="vise:"]')
    .evaluateAll((all) => all.map((one) => one.getAttribute('aria-label') ?? ''));
}
