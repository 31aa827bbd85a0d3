import type { Locator } from '@playwright/test';
import { expect, getSample, openSetup, readFigure, showView, test, typeInto } from './support/planner';

const TAKEN = '3/4 × 2-1/4 in 4140, cold finished';
const NEXT = '3/4 × 2-1/2 in 4140, cold finished';

test('the next bar beside the one that is taken: what differs is marked in words, and nothing changes until one is taken', async ({
  planner,
}) => {
  const page = await planner.open(getSample('hoist-arms'));
  await showView(page, 'Order');
  await page.getByRole('button', { name: `Compare ${NEXT}, on edge` }).click();
  const dialog = page.getByRole('dialog', { name: 'Two variants side by side' });
  await expect(row(dialog, 'Bar')).toHaveText(`Bar${TAKEN}${NEXT}≠ another`);
  await expect(row(dialog, 'Grip')).toContainText('≠ 0.250 in more');
  await expect(row(dialog, 'Cost')).toContainText('223.00 USD');
  await expect(row(dialog, 'Cost')).toContainText('≠ 24.50 USD more');
  await expect(row(dialog, 'Way up')).toContainText('= the same');
  for (const figure of [
    'Seat',
    'Hold, weakest cut',
    'Work bends, most',
    'Allowance to spare, least',
    'Cutter reaches',
  ]) {
    await expect(row(dialog, figure)).toBeVisible();
  }
  for (const figure of ['Weight', 'Yield', 'Stops', 'Checks', 'Notes']) await expect(row(dialog, figure)).toBeVisible();
  const rows = await dialog.getByRole('row').count();
  const marked = await dialog.getByText('≠').count();
  await dialog.getByText('Only what differs').click();
  // The head of the table and of each group stay; of the rows only those that are marked.
  expect(await dialog.getByRole('row').count()).toBeLessThan(rows);
  expect(await dialog.locator('.compare-difference').count()).toBe(marked - 1);
  await expect(row(dialog, 'Way up')).toHaveCount(0);
  await expect(dialog.getByRole('status')).toHaveText(`${marked - 1} figures differ, each marked ≠.`);

  await page.keyboard.press('Escape');
  await expect(page.getByRole('status', { name: 'Saved state' })).toHaveText('saved');
  await expect(page.getByRole('button', { name: 'Undo', exact: true })).toBeDisabled();
});

test('two end sections at one scale, their jaw tops at one height', async ({ planner }) => {
  const page = await planner.open(getSample('hoist-arms'));
  await page.keyboard.press('Alt+c');
  const sections = page.getByRole('dialog').getByRole('img', { name: /^End section of/ });
  await expect(sections).toHaveCount(2);
  const boxes = await sections.locator('svg').evaluateAll((all) =>
    all.map((svg) => {
      const box = svg.getBoundingClientRect();
      return { viewBox: svg.getAttribute('viewBox'), top: box.top, width: box.width, height: box.height };
    }),
  );
  expect(boxes).toHaveLength(2);
  // The same piece of the plane in the same room of the screen: the same scale, and every height straight across.
  expect(boxes[0]).toEqual(boxes[1]);
  const pictures = await sections.locator('svg').evaluateAll((all) => all.map((svg) => svg.innerHTML));
  expect(pictures[0]).not.toBe(pictures[1]);
});

test('one of them is taken as one step that can be undone', async ({ planner }) => {
  const page = await planner.open(getSample('hoist-arms'));
  const cost = await readFigure(page, 'cost');
  await openSetup(page, 'Bar');
  await page.getByRole('button', { name: 'Compare with another bar…' }).click();
  const dialog = page.getByRole('dialog', { name: 'Two variants side by side' });
  await expect(row(dialog, 'Bar')).toContainText(NEXT);
  await dialog.getByRole('button', { name: `Take this one: ${NEXT}, on edge` }).click();
  await expect(dialog).toHaveCount(0);
  expect(await readFigure(page, 'cost')).toBe((cost ?? 0) + 24.5);
  const undo = page.getByRole('button', { name: `Undo: take the ${NEXT}, on edge bar` });
  await undo.click();
  expect(await readFigure(page, 'cost')).toBe(cost);
});

test('the plan as it was, before a step and on file, by keyboard alone', async ({ planner }) => {
  const page = await planner.open(getSample('hoist-arms'));
  await openSetup(page, 'Holding');
  await typeInto(page, 'Grip wanted', '0.7');
  await typeInto(page, 'Vises', '2');
  const vises = page.getByLabel('Vises', { exact: true });
  await page.keyboard.press('Control+k');
  await page.keyboard.type('compare');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  const dialog = page.getByRole('dialog', { name: 'Two variants side by side' });
  await expect(dialog).toBeVisible();
  await page.keyboard.press('Tab');
  const right = dialog.getByRole('button', { name: /Right$/ });
  while (!(await right.evaluate((element) => element === document.activeElement))) await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('option', { name: 'as it is on file' })).toBeVisible();
  await expect(page.getByRole('option', { name: 'as it was before “pin grip wanted at 0.700 in”' })).toBeVisible();
  await expect(page.locator('[role="option"]:focus')).toHaveCount(1);
  for (const key of ['End', 'ArrowUp', 'ArrowUp']) await page.keyboard.press(key);
  await expect(page.getByRole('option', { name: 'as it was before “pin vises at 2”' })).toBeFocused();
  await page.keyboard.press('Enter');
  await expect(row(dialog, 'Vises')).toHaveText('Vises23≠ 1 more');
  await expect(row(dialog, 'Grip')).toContainText('= the same');
  await expect(right).toBeFocused();
  await page.keyboard.press('Tab');
  await expect(dialog.getByRole('button', { name: /^Take this one/ })).toBeFocused();
  await page.keyboard.press('Enter');
  await expect(dialog).toHaveCount(0);
  await expect(vises).toHaveValue('3');
  await expect(page.getByRole('button', { name: /^Undo: take the plan as it was before “pin vises/ })).toBeEnabled();
  await page.keyboard.press('Control+z');
  await expect(vises).toHaveValue('2');
});

test('a bar that does not fit is compared for what it is', async ({ planner }) => {
  const page = await planner.open(getSample('keeper-links'));
  await showView(page, 'Order');
  await page.getByRole('checkbox', { name: /^Show the \d+ that do not fit/ }).check({ force: true });
  const unfit = page
    .getByRole('row')
    .filter({ hasText: /too (low|thin)/ })
    .last();
  await unfit.getByRole('button', { name: /^Compare/ }).click();
  const dialog = page.getByRole('dialog', { name: 'Two variants side by side' });
  await expect(row(dialog, 'Stops')).toContainText(/≠ [1-9]\d* more/);
  await expect(
    dialog.getByRole('region', { name: 'Found only on the right' }).getByText('stop:').first(),
  ).toBeAttached();
});

function row(dialog: Locator, figure: string): Locator {
  return dialog.getByRole('row').filter({ has: dialog.page().getByRole('rowheader', { name: figure, exact: true }) });
}
