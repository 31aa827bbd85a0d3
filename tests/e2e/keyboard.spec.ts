import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator, Page } from '@playwright/test';
import { expect, readFigure, test } from './support/planner';

test('a whole plan by keyboard alone, from an empty one to the file', async ({ planner }) => {
  const page = await planner.open();
  const keys = page.keyboard;
  await command(page, 'New plan');
  await expect(page.getByText('No parts yet')).toBeVisible();
  await tabTo(page, page.getByRole('button', { name: 'Add a part' }));
  await keys.press('Enter');

  await tabTo(page, page.getByLabel('Name of part 1', { exact: true }));
  await keys.type('Crank arm');
  await keys.press('Enter');
  for (const [label, text] of [
    ['Quantity of Crank arm', '6'],
    ['Length of Crank arm', '11-1/2"'],
    ['Height of Crank arm', '1 1/4"'],
    ['Thickness of Crank arm', '1/2"'],
  ] as const) {
    await tabTo(page, page.getByLabel(label, { exact: true }));
    await keys.type(text);
    await keys.press('Enter');
  }
  await expect(page.getByText('11.500 in / 292.10 mm')).toBeVisible();
  expect(await readFigure(page, 'grip')).toBeGreaterThan(6);

  // The Bench: a vise pinned where it stands, moved by an arrow key, and given back to auto.
  await keys.press('Alt+2');
  const vise = page.locator('[data-feature="vise:0"]');
  await tabTo(page, vise);
  const auto = await vise.getAttribute('aria-label');
  await keys.press('ArrowRight');
  await expect(vise).toHaveAccessibleName(/pinned$/);
  await keys.press('a');
  await expect(vise).toHaveAccessibleName(auto ?? '');

  // The metal, from a list, and a decision pinned in its field.
  const bar = page.getByRole('complementary', { name: 'Setup' }).getByRole('heading').getByRole('button', {
    name: /^Bar/,
  });
  await tabTo(page, bar, 'Shift+Tab');
  if ((await bar.getAttribute('aria-expanded')) === 'false') await keys.press('Enter');
  await tabTo(page, page.getByRole('button', { name: /Material$/ }));
  await keys.press('Enter');
  await keys.type('4140');
  await keys.press('Enter');
  await expect(page.getByRole('button', { name: /4140.*Material$/ })).toBeVisible();
  await keys.press('Alt+p');

  // A finding's own fix, where it offers one.
  const fix = page.getByRole('complementary', { name: 'Findings' }).locator('.fix-button').first();
  await tabTo(page, fix);
  const label = (await fix.textContent()) ?? '';
  await keys.press('Enter');
  await expect(page.getByRole('button', { name: /^Undo: / })).toHaveAccessibleName(
    `Undo: ${label.charAt(0).toLowerCase()}${label.slice(1)}`,
  );

  // The bar, on the Order.
  await keys.press('Alt+3');
  const take = page.getByRole('button', { name: /^Take / }).first();
  const name = ((await take.getAttribute('aria-label')) ?? '').replace('Take ', '');
  await tabTo(page, take);
  await keys.press('Enter');
  await expect(page.getByRole('row').filter({ hasText: 'taken' })).toContainText(name.split(',')[0] ?? '');

  await keys.press('Control+s');
  await expect(page.getByRole('dialog', { name: 'Save the plan' })).toBeVisible();
  await keys.press('Control+a');
  await keys.type('crank');
  await keys.press('Enter');
  await expect(page.getByRole('status', { name: 'Saved state' })).toHaveText('saved');
  const saved = JSON.parse(readFileSync(join(planner.home, 'crank.kgplan'), 'utf8'));
  expect(saved.parts[0]).toMatchObject({ name: 'Crank arm', quantity: 6, length: 292.1 });

  await keys.press('Control+p');
  await expect(page.getByRole('tabpanel', { name: 'Sheet' })).toBeVisible();
});

test('every stop of the Tab key is seen, in every view', async ({ planner }) => {
  const page = await planner.open();
  let seen = 0;
  const unseen: string[] = [];
  for (const [digit, view] of ['Parts', 'Bench', 'Order', 'Sheet', 'Shop'].entries()) {
    await page.keyboard.press(`Alt+${digit + 1}`);
    await expect(page.getByRole('tabpanel', { name: view })).toBeVisible();
    for (let press = 0; press < 40; press += 1) {
      await page.keyboard.press('Tab');
      const stop = await page.evaluate(readFocus);
      if (stop === null) continue;
      if (stop.isSeen) seen += 1;
      else unseen.push(`${view}: ${stop.name}`);
    }
  }
  expect(unseen).toEqual([]);
  expect(seen).toBeGreaterThan(180);
});

/** What has the focus once it is drawn, and whether anything on the screen shows that it has; null where nothing has it. */
async function readFocus(): Promise<{ readonly name: string; readonly isSeen: boolean } | null> {
  // A frame for what marks it to be drawn, and one more for what follows from the key.
  await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
  const isMarked = (element: Element | null): boolean => {
    if (!(element instanceof HTMLElement)) return false;
    const style = getComputedStyle(element);
    const hasOutline = style.outlineStyle !== 'none' && Number.parseFloat(style.outlineWidth) > 0;
    return hasOutline || style.boxShadow !== 'none';
  };
  const target = document.activeElement;
  if (!(target instanceof HTMLElement) || target === document.body) return null;
  const box = target.getBoundingClientRect();
  const isOnScreen = box.bottom > 0 && box.right > 0 && box.top < innerHeight && box.left < innerWidth;
  const isSeen = isOnScreen && [target, target.parentElement, target.closest('label')].some(isMarked);
  return { name: `${target.tagName} ${target.className} ${target.getAttribute('aria-label') ?? ''}`, isSeen };
}

/** Presses Tab, or Shift and Tab where that is nearer, until the focus is there. */
async function tabTo(page: Page, target: Locator, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
  for (let press = 0; press < 150; press += 1) {
    if (await target.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press(key);
  }
  throw new Error(`The Tab key does not come to ${target}.`);
}

/** Does what the list of commands calls so. */
async function command(page: Page, name: string): Promise<void> {
  await page.keyboard.press('Control+k');
  await expect(page.getByRole('dialog', { name: 'Commands' })).toBeVisible();
  await page.keyboard.type(name);
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
}
