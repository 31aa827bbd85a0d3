import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Papa from 'papaparse';
import { readPdf } from './support/pdf';
import { chooseOption, expect, getSample, saveInDialog, showView, test, typeInto } from './support/planner';

test('the cut list goes to a CSV file as it is sawn: longest first, every stretch of every bar accounted for', async ({
  planner,
}) => {
  const page = await planner.open(getSample('hoist-arms'));
  await showView(page, 'Order');
  await page.getByRole('button', { name: 'Export the cut list…' }).click();
  await saveInDialog(page, 'cuts');
  await expect.poll(() => readdirSync(planner.home)).toContain('cuts.csv');
  const csv = Papa.parse<string[]>(readFileSync(join(planner.home, 'cuts.csv'), 'utf8').replace(/^\uFEFF/, ''), {
    skipEmptyLines: true,
  });
  const [head, ...rows] = csv.data;
  const at = (name: string): number => head?.findIndex((cell) => cell.startsWith(name)) ?? -1;
  const read = (row: string[] | undefined, name: string): number => Number(row?.[at(name)]);
  const blanks = rows.filter((row) => row[at('What')] === 'blank').map((row) => read(row, 'Length'));
  expect(blanks).toEqual(blanks.toSorted((a, b) => b - a));
  rows.forEach((row, index) => {
    const next = rows[index + 1];
    expect(read(row, 'To') - read(row, 'From')).toBeCloseTo(read(row, 'Length'), 3);
    if (next !== undefined) expect(read(row, 'To') + read(row, 'Kerf')).toBeCloseTo(read(next, 'From'), 3);
  });
  expect(read(rows.at(-1), 'To')).toBe(read(rows[0], 'Bar length'));

  const list = page.getByRole('region', { name: 'Cut list' });
  await list.getByText('Every cut, in order').first().click();
  const shown = await list.getByRole('row').filter({ hasText: 'blank' }).count();
  expect(shown).toBe(blanks.length);
});

test('what is printed from the order is the cut list by itself, on pages of the sheet', async ({ planner }) => {
  const page = await planner.open(getSample('hoist-arms'));
  await page.evaluate(() => {
    window.print = () => document.body.setAttribute('data-printed', 'yes');
  });
  await showView(page, 'Order');
  const button = page.getByRole('button', { name: 'Print the cut list…' });
  await button.click();
  await expect(page.locator('body')).toHaveAttribute('data-printed', 'yes');
  await expect(button).toBeDisabled();
  const path = join(planner.dataFolder, 'cuts.pdf');
  await page.pdf({ path, preferCSSPageSize: true });
  const pages = await readPdf(path);
  const text = pages.join(' ');
  for (const word of ['Bars to buy', 'Cut list', 'bad end', '2 × Hoist lever', 'Planning estimates only']) {
    expect(text).toContain(word);
  }
  for (const word of ['Goes by', 'Sections compared', 'True scale', 'Order of work']) expect(text).not.toContain(word);
  pages.forEach((each, index) => {
    expect(each).toContain(`page ${index + 1} of ${pages.length}`);
  });

  await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
  await expect(button).toBeEnabled();
  await expect(page.locator('.cut-list-pages')).toHaveCount(0);
});

test('after the job what was kept goes on the rack, is used by the next order, and comes off again with undo', async ({
  planner,
}) => {
  const page = await planner.open(getSample('hoist-arms'));
  await showView(page, 'Order');
  const list = page.getByRole('region', { name: 'Cut list' });
  await expect(list).toContainText('keep 34.883');
  await list.getByRole('button', { name: 'Sawn: put 1 kept on the rack' }).click();
  const undo = page.getByRole('button', { name: 'Undo: the rack after the job' });
  await expect(undo).toBeEnabled();

  await showView(page, 'Shop');
  await page.getByRole('option', { name: 'Rack' }).click();
  const rack = page.getByRole('region', { name: 'Rack', exact: true });
  await expect(rack.getByRole('option', { name: /34\.883/ })).toHaveCount(1);

  // Half as many come out of the piece on the rack alone.
  await showView(page, 'Parts');
  await typeInto(page, 'Quantity of Pawl arm', '2');
  await typeInto(page, 'Quantity of Hoist lever', '1');
  await showView(page, 'Order');
  await expect(page.getByRole('region', { name: 'To buy' })).toContainText('from the rack');
  await expect(list.getByRole('button', { name: /take 1 used/ })).toBeVisible();

  for (let step = 0; step < 3; step += 1) await page.keyboard.press('Control+z');
  await showView(page, 'Shop');
  await page.getByRole('option', { name: 'Rack' }).click();
  await expect(rack.getByRole('option', { name: /34\.883/ })).toHaveCount(0);
});

test('a limit on cutting patterns and the rule for spares are set where the order is, the chance of enough beside them', async ({
  planner,
}) => {
  const page = await planner.open(getSample('keeper-links'));
  await showView(page, 'Order');
  const bars = page.getByRole('region', { name: 'Cut list' }).getByRole('article');
  await expect(bars).toHaveCount(2);
  await typeInto(page, 'Most cutting patterns', '1');
  await expect(page.getByRole('button', { name: 'Undo: change most cutting patterns to 1' })).toBeEnabled();
  await expect(bars).toHaveCount(1);
  await expect(bars.getByRole('heading')).toHaveText(/and \d+ more like it/);
  await page.keyboard.press('Control+z');
  await expect(bars).toHaveCount(2);

  const spares = page.getByRole('table').filter({ hasText: 'Keeper link' }).filter({ hasText: 'enough' });
  await expect(spares).toContainText(/\d\d\.\d %/);
  await chooseOption(page, 'Rule', 'none');
  await expect(spares).toHaveCount(0);
});
