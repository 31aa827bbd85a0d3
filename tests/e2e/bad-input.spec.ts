import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator, Page } from '@playwright/test';
import {
  chooseInMenu,
  chooseOption,
  expect,
  findings,
  getSample,
  messages,
  openFromDialog,
  openSetup,
  readFigure,
  showView,
  test,
  typeInto,
} from './support/planner';

const ARMS = readFileSync(getSample('hoist-arms'), 'utf8');

const REFUSED: [text: string, says: RegExp][] = [
  ['1,5', /could be 1\.5 or 15/],
  ['0', /must be more than zero/],
  ['-3', /cannot be less than zero/],
  ['NaN', /"NaN" is not a length/],
  ['1/0', /divides by zero/],
  ['3/8/2', /more than one slash/],
  ['1e9', /power of ten/],
  ['999999', /the longest length that is taken/],
];

test('a length that cannot be right is refused beside its field by name, and the plan keeps what it had', async ({
  planner,
}) => {
  const page = await planner.open(getSample('hoist-arms'));
  await showView(page, 'Parts');
  const before = await readFigure(page, 'grip');
  const field = page.getByLabel('Length of Pawl arm', { exact: true });
  for (const [text, says] of REFUSED) {
    await field.fill(text);
    await field.press('Enter');
    await expect(field, text).toHaveAttribute('aria-invalid', 'true');
    const sentence = await readDescription(field);
    expect(sentence, text).toMatch(says);
    expect(sentence, text).toContain('Length of Pawl arm');
    expect(sentence, text).toContain('Kept 7.250 in / 184.15 mm');
    expect(await readFigure(page, 'grip')).toBe(before);
    await field.press('Escape');
    await expect(field).toHaveValue('7.250');
  }
  await expect(page.getByRole('button', { name: 'Undo', exact: true })).toBeDisabled();
});

test('a metric number typed into an inch plan is taken with a warning that asks what was meant', async ({
  planner,
}) => {
  const page = await planner.open(getSample('hoist-arms'));
  await showView(page, 'Parts');
  await typeInto(page, 'Thickness of Pawl arm', '12.7');
  await expect(page.getByText(/12\.7 mm = 0\.500 in\?|12\.7 mm/).first()).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(page.getByLabel('Thickness of Pawl arm', { exact: true })).toHaveValue('0.500');
});

const BAD_FILES: [name: string, content: () => string | Buffer, says: RegExp][] = [
  ['not-json', () => 'this is not a plan', /not JSON|cannot be read|not a plan/i],
  ['empty', () => '', /empty|not a plan|ends/i],
  ['binary', () => Buffer.from([0x50, 0x4b, 3, 4, 0, 0xff, 0xfe, 0, 1]), /not JSON|not a plan|not text/i],
  ['not-a-plan', () => '{"hello": 1}', /not a Kerfgrip plan|not a plan/i],
  ['truncated', () => ARMS.slice(0, ARMS.length / 2), /cut short|ends|incomplete|truncated|damaged/i],
  [
    'negative',
    () => ARMS.replace('"length": 184.15', '"length": -184.15'),
    /part 1, length: must be more than 0, not -184\.15/,
  ],
  ['zero', () => ARMS.replace('"length": 184.15', '"length": 0'), /part 1, length: must be more than 0/],
  ['huge', () => ARMS.replace('"length": 184.15', '"length": 1e300'), /part 1, length: /],
  ['nan', () => ARMS.replace('"length": 184.15', '"length": NaN'), /JSON|damaged|read/i],
  ['null', () => ARMS.replace('"length": 184.15', '"length": null'), /part 1, length: /],
  ['junk-50-mb', () => Buffer.alloc(50_000_000, '[{"a":'), /JSON|plan|large/i],
  ['junk-60-mb', () => Buffer.alloc(60_000_000, 'x'), /larger than 50 MB/i],
];

test('a file that cannot be a plan is refused in one sentence that names it, and is never written over', async ({
  planner,
}) => {
  const page = await planner.open(getSample('hoist-arms'));
  const grip = await readFigure(page, 'grip');
  const folder = join(planner.home, 'bad');
  mkdirSync(folder);
  for (const [name, content] of BAD_FILES) writeFileSync(join(folder, `${name}.kgplan`), content());
  for (const [name, content, says] of BAD_FILES) {
    await openFromDialog(page, 'bad', `${name}.kgplan`);
    const message = messages(page).filter({ hasText: `${name}.kgplan` });
    await expect(message, name).toContainText(says);
    await message.getByRole('button', { name: 'Close this message' }).click();
    expect(await readFigure(page, 'grip'), name).toBe(grip);
    // Saving goes to the file that is open, never to the one that was refused.
    await page.keyboard.press('Control+s');
    expect(readFileSync(join(folder, `${name}.kgplan`)).equals(Buffer.from(content())), name).toBe(true);
  }
});

test('a file that cannot be read, named at the start, is told of, and a plan is open all the same', async ({
  planner,
}) => {
  const path = join(planner.home, 'torn.kgplan');
  writeFileSync(path, ARMS.slice(0, 3000));
  const page = await planner.open(path);
  await expect(messages(page).filter({ hasText: 'torn.kgplan' })).toBeVisible();
  await page.keyboard.press('Control+s');
  expect(readFileSync(path, 'utf8')).toBe(ARMS.slice(0, 3000));
});

test('a part larger than any bar is named, and undo brings the last good state back', async ({ planner }) => {
  const page = await planner.open(getSample('hoist-arms'));
  await showView(page, 'Parts');
  const grip = await readFigure(page, 'grip');
  await typeInto(page, 'Height of Pawl arm', '40');
  await expectStop(page, /No bar of 4140 on offer.*Pawl arm at 40\.000 × 0\.500 in is larger than the largest bar/);
  expect(await readFigure(page, 'yield')).toBeNull();
  await page.keyboard.press('Control+z');
  expect(await readFigure(page, 'grip')).toBe(grip);
});

test('a part longer than any bar is named', async ({ planner }) => {
  const page = await planner.open(getSample('hoist-arms'));
  await showView(page, 'Parts');
  await typeInto(page, 'Length of Hoist lever', '150');
  await expectStop(page, /Hoist lever.*longer than any bar/);
  await expectStop(page, /the nearest, .*4140/);
});

test('a vise that is too small is named with what it opens', async ({ planner }) => {
  const path = join(planner.home, 'small-vise.kgplan');
  writeFileSync(path, ARMS.replace(/"maxOpening": [\d.]+/, '"maxOpening": 15'));
  const page = await planner.open(path);
  await expectStop(page, /^stop: .*machine vise.* opens 0\.591 in/i);
});

test('no parts: said so, with the five steps in place of an empty drawing', async ({ planner }) => {
  const page = await planner.open(getSample('hoist-arms'));
  await chooseInMenu(page, 'New plan');
  await expect(page.getByRole('button', { name: '1 stop 0 checks 0 notes' })).toBeVisible();
  await expectStop(page, /There are no parts yet/);
  await expect(page.getByRole('region', { name: 'Five steps' })).toBeVisible();
  await showView(page, 'Order');
  await expect(page.getByRole('tabpanel', { name: 'Order' })).not.toContainText('No bar is on offer');
});

test('no bars on offer: the material is named, and what to do about it', async ({ planner }) => {
  const page = await planner.open();
  await chooseInMenu(page, 'New plan');
  await showView(page, 'Shop');
  await page.getByRole('option', { name: /^Materials/ }).click();
  await page.getByRole('button', { name: 'Add one like this' }).click();
  await typeInto(page, 'Name', 'Unobtainable');
  await showView(page, 'Bench');
  await page.getByRole('button', { name: 'Add the first part' }).click();
  await showView(page, 'Bench');
  await openSetup(page, 'Bar');
  await chooseOption(page, 'Material', 'Unobtainable');
  await expectStop(page, /No bar of Unobtainable is on offer/);
});

async function expectStop(page: Page, says: RegExp): Promise<void> {
  await showView(page, 'Bench');
  await expect(findings(page, 'stop').filter({ hasText: says })).toHaveCount(1);
}

/** What a screen reader says after the field's name and value. */
async function readDescription(field: Locator): Promise<string> {
  return field.evaluate((element) =>
    (element.getAttribute('aria-describedby') ?? '')
      .split(' ')
      .map((id) => document.getElementById(id)?.textContent ?? '')
      .join(' '),
  );
}
