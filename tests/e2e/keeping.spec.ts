import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import {
  chooseInMenu,
  expect,
  getSample,
  messages,
  type Planner,
  readFigure,
  saveInDialog,
  showView,
  test,
  typeInto,
} from './support/planner';

const LENGTH = 'Length of Pawl arm';

test('after a crash the work that was not saved is offered, restored as it was and still counts as unsaved', async ({
  planner,
}) => {
  const page = await planner.open(getSample('hoist-arms'));
  await editLength(page, '8-1/8');
  const grip = await readFigure(page, 'grip');
  await expectKept(planner, '"length": 206.375');
  planner.crash();
  await typeInto(page, LENGTH, '9');
  await expect(messages(page)).toContainText('Unsaved work is not being kept');

  await planner.open();
  const dialog = page.getByRole('alertdialog', { name: 'Work that was not saved' });
  await expect(dialog).toContainText('Sluice-gate hoist: pawl arms and levers');
  await expect(dialog).toContainText('hoist-arms.kgplan');
  await dialog.getByRole('button', { name: 'Restore' }).click();
  await showView(page, 'Parts');
  await expect(page.getByLabel(LENGTH, { exact: true })).toHaveValue('8.125');
  expect(await readFigure(page, 'grip')).toBe(grip);
  await expect(savedState(page)).toContainText('not saved');
  const path = join(planner.home, 'hoist-arms.kgplan');
  expect(readFileSync(path, 'utf8')).toBe(readFileSync(getSample('hoist-arms'), 'utf8'));
  await page.keyboard.press('Control+s');
  await expect(savedState(page)).toHaveText('saved');
  expect(JSON.parse(readFileSync(path, 'utf8')).parts[0].length).toBe(206.375);
});

test('work that was never saved is offered too, and what is thrown away does not come back', async ({ planner }) => {
  const page = await planner.open();
  await chooseInMenu(page, 'New plan');
  await page.getByRole('button', { name: 'Add a part' }).click();
  await typeInto(page, 'Name of part 1', 'Brake lever');
  await expectKept(planner, 'Brake lever');
  planner.crash();

  await planner.open();
  const dialog = page.getByRole('alertdialog', { name: 'Work that was not saved' });
  await expect(dialog).toContainText('never saved');
  await dialog.getByRole('button', { name: 'Throw it away' }).click();
  await expect(dialog).toHaveCount(0);
  await planner.close();
  await planner.open();
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  await expect(dialog).toHaveCount(0);
});

test('a page loaded anew offers what it had not saved', async ({ planner }) => {
  const page = await planner.open(getSample('hoist-arms'));
  await editLength(page, '8-1/4');
  await expectKept(planner, '"length": 209.55');
  await page.reload();
  const dialog = page.getByRole('alertdialog', { name: 'Work that was not saved' });
  await dialog.getByRole('button', { name: 'Restore' }).click();
  await showView(page, 'Parts');
  await expect(page.getByLabel(LENGTH, { exact: true })).toHaveValue('8.250');
});

test('a second window takes over with what the first had not saved, and the first says so', async ({
  planner,
  page,
  context,
}) => {
  await planner.open(getSample('hoist-arms'));
  await editLength(page, '8-1/4');
  await expectKept(planner, '"length": 209.55');
  const second = await context.newPage();
  await second.goto(page.url());
  const dialog = second.getByRole('alertdialog', { name: 'Work that was not saved' });
  await dialog.getByRole('button', { name: 'Restore' }).click();
  await showView(second, 'Parts');
  await expect(second.getByLabel(LENGTH, { exact: true })).toHaveValue('8.250');

  await typeInto(page, LENGTH, '9');
  await expect(messages(page)).toContainText('opened again in another window');
  await page.keyboard.press('Control+s');
  const path = join(planner.home, 'hoist-arms.kgplan');
  await second.keyboard.press('Control+s');
  await expect(savedState(second)).toHaveText('saved');
  expect(JSON.parse(readFileSync(path, 'utf8')).parts[0].length).toBe(209.55);
});

test('a file changed on disk since it was opened: saving asks, and another name keeps both', async ({ planner }) => {
  const page = await planner.open(getSample('hoist-arms'));
  const path = join(planner.home, 'hoist-arms.kgplan');
  await editLength(page, '8');
  const theirs = readFileSync(path, 'utf8').replace('"quantity": 6', '"quantity": 9');
  writeFileSync(path, theirs);

  await page.keyboard.press('Control+s');
  const asks = page.getByRole('alertdialog', { name: 'The file has changed on disk' });
  await expect(asks).toContainText('hoist-arms.kgplan');
  await asks.getByRole('button', { name: 'Cancel' }).click();
  expect(readFileSync(path, 'utf8')).toBe(theirs);
  await expect(savedState(page)).toContainText('not saved');

  await page.keyboard.press('Control+s');
  await asks.getByRole('button', { name: /^Save under another name/ }).click();
  await saveInDialog(page, 'mine');
  await expect(savedState(page)).toHaveText('saved');
  expect(readFileSync(path, 'utf8')).toBe(theirs);
  const mine = JSON.parse(readFileSync(join(planner.home, 'mine.kgplan'), 'utf8'));
  expect(mine.parts[0]).toMatchObject({ length: 203.2, quantity: 6 });
});

test('a name that is taken is asked about, and the other file stays unless it is to go', async ({ planner }) => {
  const page = await planner.open(getSample('hoist-arms'));
  const other = join(planner.home, 'other.kgplan');
  writeFileSync(other, 'not ours to lose');
  await chooseInMenu(page, 'Save as…');
  const dialog = page.getByRole('dialog', { name: /^Save/ });
  await dialog.getByRole('textbox', { name: 'File name' }).fill('other');
  await dialog.getByRole('button', { name: 'Save', exact: true }).click();
  const asks = page.getByRole('alertdialog', { name: 'Replace the file?' });
  await asks.getByRole('button', { name: 'Choose another name' }).click();
  expect(readFileSync(other, 'utf8')).toBe('not ours to lose');
  await saveInDialog(page, 'third');
  await expect.poll(() => existsSync(join(planner.home, 'third.kgplan'))).toBe(true);
  expect(readFileSync(other, 'utf8')).toBe('not ours to lose');
});

test('a plan with unsaved changes is not left without asking; it is saved, kept open or discarded', async ({
  planner,
}) => {
  const page = await planner.open(getSample('hoist-arms'));
  const path = join(planner.home, 'hoist-arms.kgplan');
  await editLength(page, '8');
  await chooseInMenu(page, 'New plan');
  const asks = page.getByRole('alertdialog', { name: 'Save the changes first?' });
  await asks.getByRole('button', { name: 'Cancel' }).click();
  await expect(page.getByLabel(LENGTH, { exact: true })).toHaveValue('8.000');
  await chooseInMenu(page, 'New plan');
  await asks.getByRole('button', { name: 'Save', exact: true }).click();
  await expect(page.getByText('No parts yet')).toBeVisible();
  expect(JSON.parse(readFileSync(path, 'utf8')).parts[0].length).toBe(203.2);

  await chooseInMenu(page, 'Open recent', /^hoist-arms\.kgplan/);
  await showView(page, 'Parts');
  await editLength(page, '9');
  await chooseInMenu(page, 'New plan');
  await asks.getByRole('button', { name: 'Discard changes' }).click();
  await expect(page.getByText('No parts yet')).toBeVisible();
  expect(JSON.parse(readFileSync(path, 'utf8')).parts[0].length).toBe(203.2);
});

async function editLength(page: Page, text: string): Promise<void> {
  await showView(page, 'Parts');
  await typeInto(page, LENGTH, text);
  await expect(savedState(page)).toContainText('not saved');
}

const savedState = (page: Page) => page.getByRole('status', { name: 'Saved state' });

/** Waits until what was typed is in the journal, as it is within a second of the last change. */
async function expectKept({ dataFolder }: Planner, text: string): Promise<void> {
  const readJournals = (): string =>
    (existsSync(dataFolder) ? readdirSync(dataFolder, { recursive: true, encoding: 'utf8' }) : [])
      .filter((name) => name.endsWith('.journal.json'))
      .map((name) => readFileSync(join(dataFolder, name), 'utf8').replaceAll('":', '": ').replaceAll('  ', ' '))
      .join('');
  await expect.poll(readJournals).toContain(text);
}
