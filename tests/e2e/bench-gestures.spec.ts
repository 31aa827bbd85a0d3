import AxeBuilder from '@axe-core/playwright';
import type { Locator, Page } from '@playwright/test';
import { dragBy, getFeature, inch, openChanged, pinVises, readPlace, readScale, readUndo } from './support/bench';
import { expect, getSample, openSetup, test } from './support/planner';
import { createTouch } from './support/touch';

async function getBox(thing: Locator): Promise<{ x: number; y: number; width: number; height: number }> {
  const box = await thing.boundingBox();
  if (box === null) throw new Error('it is not on the page');
  return box;
}

const getMap = (page: Page): Locator => page.getByRole('scrollbar', { name: 'Part of the bar in view' });
const getScale = (page: Page): Locator => page.locator('.is-elevation .bench-scale');

async function zoomIn(page: Page, times: number): Promise<void> {
  for (let press = 0; press < times; press += 1) await page.getByRole('button', { name: 'Zoom in' }).click();
}

test.describe('by touch', () => {
  test('a finger drags a vise, and the step has its name', async ({ planner }) => {
    const page = await openChanged(planner, pinVises);
    const touch = await createTouch(page);
    const vise = getFeature(page, 'vise:2');
    const scale = await readScale(page);
    const box = await getBox(vise);
    const from = { x: box.x + box.width * 0.8, y: box.y + box.height * 0.9 };
    await touch.down(from);
    for (let step = 1; step <= 10; step += 1) await touch.move({ x: from.x - step * 5, y: from.y });
    await expect(page.locator('.bench-bubble')).toContainText('centre from the stop');
    await touch.up();
    await expect(page.locator('.bench-bubble')).toHaveCount(0);
    expect(await readUndo(page)).toMatch(/^move vise 3 to /u);
    // Within what a finger's slop and the snapping take.
    expect(20.5 * inch - (await readPlace(vise))).toBeGreaterThan(30 / scale);
    await page.getByRole('button', { name: /^Undo/u }).click();
    expect(await readPlace(vise)).toBeCloseTo(20.5 * inch, 3);
  });

  test('two fingers zoom about the place between them and move the paper, and no step is made', async ({ planner }) => {
    const page = await openChanged(planner, pinVises);
    const touch = await createTouch(page);
    const vise = getFeature(page, 'vise:1');
    const before = await getBox(vise);
    const surface = await getBox(page.locator('.is-elevation .bench-surface'));
    const middle = { x: before.x + before.width / 2, y: surface.y + surface.height / 2 };
    await touch.down({ x: middle.x - 60, y: middle.y }, { x: middle.x + 60, y: middle.y });
    for (let step = 1; step <= 6; step += 1) {
      await touch.move({ x: middle.x - 60 - step * 10, y: middle.y }, { x: middle.x + 60 + step * 10, y: middle.y });
    }
    await touch.up();
    // Twice as far apart is twice as large.
    await expect.poll(async () => (await getBox(vise)).width / before.width).toBeCloseTo(2, 1);
    const after = await getBox(vise);
    expect(after.x + after.width / 2).toBeCloseTo(middle.x, -1);
    await touch.down({ x: middle.x - 60, y: middle.y }, { x: middle.x + 60, y: middle.y });
    for (let step = 1; step <= 4; step += 1) {
      await touch.move({ x: middle.x - 60 + step * 10, y: middle.y }, { x: middle.x + 60 + step * 10, y: middle.y });
    }
    await touch.up();
    await expect.poll(async () => (await getBox(vise)).x - after.x).toBeCloseTo(40, -1);
    expect(await readUndo(page)).toBe('');
  });

  test('a finger that rests opens the menu of what lies under it, and moves nothing', async ({ planner }) => {
    const page = await openChanged(planner, pinVises);
    const touch = await createTouch(page);
    const part = getFeature(page, 'part:');
    const box = await getBox(part);
    await touch.down({ x: box.x + box.width * 0.3, y: box.y + box.height * 0.5 });
    const entry = page.getByRole('menuitem', { name: 'Turn the part end for end' });
    await expect(entry).toBeVisible();
    await touch.up();
    await expect(entry).toBeVisible();
    await expect(page.locator('.menu-header')).toContainText('Hoist lever');
    await entry.click();
    expect(await readUndo(page)).toBe('turn part end for end');
  });

  test('a finger on the paper moves it', async ({ planner }) => {
    const page = await openChanged(planner, pinVises);
    const touch = await createTouch(page);
    const vise = getFeature(page, 'vise:0');
    const before = await getBox(vise);
    const surface = await getBox(page.locator('.is-elevation .bench-surface'));
    const from = { x: surface.x + 12, y: surface.y + surface.height - 12 };
    await touch.down(from);
    for (let step = 1; step <= 8; step += 1) await touch.move({ x: from.x + step * 10, y: from.y });
    await touch.up();
    await expect.poll(async () => (await getBox(vise)).x - before.x).toBeGreaterThan(60);
  });
});

test.describe('looking', () => {
  test('the strip of the whole bar is there once not all is seen: pressed, dragged and by its keys it moves the view', async ({
    planner,
  }) => {
    const page = await openChanged(planner, pinVises);
    const map = getMap(page);
    await expect(map).toHaveCount(0);
    await zoomIn(page, 5);
    await expect(map).toBeVisible();
    const vise = getFeature(page, 'vise:0');
    const first = await getBox(vise);

    const strip = await getBox(map);
    await page.mouse.click(strip.x + strip.width - 4, strip.y + strip.height / 2);
    await expect(map).toHaveAttribute('aria-valuenow', '100');

    const sight = await getBox(map.locator('.bench-sight'));
    await page.mouse.move(sight.x + sight.width / 2, sight.y + sight.height / 2);
    await page.mouse.down();
    for (let step = 1; step <= 10; step += 1) {
      await page.mouse.move(sight.x + sight.width / 2 - step * 30, sight.y + sight.height / 2);
    }
    await page.mouse.up();
    await expect(map).toHaveAttribute('aria-valuenow', '0');
    expect((await getBox(vise)).x).toBeGreaterThan(first.x);

    await map.focus();
    await page.keyboard.press('ArrowRight');
    await expect(map).not.toHaveAttribute('aria-valuenow', '0');
    await page.keyboard.press('End');
    await expect(map).toHaveAttribute('aria-valuenow', '100');
    await page.keyboard.press('Home');
    await expect(map).toHaveAttribute('aria-valuenow', '0');
    await expect(map).toHaveAttribute('aria-valuetext', /^X -?[\d.]+ to [\d.]+ in$/u);
    const { violations } = await new AxeBuilder({ page }).include('.bench').analyze();
    expect(violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')).toEqual([]);

    await page.getByRole('button', { name: 'Fit', exact: true }).click();
    await expect(map).toHaveCount(0);
    expect(await readUndo(page)).toBe('');
  });

  test('zoom to what is selected, by key; Ctrl and arrows move the paper; the scale is told', async ({ planner }) => {
    const page = await openChanged(planner, pinVises);
    const told = await getScale(page).textContent();
    const vise = getFeature(page, 'vise:1');
    await vise.focus();
    await page.keyboard.press('z');
    const surface = await getBox(page.locator('.is-elevation .bench-surface'));
    await expect.poll(async () => (await getBox(vise)).height / surface.height).toBeGreaterThan(0.5);
    await expect(getScale(page)).not.toHaveText(told ?? '');
    const zoomed = await getBox(vise);
    await page.keyboard.press('Control+ArrowLeft');
    await expect.poll(async () => (await getBox(vise)).x).toBeGreaterThan(zoomed.x + 40);
    await page.keyboard.press('Control+ArrowRight');
    await expect.poll(async () => (await getBox(vise)).x).toBeCloseTo(zoomed.x, 0);
    await page.keyboard.press('f');
    await expect(getScale(page)).toHaveText(told ?? '');
  });

  test('the plan view stays square below the elevation, whichever is moved', async ({ planner }) => {
    const page = await openChanged(planner, pinVises);
    const surface = await getBox(page.locator('.is-plan .bench-surface'));
    await page.mouse.move(surface.x + surface.width / 2, surface.y + surface.height / 2);
    await page.mouse.wheel(0, -300);
    const scales = page.locator('.bench-scale');
    await expect.poll(async () => (await getMap(page).count()) === 1).toBe(true);
    expect(await scales.nth(0).textContent()).toBe(await scales.nth(1).textContent());
  });

  test('the middle button and the space bar move the paper', async ({ planner }) => {
    const page = await openChanged(planner, pinVises);
    const vise = getFeature(page, 'vise:1');
    const before = await getBox(vise);
    const from = { x: before.x + before.width * 0.7, y: before.y + before.height * 0.9 };
    await page.mouse.move(from.x, from.y);
    await page.mouse.down({ button: 'middle' });
    await page.mouse.move(from.x + 50, from.y, { steps: 5 });
    await page.mouse.up({ button: 'middle' });
    await expect.poll(async () => (await getBox(vise)).x - before.x).toBeCloseTo(50, 0);
    await vise.focus();
    await page.keyboard.down(' ');
    await page.mouse.down();
    await page.mouse.move(from.x, from.y, { steps: 5 });
    await page.mouse.up();
    await page.keyboard.up(' ');
    await expect.poll(async () => (await getBox(vise)).x - before.x).toBeCloseTo(0, 0);
    expect(await readPlace(vise)).toBeCloseTo(12 * inch, 3);
    expect(await readUndo(page)).toBe('');
  });

  test('what is selected on the canvas is selected in the list of parts, and the other way about', async ({
    planner,
  }) => {
    const page = await openChanged(planner, pinVises);
    const part = getFeature(page, 'part:');
    await part.focus();
    await expect(part).toHaveAttribute('aria-pressed', 'true');
    await expect(page.locator('.part-card.is-selected')).toContainText('Hoist lever');
    await page.keyboard.press('s');
    const line = getFeature(page, 'field:sectionX');
    // The bar lies at the stop and the lever is 11.5 in long.
    expect(await readPlace(line)).toBeCloseTo((await readPlace(part)) + 5.75 * inch, 2);
    await page.locator('.part-card').first().hover();
    await page.locator('.part-card').nth(1).click();
    await page.getByRole('tab', { name: 'Bench', exact: true }).click();
    await expect(page.locator('.part-card.is-selected')).toContainText('Hoist lever');
  });
});

test.describe('several at once', () => {
  test('Ctrl+A takes every part wherever the focus is, but leaves a text field its own', async ({ planner }) => {
    const page = await planner.open(getSample('hoist-arms'));
    const parts = page.locator('.bench-feature[data-feature^="part:"]');
    const selected = page.locator('.bench-feature[data-feature^="part:"][aria-pressed="true"]');
    await expect(parts.first()).toBeAttached();
    await page.getByRole('tab', { name: 'Bench', exact: true }).focus();
    await page.keyboard.press('Control+a');
    await expect(selected).toHaveCount(await parts.count());
    await page.getByRole('button', { name: 'Menu', exact: true }).focus();
    await page.keyboard.press('Control+k');
    await page.getByRole('combobox', { name: 'Find a command' }).fill('select all');
    await expect(page.getByRole('option', { name: 'Select all parts on the bar' })).toContainText('Ctrl+A');
    await page.keyboard.press('Escape');
    await parts.first().focus();
    await page.keyboard.press('Escape');
    await expect(selected).toHaveCount(0);
    await openSetup(page, 'Holding');
    const field = page.getByRole('complementary', { name: 'Setup' }).locator('input[type="text"]:enabled').first();
    await field.focus();
    await page.keyboard.press('Control+a');
    expect(await field.evaluate((input: HTMLInputElement) => input.selectionEnd === input.value.length)).toBe(true);
    await expect(selected).toHaveCount(0);
  });

  test('clicks with Shift gather vises, a drag takes them all, and Ctrl+A takes every one', async ({ planner }) => {
    const page = await openChanged(planner, pinVises);
    const [one, other, third] = [0, 1, 2].map((index) => getFeature(page, `vise:${index}`)) as [
      Locator,
      Locator,
      Locator,
    ];
    const box = await getBox(one);
    await page.mouse.click(box.x + box.width * 0.8, box.y + box.height * 0.9);
    const beside = await getBox(other);
    await page.keyboard.down('Shift');
    await page.mouse.click(beside.x + beside.width * 0.8, beside.y + beside.height * 0.9);
    await page.keyboard.up('Shift');
    await expect(one).toHaveAttribute('aria-pressed', 'true');
    await expect(other).toHaveAttribute('aria-pressed', 'true');
    await dragBy(page, other, 20, 0, { hold: { x: 0.8, y: 0.9 }, free: true });
    expect(await readUndo(page)).toMatch(/^move 2 vises to /u);
    expect((await readPlace(other)) - (await readPlace(one))).toBeCloseTo(8.5 * inch, 2);
    expect(await readPlace(third)).toBeCloseTo(20.5 * inch, 3);
    await third.focus();
    await page.keyboard.press('Control+a');
    for (const vise of [one, other, third]) await expect(vise).toHaveAttribute('aria-pressed', 'true');
  });

  test('a rectangle drawn with Shift selects what lies inside it', async ({ planner }) => {
    const page = await openChanged(planner, pinVises);
    const surface = await getBox(page.locator('.is-plan .bench-surface'));
    await page.mouse.move(surface.x + 4, surface.y + 4);
    await page.keyboard.down('Shift');
    await page.mouse.down();
    await page.mouse.move(surface.x + surface.width - 4, surface.y + surface.height - 4, { steps: 6 });
    await page.mouse.up();
    await page.keyboard.up('Shift');
    await expect(page.locator('[data-feature^="vise:"][aria-pressed="true"]')).toHaveCount(3);
    await expect(page.locator('[data-feature^="part:"][aria-pressed="true"]')).toHaveCount(2);
  });

  test('the space bar gathers by keys alone; the parts are moved together, set tight, and Escape lets go', async ({
    planner,
  }) => {
    const page = await openChanged(planner, pinVises);
    const parts = page.locator('[data-feature^="part:"]');
    const [one, other] = [parts.nth(0), parts.nth(1)];
    await one.focus();
    await page.keyboard.press(' ');
    await page.keyboard.press('Tab');
    await expect(other).toBeFocused();
    await expect(one).toHaveAttribute('aria-pressed', 'true');
    await expect(other).toHaveAttribute('aria-pressed', 'false');
    await page.keyboard.press(' ');
    await expect(other).toHaveAttribute('aria-pressed', 'true');
    const apart = (await readPlace(other)) - (await readPlace(one));
    await page.keyboard.press('Shift+ArrowRight');
    await expect.poll(() => readUndo(page)).toMatch(/^move 2 parts to /u);
    expect((await readPlace(other)) - (await readPlace(one))).toBeCloseTo(apart, 3);
    await page.keyboard.press('Shift+F10');
    await page.getByRole('menuitem', { name: 'Align with the left end of the bar' }).click();
    expect(await readUndo(page)).toBe('align with the left end of the bar');
    await other.focus();
    await page.keyboard.press('Shift+F10');
    await page.getByRole('menuitem', { name: /^Set them tight/u }).click();
    await other.focus();
    await page.keyboard.press('Escape');
    await expect(one).toHaveAttribute('aria-pressed', 'false');
  });

  test('three parts are spaced evenly; copy and paste put them after the last', async ({ planner }) => {
    const page = await openChanged(planner, pinVises);
    const parts = page.locator('[data-feature^="part:"]');
    await parts.nth(1).focus();
    await page.keyboard.press('Control+c');
    await page.keyboard.press('Control+v');
    await expect(parts).toHaveCount(3);
    expect(await readUndo(page)).toBe('paste part');
    await parts.nth(1).focus();
    await page.keyboard.type('12.2');
    await page.keyboard.press('Enter');
    await parts.nth(1).focus();
    await page.keyboard.press('Control+a');
    await page.keyboard.press('Shift+F10');
    await page.getByRole('menuitem', { name: 'Leave equal gaps between them' }).click();
    expect(await readUndo(page)).toBe('space parts evenly');
    const [first, second, third] = await Promise.all([0, 1, 2].map((index) => readPlace(parts.nth(index))));
    expect((second ?? 0) - (first ?? 0)).toBeCloseTo((third ?? 0) - (second ?? 0), 2);
  });
});

test.describe('aligning and turning', () => {
  test('a part is mirrored to its other hand: the pair is in the plan and on the bar', async ({ planner }) => {
    const page = await openChanged(planner, pinVises);
    await getFeature(page, 'part:').focus();
    await page.keyboard.press('Shift+F10');
    await page.getByRole('menuitem', { name: 'Add its other hand to the bar' }).click();
    await expect(page.locator('[data-feature^="part:"]')).toHaveCount(3);
    expect(await readUndo(page)).toBe('add the other hand');
    await expect(page.locator('.part-card')).toHaveCount(3);
    await page.keyboard.press('Control+z');
    await expect(page.locator('.part-card')).toHaveCount(2);
  });

  test('the bar is laid flat and stood on edge, centred over the vises and pushed against its stop', async ({
    planner,
  }) => {
    const page = await openChanged(planner, pinVises);
    const bar = getFeature(page, 'blank:');
    const choose = async (name: string): Promise<void> => {
      await bar.focus();
      await page.keyboard.press('Shift+F10');
      await page.getByRole('menuitem', { name }).click();
    };
    await choose('Centre the bar over the vises');
    await expect.poll(() => readPlace(bar)).not.toBe(0);
    await choose('Push the bar against the stop');
    await expect.poll(() => readPlace(bar)).toBe(0);
    await choose('Lay the bar flat');
    expect(await readUndo(page)).toBe('lay the bar flat');
    await page.keyboard.press('Control+z');
    await expect.poll(() => readUndo(page)).toBe('push the bar against the stop');
  });

  test('vises are centred under the bar and set at equal distances', async ({ planner }) => {
    const page = await openChanged(planner, (plan) => ({
      ...pinVises(plan),
      holding: { ...pinVises(plan).holding, vises: { pinned: [3.5 * inch, 10 * inch, 20.5 * inch] } },
    }));
    const vise = getFeature(page, 'vise:1');
    await vise.focus();
    await page.keyboard.press('Shift+F10');
    await page.getByRole('menuitem', { name: 'Set the vises at equal distances' }).click();
    await expect.poll(() => readPlace(vise)).toBeCloseTo(12 * inch, 2);
    await page.keyboard.press('Control+a');
    await page.keyboard.press('Shift+F10');
    await page.getByRole('menuitem', { name: 'Centre the vises under the bar' }).click();
    expect(await readUndo(page)).toBe('centre vises under the bar');
  });

  test('a dragged vise comes to rest on the middle of a part, with a guide that says so', async ({ planner }) => {
    const page = await openChanged(planner, pinVises);
    const vise = getFeature(page, 'vise:2');
    const part = await getBox(page.locator('[data-feature^="part:"]').nth(1));
    const box = await getBox(vise);
    const off = part.x + part.width / 2 - (box.x + box.width / 2);
    await dragBy(page, vise, Math.round(off) + 2, 0, { hold: { x: 0.8, y: 0.9 }, keep: true });
    await expect(page.locator('.bench-bubble-snap')).toHaveText('centre on middle of Hoist lever 2');
    await page.mouse.up();
    await expect(page.locator('.bench-bubble')).toHaveCount(0);
  });
});

test.describe('absurd drags are shown as what they are and are never lost', () => {
  test('a vise off the table, through the others', async ({ planner }) => {
    const page = await openChanged(planner, pinVises);
    const last = getFeature(page, 'vise:2');
    const first = getFeature(page, 'vise:0');
    const stop = page.locator('.finding.is-stop').filter({ hasText: /table|travel/u });
    await expect(stop).toHaveCount(0);
    // The pointer leaves the canvas and the window; the vise goes on with it, and is then the first of the row.
    await dragBy(page, last, -1300, 0, { hold: { x: 0.8, y: 0.9 }, free: true });
    await expect(stop.first()).toBeVisible();
    const away = await readPlace(first);
    expect(away).toBeLessThan(-5 * inch);
    expect(await readUndo(page)).toMatch(/^move vise 3 to -/u);
    await page.keyboard.press('Control+z');
    expect(await readPlace(last)).toBeCloseTo(20.5 * inch, 3);
    await expect(stop).toHaveCount(0);
    await page.keyboard.press('Control+Shift+z');
    expect(await readPlace(first)).toBeCloseTo(away, 3);
  });

  test('the bar past the travel and off the vises', async ({ planner }) => {
    const page = await openChanged(planner, pinVises);
    const bar = getFeature(page, 'blank:');
    await dragBy(page, bar, 30, 0, { hold: { x: 0.29, y: 0.9 }, free: true });
    const near = await readPlace(bar);
    expect(near).toBeGreaterThan(0);
    await bar.focus();
    await page.keyboard.type('200');
    await page.keyboard.press('Enter');
    expect(await readPlace(bar)).toBeCloseTo(200 * inch, 3);
    await expect(page.locator('.finding.is-stop').first()).toBeVisible();
    await expect(page.locator('.bench-empty')).toHaveCount(0);
    await page.keyboard.press('Control+z');
    expect(await readPlace(bar)).toBeCloseTo(near, 3);
    await page.keyboard.press('Control+z');
    expect(await readPlace(bar)).toBe(0);
    await page.keyboard.press('Control+Shift+z');
    await page.keyboard.press('Control+Shift+z');
    expect(await readPlace(bar)).toBeCloseTo(200 * inch, 3);
  });

  test('a part dragged over its neighbour and off the end of the bar', async ({ planner }) => {
    const page = await openChanged(planner, pinVises);
    const part = page.locator('[data-feature^="part:"]').nth(1);
    const before = await readPlace(part);
    await dragBy(page, part, -120, 0, { hold: { x: 0.4, y: 0.6 }, free: true });
    const over = await readPlace(part);
    expect(over).toBeLessThan(before);
    await expect(page.locator('.finding.is-stop').first()).toBeVisible();
    await dragBy(page, part, 420, 0, { hold: { x: 0.9, y: 0.6 }, free: true });
    expect(await readPlace(part)).toBeGreaterThan(before);
    await expect(page.locator('.finding.is-stop').first()).toBeVisible();
    await page.keyboard.press('Control+z');
    expect(await readPlace(part)).toBeCloseTo(over, 3);
    await page.keyboard.press('Control+z');
    expect(await readPlace(part)).toBeCloseTo(before, 3);
  });

  test('a shelf deeper than the jaws are', async ({ planner }) => {
    const page = await openChanged(planner, (plan) => ({
      ...pinVises(plan),
      holding: { ...pinVises(plan).holding, jawSetId: 'jaws-6in-soft', seat: { pinned: { kind: 'shelf' } } },
    }));
    const seat = getFeature(page, 'seat:shelf');
    const before = await readPlace(seat);
    await dragBy(page, seat, 0, 400, { hold: { x: 0.06, y: 0.5 }, free: true });
    const deep = await readPlace(seat);
    expect(deep).toBeGreaterThan(before + 1.5 * inch);
    await expect(page.locator('.finding.is-stop').filter({ hasText: /shelf/iu }).first()).toBeVisible();
    await expect(page.locator('.bench-empty')).toHaveCount(0);
    await page.keyboard.press('Control+z');
    expect(await readPlace(seat)).toBeCloseTo(before, 3);
    await page.keyboard.press('Control+Shift+z');
    expect(await readPlace(seat)).toBeCloseTo(deep, 3);
  });
});
