import type { Page } from '@playwright/test';
import type { Plan } from '../../shared/model/plan';
import { openChanged } from './support/bench';
import { expect, showView, test } from './support/planner';

const COUNT = 200;

test('a list of two hundred parts: rows are there where they are looked at, and what is typed is kept', async ({
  planner,
}) => {
  test.slow();
  const page = await openChanged(planner, withManyParts);
  await showView(page, 'Parts');
  const table = page.getByRole('region', { name: 'Parts', exact: true }).getByRole('table');
  await expect(table).toHaveAttribute('aria-rowcount', String(COUNT + 1));
  expect(await rows(page).count()).toBeLessThan(COUNT);

  // Half a word stands in a field while the list is scrolled to its end and back.
  const first = page.getByLabel('Length of Part 1', { exact: true });
  await first.click();
  await first.fill('9-1/');
  await scrollTo(page, 'end');
  await expect(page.getByLabel(`Name of part ${COUNT}`, { exact: true })).toBeVisible();
  await scrollTo(page, 'start');
  await expect(first).toHaveValue('9-1/');
  await first.fill('9-1/4');
  await first.press('Enter');
  await expect(page.getByRole('button', { name: 'Undo: change length of Part 1 to 9.250 in' })).toBeEnabled();

  // What is added comes into sight at the end of the list.
  await page.getByRole('button', { name: 'Add a part' }).click();
  await expect(page.getByLabel(`Name of part ${COUNT + 1}`, { exact: true })).toBeInViewport();

  // From row to row by the Tab key, past what was drawn at first.
  await scrollTo(page, 'start');
  await page.getByLabel('Name of part 8', { exact: true }).focus();
  const wanted = page.getByLabel('Name of part 24', { exact: true });
  const hasFocus = (): Promise<boolean> =>
    page.evaluate(() => document.activeElement?.matches('[aria-rowindex="25"] *') === true);
  for (let press = 0; press < 300 && !(await hasFocus()); press += 1) await page.keyboard.press('Tab');
  await expect(wanted).toBeInViewport();
});

function rows(page: Page) {
  return page.locator('.parts-table tbody tr[data-row]');
}

async function scrollTo(page: Page, where: 'start' | 'end'): Promise<void> {
  await page
    .locator('.parts-table .scroll-box')
    .evaluate((box, place) => box.scrollTo(0, place === 'start' ? 0 : box.scrollHeight), where);
}

function withManyParts(plan: Plan): Plan {
  const parts = Array.from({ length: COUNT }, (_, index) => ({
    ...(plan.parts[index % plan.parts.length] as Plan['parts'][number]),
    id: `part-${index}`,
    name: `Part ${index + 1}`,
    quantity: 1,
  }));
  return { ...plan, parts };
}
