import type { Page } from '@playwright/test';
import { chooseInMenu, expect, getSample, readFigure, showView, test, typeInto } from './support/planner';

declare global {
  interface Window {
    /** How often the page was sent to the printer. */
    printed?: number;
    /** What the desktop window's menu tells the page. */
    chooseInWindowMenu?: (id: string) => void;
  }
}

test.beforeEach(async ({ page }) => {
  await page.addInitScript(() => {
    window.print = () => {
      window.printed = (window.printed ?? 0) + 1;
    };
  });
});

test('the key after a question is heard at once: restored work is printed', async ({ planner, page }) => {
  await planner.open(getSample('hoist-arms'));
  await showView(page, 'Parts');
  const kept = page.waitForResponse((response) => response.url().endsWith('call/writeJournal') && response.ok());
  await typeInto(page, 'Length of Pawl arm', '8-1/4');
  await kept;
  planner.crash();
  await planner.open();
  const question = page.getByRole('alertdialog', { name: 'Work that was not saved' });
  await expect(question).toBeVisible();
  // A question waits for its answer: the key is taken from the browser, and does nothing else.
  await page.keyboard.press('Control+p');
  await expect(page.getByRole('tabpanel', { name: 'Bench', includeHidden: true })).toBeVisible();
  expect(await countPrinted(page)).toBe(0);
  await question.getByRole('button', { name: 'Restore' }).press('Enter');
  await page.keyboard.press('Control+p');
  await expect(page.getByRole('tabpanel', { name: 'Sheet' })).toBeVisible();
  await expect.poll(() => countPrinted(page)).toBe(1);
});

test('a key closes a window that only shows something, and does what it always does', async ({ planner, page }) => {
  await planner.open(getSample('hoist-arms'));
  const guide = page.getByRole('dialog', { name: 'Guide and cautions' });
  const commands = page.getByRole('dialog', { name: 'Commands' });
  const workings = page.getByRole('dialog', { name: 'Workings', exact: true });
  await page.keyboard.press('F1');
  await expect(guide).toBeVisible();
  await page.keyboard.press('Control+k');
  await expect(commands).toBeVisible();
  await expect(guide).toHaveCount(0);
  await page.keyboard.press('Alt+w');
  await expect(workings).toBeVisible();
  await page.keyboard.press('Alt+3');
  await expect(page.getByRole('tabpanel', { name: 'Order' })).toBeVisible();
  await expect(workings).toHaveCount(0);
  await page.keyboard.press('F1');
  await page.keyboard.press('Control+p');
  await expect(guide).toHaveCount(0);
  await expect.poll(() => countPrinted(page)).toBe(1);
});

test('undoing in a dialog is for what is typed there', async ({ planner, page }) => {
  await planner.open(getSample('hoist-arms'));
  await page.getByRole('radio', { name: 'mm', exact: true }).check({ force: true });
  await page.keyboard.press('Control+k');
  await page.keyboard.type('sheet');
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('dialog', { name: 'Commands' })).toBeVisible();
  await page.keyboard.press('Escape');
  await page.keyboard.press('Escape');
  await expect(page.getByRole('dialog', { name: 'Commands' })).toHaveCount(0);
  await expect(page.getByRole('button', { name: 'Undo: show millimetres' })).toBeEnabled();
});

test('what the desktop window’s menu asks is carried out, whatever is open, with what was just typed', async ({
  planner,
  page,
}) => {
  await page.addInitScript(addWindowMenu);
  await planner.open(getSample('hoist-arms'));
  await showView(page, 'Parts');
  await page.getByLabel('Length of Pawl arm', { exact: true }).fill('8');
  await page.evaluate(() => window.chooseInWindowMenu?.('file.save'));
  await expect(page.getByRole('status', { name: 'Saved state' })).toHaveText('saved');
  await expect(page.getByRole('button', { name: 'Undo: change length of Pawl arm to 8.000 in' })).toBeEnabled();

  await typeInto(page, 'Length of Pawl arm', '8-1/8');
  await chooseInMenu(page, 'New plan');
  const question = page.getByRole('alertdialog', { name: 'Save the changes first?' });
  await expect(question).toBeVisible();
  await page.evaluate(() => window.chooseInWindowMenu?.('file.save'));
  await expect(question).toHaveCount(0);
  await expect(page.getByRole('status', { name: 'Saved state' })).toHaveText('saved');
  await page.evaluate(() => window.chooseInWindowMenu?.('file.print'));
  await expect.poll(() => countPrinted(page)).toBe(1);
  expect(await readFigure(page, 'grip')).not.toBeNull();
});

function countPrinted(page: Page): Promise<number> {
  return page.evaluate(() => window.printed ?? 0);
}

/** The desktop window's bridge with the local host behind it. Runs in the page. */
function addWindowMenu(): void {
  const bridge: NonNullable<Window['kerfgrip']> = {
    async call(verb, request) {
      try {
        const response = await fetch(`call/${verb}`, {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify(request),
        });
        return await response.json();
      } catch {
        // The host ends before the page does; a bridge answers then as well.
        return { ok: false, problem: { code: 'host-gone', sentence: 'The host has ended.', where: '' } };
      }
    },
    onAction(listener) {
      window.chooseInWindowMenu = listener;
    },
    onOpen: () => undefined,
  };
  Object.defineProperty(window, 'kerfgrip', { value: bridge });
}
