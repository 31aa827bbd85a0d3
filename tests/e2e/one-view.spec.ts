import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PAPERS } from '../../shared/drawing/sheet/papers';
import { ROOT } from '../run/run-program';
import { readPdf } from '../unit/support/read-pdf';
import { chooseInMenu, chooseOption, expect, getSample, messages, showView, test } from './support/planner';

const SHOTS = join(ROOT, 'build/screenshots');

/** Width and height, px: the first two numbers of a PNG's first chunk (ISO/IEC 15948, 11.2.2). */
function readPictureSize(png: Buffer): [number, number] {
  return [png.readUInt32BE(16), png.readUInt32BE(20)];
}

test('one view goes out as a picture for a message, and as a drawing in true size', async ({ planner }) => {
  const page = await planner.open(getSample('hoist-arms'));
  await chooseInMenu(page, 'Save one view…');
  const dialog = page.getByRole('dialog', { name: 'Save one view' });
  await expect(dialog.getByRole('img', { name: 'Elevation along X' }).locator('svg')).toBeVisible();
  await dialog.getByRole('button', { name: 'PNG picture…' }).click();
  await page.getByRole('textbox', { name: 'File name' }).fill('elevation');
  await page.getByRole('button', { name: 'Save', exact: true }).last().click();
  await expect(messages(page)).toContainText('Wrote elevation.png');
  const png = readFileSync(join(planner.home, 'elevation.png'));
  const [width, height] = readPictureSize(png);
  mkdirSync(SHOTS, { recursive: true });
  writeFileSync(join(SHOTS, 'one-view.png'), png);
  expect(width).toBeGreaterThan(1200);
  expect(height).toBeGreaterThan(400);
  // A picture of nothing but white packs to a few KB.
  expect(png.length).toBeGreaterThan(20_000);

  await chooseInMenu(page, 'Save one view…');
  await chooseOption(page, 'View', /^Part/u);
  await expect(dialog.getByRole('img', { name: 'Pawl arm' }).locator('svg')).toBeVisible();
  await page.screenshot({ path: join(SHOTS, 'one-view-dialog.png') });
  await dialog.getByRole('button', { name: 'DXF…' }).click();
  await page.getByRole('textbox', { name: 'File name' }).fill('pawl');
  await page.getByRole('button', { name: 'Save', exact: true }).last().click();
  await expect(messages(page).last()).toContainText('Wrote pawl.dxf');
  expect(readFileSync(join(planner.home, 'pawl.dxf'), 'utf8')).toContain('ALLOWANCE');
});

test('a view that the plan has not is not offered as a file', async ({ planner }) => {
  const page = await planner.open(getSample('hoist-arms'));
  await showView(page, 'Sheet');
  await page.getByRole('button', { name: 'One view…' }).click();
  await chooseOption(page, 'View', /^Jaw shelf/u);
  const dialog = page.getByRole('dialog', { name: 'Save one view' });
  await expect(dialog.getByRole('button', { name: 'SVG…' })).toBeDisabled();
});

test('the scales of the sheet are chosen beside the paper, and stand on page one', async ({ planner }) => {
  test.slow();
  const page = await planner.open(getSample('keeper-links'));
  await showView(page, 'Sheet');
  const first = page.getByRole('list', { name: 'Pages of the sheet' }).getByRole('listitem').first();
  await expect(first).toContainText(/Elevation along X\s+1:[25]\b/u);
  await chooseOption(page, 'Paper', /^A3$/u);
  await expect(first).toContainText('A3 lying, print at 100 %');
  await chooseOption(page, 'Elevation scale', /^1:10$/u);
  await expect(first).toContainText(/Elevation along X\s+1:10\b/u);
  // What was chosen is part of the plan: it is undone a step at a time.
  await page.getByRole('button', { name: /^Undo/u }).click();
  await expect(first).toContainText(/Elevation along X\s+1:[25]\b/u);
  await expect(first).toContainText('A3 lying, print at 100 %');
  await page.getByRole('button', { name: /^Undo/u }).click();
  await expect(first).toContainText('A4 lying, print at 100 %');
  await page.screenshot({ path: join(SHOTS, 'sheet-scales.png') });
});

for (const { name, width, height } of Object.values(PAPERS)) {
  test(`what the browser prints on ${name} is true to size`, async ({ planner }) => {
    test.slow();
    const page = await planner.open(getSample('keeper-links'));
    await showView(page, 'Sheet');
    await chooseOption(page, 'Paper', name);
    const pages = page.getByRole('list', { name: 'Pages of the sheet' }).getByRole('listitem');
    await expect(pages.first()).toContainText(`${name} lying, print at 100 %`);
    const path = join(planner.dataFolder, 'printed.pdf');
    await page.pdf({ path, preferCSSPageSize: true });
    const printed = (await readPdf(readFileSync(path))).pages;
    expect(printed).toHaveLength(await pages.count());
    for (const each of printed) {
      // A browser makes its pages of whole points of 1/72 in at best.
      expect(Math.abs(each.width - width)).toBeLessThan(0.4);
      expect(Math.abs(each.height - height)).toBeLessThan(0.4);
    }
    const square = printed
      .flatMap(({ paths }) => paths)
      .find(({ left, right, bottom, top }) => Math.abs(right - left - 100) < 0.1 && Math.abs(top - bottom - 100) < 0.1);
    expect(square).toBeDefined();
  });
}
