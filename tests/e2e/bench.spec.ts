import AxeBuilder from '@axe-core/playwright';
import type { Plan } from '../../shared/model/plan';
import { dragBy, getFeature, inch, openChanged, pinVises, readPlace, readScale, readUndo } from './support/bench';
import { expect, readFigure, test } from './support/planner';

/** Soft jaws with a shelf milled into them. */
const onShelf = (plan: Plan): Plan => ({
  ...plan,
  holding: { ...pinVises(plan).holding, jawSetId: 'jaws-6in-soft', seat: { pinned: { kind: 'shelf' } } },
});

const onTabs = (plan: Plan): Plan => ({
  ...pinVises(plan),
  release: { ...plan.release, keep: { pinned: 'tabs' } },
});

test('a part is dragged along its bar: it stays under the pointer, pins the layout and is one step', async ({
  planner,
}) => {
  const page = await openChanged(planner, pinVises);
  const part = page.getByRole('button', { name: /^Hoist lever 2,/u });
  const before = await readPlace(part);
  const scale = await readScale(page);
  await dragBy(page, part, 40, 0, { hold: { x: 0.4, y: 0.6 }, free: true });
  await expect(part).toHaveAccessibleName(/pinned$/u);
  expect((await readPlace(part)) - before).toBeCloseTo(40 / scale, 0);
  expect(await readUndo(page)).toMatch(/^move Hoist lever 2 to /u);
  await page.keyboard.press('Control+z');
  await expect(part).toHaveAccessibleName(/auto$/u);
  expect(await readPlace(part)).toBeCloseTo(before, 3);
  expect(await readUndo(page)).toBe('');
});

test('a vise is dragged along the table: the figures follow, and Escape puts it back', async ({ planner }) => {
  const page = await openChanged(planner, pinVises);
  const vise = getFeature(page, 'vise:2');
  const overlap = page.getByText(/Vises 2 and 3 overlap/u);
  await expect(overlap).toHaveCount(0);
  await dragBy(page, vise, -170, 0, { hold: { x: 0.8, y: 0.9 }, keep: true });
  await expect(page.locator('.bench-bubble')).toContainText('centre from the stop');
  await expect(overlap).toHaveCount(1);
  await page.keyboard.press('Escape');
  await page.mouse.up();
  await expect(overlap).toHaveCount(0);
  expect(await readPlace(vise)).toBeCloseTo(20.5 * inch, 3);
  expect(await readUndo(page)).toBe('');

  await dragBy(page, vise, 30, 0, { hold: { x: 0.8, y: 0.9 }, free: true });
  expect(await readPlace(vise)).toBeGreaterThan(20.8 * inch);
  expect(await readUndo(page)).toMatch(/^move vise 3 to 2[12]\./u);
});

test('the bar is dragged off its stop and rests on it again', async ({ planner }) => {
  const page = await openChanged(planner, pinVises);
  const bar = getFeature(page, 'blank:');
  // By the grip between the first two vises, where the bar itself is seen.
  const grip = { hold: { x: 0.29, y: 0.9 } };
  await dragBy(page, bar, 36, 0, { ...grip, free: true });
  const off = await readPlace(bar);
  expect(off).toBeGreaterThan(5);
  // To within a px of the stop, at the scale that the views were fitted to after the first drag.
  await dragBy(page, bar, 1 - off * (await readScale(page)), 0, grip);
  expect(await readPlace(bar)).toBe(0);
});

test('the shelf is dragged deeper in the stack: the grip grows by as much', async ({ planner }) => {
  const page = await openChanged(planner, onShelf);
  const seat = getFeature(page, 'seat:shelf');
  const depth = await readPlace(seat);
  const grip = (await readFigure(page, 'grip')) ?? Number.NaN;
  await seat.focus();
  await page.keyboard.press('ArrowDown');
  await expect.poll(() => readPlace(seat)).toBeCloseTo(depth + 0.05 * inch, 3);
  await page.keyboard.press('Control+z');
  // By the ledge of the fixed jaw, which carries the bar.
  await dragBy(page, seat, 0, 10, { hold: { x: 0.06, y: 0.5 }, free: true });
  const deeper = await readPlace(seat);
  expect(deeper).toBeGreaterThan(depth);
  expect(((await readFigure(page, 'grip')) ?? Number.NaN) - grip).toBeCloseTo(deeper - depth, 2);
  await expect(seat).toHaveAccessibleName(/pinned$/u);
});

test('a tab is dragged along its part', async ({ planner }) => {
  const page = await openChanged(planner, onTabs);
  const tab = getFeature(page, 'tab:');
  const before = await readPlace(tab);
  const scale = await readScale(page);
  await dragBy(page, tab, 24, 0, { free: true });
  expect((await readPlace(tab)) - before).toBeCloseTo(24 / scale, 0);
  await expect(tab).toHaveAccessibleName(/pinned$/u);
  await tab.focus();
  await page.keyboard.press('a');
  await expect(tab).toHaveAccessibleName(/auto$/u);
  expect(await readPlace(tab)).toBeCloseTo(before, 2);
});

test('the section line is dragged: the section follows and no step is made', async ({ planner }) => {
  const page = await openChanged(planner, pinVises);
  const line = getFeature(page, 'field:sectionX');
  const before = await readPlace(line);
  await dragBy(page, line, 60, 0, { hold: { x: 0.97, y: 0.3 } });
  expect(await readPlace(line)).toBeGreaterThan(before + 10);
  await expect(page.getByText(/^at X /u)).toBeVisible();
  expect(await readUndo(page)).toBe('');
  await page.getByRole('button', { name: 'Reset' }).click();
  expect(await readPlace(line)).toBeCloseTo(before, 3);
});

test('keys alone: Tab comes to everything, arrows nudge by the step of the shop, a number is typed', async ({
  planner,
}) => {
  const page = await openChanged(planner, pinVises);
  await page.getByRole('button', { name: 'Fit', exact: true }).focus();
  const reached: string[] = [];
  for (let press = 0; press < 7; press += 1) {
    await page.keyboard.press('Tab');
    reached.push(await page.evaluate(() => document.activeElement?.getAttribute('data-feature') ?? ''));
  }
  expect(reached.map((feature) => feature.split(':')[0])).toEqual([
    'blank',
    'part',
    'part',
    'vise',
    'vise',
    'vise',
    'field',
  ]);
  const vise = getFeature(page, 'vise:1');
  await vise.focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  expect(await readPlace(vise)).toBeCloseTo(12.1 * inch, 3);
  await page.keyboard.press('Shift+ArrowLeft');
  expect(await readPlace(vise)).toBeCloseTo(11.6 * inch, 3);
  await page.keyboard.type('11-1/2');
  await expect(page.getByText('= 11.500 in / 292.10 mm')).toBeVisible();
  await page.keyboard.press('Enter');
  expect(await readPlace(vise)).toBeCloseTo(11.5 * inch, 3);
  await expect(vise).toBeFocused();
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  expect(await readPlace(vise)).toBeCloseTo(12 * inch, 3);
  await page.keyboard.press('a');
  await expect(vise).toHaveAccessibleName(/auto$/u);
  await page.keyboard.press('p');
  await expect(vise).toHaveAccessibleName(/pinned$/u);
});

test('a number typed while dragging takes the place of the drag', async ({ planner }) => {
  const page = await openChanged(planner, pinVises);
  const vise = getFeature(page, 'vise:2');
  await dragBy(page, vise, -30, 0, { hold: { x: 0.8, y: 0.9 }, keep: true });
  await page.keyboard.type('19.5');
  await page.keyboard.press('Enter');
  await page.mouse.up();
  expect(await readPlace(vise)).toBeCloseTo(19.5 * inch, 3);
  expect(await readUndo(page)).toBe('move vise 3 to 19.500 in');
});

test('parts are turned, copied and taken off by menu and keys', async ({ planner }) => {
  const page = await openChanged(planner, pinVises);
  const parts = page.locator('[data-feature^="part:"]');
  await expect(parts).toHaveCount(2);
  await parts.nth(1).focus();
  await page.keyboard.press('Control+d');
  await expect(parts).toHaveCount(3);
  await page.keyboard.press('Delete');
  await expect(parts).toHaveCount(2);
  await page.keyboard.press('Control+z');
  await expect(parts).toHaveCount(3);
  await parts.nth(0).focus();
  await page.keyboard.press('Shift+F10');
  await page.getByRole('menuitem', { name: /end for end/u }).click();
  expect(await readUndo(page)).toBe('turn part end for end');
  await parts.nth(0).focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: /^Edit Hoist lever/u })).toBeFocused();
});

test('a finding is marked where it bites and says its sentence to pointer and keys', async ({ planner }) => {
  const page = await openChanged(planner, (plan) => ({
    ...pinVises(plan),
    holding: { ...pinVises(plan).holding, vises: { pinned: [3.5 * inch, 7 * inch, 20.5 * inch] } },
  }));
  const mark = page.locator('.bench-finding.is-stop').first();
  await expect(mark).toHaveAccessibleName(/overlap/u);
  await page.mouse.move(5, 5);
  await mark.hover();
  await expect(page.getByRole('tooltip')).toContainText('overlap');
  await page.mouse.move(5, 5);
  await mark.focus();
  await page.keyboard.press('Shift+Tab');
  await page.keyboard.press('Tab');
  await expect(page.getByRole('tooltip')).toContainText('overlap');
});

test('wheel and pinch zoom about the pointer, Fit shows everything again', async ({ planner }) => {
  const page = await openChanged(planner, pinVises);
  const vise = getFeature(page, 'vise:0');
  const whole = (await vise.boundingBox())?.width ?? Number.NaN;
  const surface = await page.locator('.is-elevation .bench-surface').boundingBox();
  if (surface === null) throw new Error('no elevation');
  await page.mouse.move(surface.x + 200, surface.y + 80);
  await page.mouse.wheel(0, -400);
  await expect.poll(async () => (await vise.boundingBox())?.width ?? 0).toBeGreaterThan(whole * 1.3);
  await page.keyboard.down('Control');
  await page.mouse.wheel(0, 30);
  await page.keyboard.up('Control');
  await page.getByRole('button', { name: 'Fit', exact: true }).click();
  await expect.poll(async () => (await vise.boundingBox())?.width ?? 0).toBeCloseTo(whole, 0);
});

for (const size of [
  { width: 1280, height: 720 },
  { width: 2560, height: 1440 },
]) {
  test(`the Bench needs no scrollbar at ${size.width} × ${size.height}, and axe finds nothing serious in either theme`, async ({
    planner,
  }) => {
    const page = await openChanged(planner);
    await page.setViewportSize(size);
    const overflow = await page.evaluate(() => {
      const { scrollWidth, scrollHeight, clientWidth, clientHeight } = document.documentElement;
      return [scrollWidth - clientWidth, scrollHeight - clientHeight];
    });
    expect(overflow).toEqual([0, 0]);
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      const { violations } = await new AxeBuilder({ page }).include('.bench').analyze();
      const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
      expect(serious.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([]);
    }
  });
}

test('another kind of part is put on the bar from the menu, and the blank carries both', async ({ planner }) => {
  const page = await openChanged(planner, pinVises);
  await getFeature(page, 'blank:').focus();
  await page.keyboard.press('Shift+F10');
  await page.getByRole('menuitem', { name: 'Put a Pawl arm on this bar' }).click();
  await expect(page.locator('[data-feature^="part:"]')).toHaveCount(3);
  await expect(page.getByRole('button', { name: /^Pawl arm, .* pinned$/u })).toBeAttached();
  expect(await readUndo(page)).toBe('put Pawl arm on the bar');
});
