import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, getSample, messages, showView, test, typeInto } from './support/planner';

const MARKUP = '<img src=x onerror="document.title=1"><script>alert(1)</script>';

test('markup in the names of a plan is shown as text in every view', async ({ planner, page }) => {
  // Four views, drawn for the first time.
  test.slow();
  const path = join(planner.home, 'markup.kgplan');
  const plan = JSON.parse(readFileSync(getSample('hoist-arms'), 'utf8'));
  plan.name = MARKUP;
  for (const part of plan.parts) part.name = MARKUP;
  for (const cut of plan.cuts) cut.name = MARKUP;
  writeFileSync(path, JSON.stringify(plan));
  let alerts = 0;
  page.on('dialog', (dialog) => {
    alerts += 1;
    void dialog.dismiss();
  });
  await planner.open(path);
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(MARKUP);
  for (const view of ['Parts', 'Bench', 'Order', 'Sheet'] as const) {
    await showView(page, view);
    await expect(page.locator('img[src="x"], body script')).toHaveCount(0);
  }
  expect(alerts).toBe(0);
});

test('a plan of a newer program is read only and says so; saving asks for another name first', async ({ planner }) => {
  const path = join(planner.home, 'newer.kgplan');
  const text = JSON.stringify({ ...JSON.parse(readFileSync(getSample('hoist-arms'), 'utf8')), version: 99 });
  writeFileSync(path, text);
  const page = await planner.open(path);
  await expect(messages(page)).toContainText('written by a newer Kerfgrip');
  await expect(page.getByLabel('Saved state')).toHaveText('read only');
  await showView(page, 'Parts');
  await typeInto(page, 'Length of Pawl arm', '7.5');
  await page.keyboard.press('Control+s');
  const warning = page.getByRole('alertdialog', { name: 'This plan is of a newer version' });
  await warning.getByRole('button', { name: 'Cancel' }).click();
  expect(readFileSync(path, 'utf8')).toBe(text);
});

test('a plan that someone else has open is not written over before the user was told who and since when', async ({
  planner,
}) => {
  const path = join(planner.home, 'hoist-arms.kgplan');
  const text = readFileSync(getSample('hoist-arms'), 'utf8');
  writeFileSync(path, text);
  const note = { who: 'keeper', machine: 'bench-2', processId: 9, session: 'other', since: new Date().toISOString() };
  writeFileSync(join(planner.home, '.hoist-arms.kgplan.open'), JSON.stringify(note));
  const page = await planner.open(path);
  await showView(page, 'Parts');
  await typeInto(page, 'Length of Pawl arm', '7.5');
  await page.keyboard.press('Control+s');
  const warning = page.getByRole('alertdialog', { name: 'Someone else has this plan open' });
  await expect(warning).toContainText('keeper has this plan open on bench-2 since');
  expect(readFileSync(path, 'utf8')).toBe(text);
  await warning.getByRole('button', { name: 'Overwrite it' }).click();
  await expect(page.getByLabel('Saved state')).toHaveText('saved');
});
