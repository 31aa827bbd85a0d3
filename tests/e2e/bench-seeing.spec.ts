import { expect, getSample, test } from './support/planner';

test('the stock bar stands over the elevation, and what is pressed on it comes into view', async ({
  planner,
  page,
}) => {
  await page.setViewportSize({ width: 1280, height: 720 });
  await planner.open(getSample('hoist-arms'));
  const stock = page.getByRole('region', { name: 'Stock bar' });
  await expect(stock).toContainText('Bar 1 of 1: 144 in, keep 34.883');
  await expect(stock.locator('.drawing')).toHaveAccessibleName(/^Bar 1 of 1: .*Remnant, to the rack 34\.883$/u);

  const heading = page.getByRole('region', { name: 'Elevation along X' }).getByRole('heading');
  const [strip, below] = [await stock.boundingBox(), await heading.boundingBox()];
  expect((strip?.y ?? 0) + (strip?.height ?? 0)).toBeLessThanOrEqual(below?.y ?? 0);

  const picker = page.getByRole('radio', { name: 'A: 2 × Pawl arm' });
  await expect(picker).not.toBeChecked();
  const other = stock.getByRole('button', { name: 'Show A: 2 × Pawl arm 15.240' });
  await expect(stock.getByRole('button', { name: 'B: 2 × Hoist lever 23.740, in view' })).toHaveCount(2);
  await other.first().click();
  await expect(picker).toBeChecked();
  await expect(stock.getByRole('button', { name: 'A: 2 × Pawl arm 15.240, in view' })).toHaveCount(4);

  // By keys: one stop for the whole bar, arrows along it.
  await stock.getByRole('button').first().focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('radio', { name: 'B: 2 × Hoist lever' })).toBeChecked();
});

test('a blank lies on the stock bar where the button over it does', async ({ planner, page }) => {
  await planner.open(getSample('hoist-arms'));
  const stock = page.getByRole('region', { name: 'Stock bar' });
  const outline = stock.locator('svg [data-feature="order:0"]');
  const buttons = stock.getByRole('button');
  await expect(buttons).toHaveCount(6);
  await expect(outline).toBeVisible();
  const bar = await outline.boundingBox();
  for (const [index, button] of (await buttons.all()).entries()) {
    const drawn = await stock.locator(`svg path.fill-barFace`).nth(index).boundingBox();
    const pressed = await button.boundingBox();
    expect(Math.abs((drawn?.x ?? 0) - (pressed?.x ?? 1000))).toBeLessThan(1.5);
    expect(Math.abs((drawn?.width ?? 0) - (pressed?.width ?? 1000))).toBeLessThan(2.5);
    expect(pressed?.x ?? 0).toBeGreaterThanOrEqual((bar?.x ?? 0) - 1.5);
  }
});

test('a small window has its room for the drawing', async ({ planner, page }) => {
  await page.setViewportSize({ width: 960, height: 600 });
  await planner.open(getSample('hoist-arms'));
  await expect(page.locator('.bench-feature').first()).toBeAttached();
  // It is there, though not shown.
  await expect(page.locator('.bench-stock-bar')).toBeAttached();
  await expect(page.getByRole('region', { name: 'Stock bar' })).toHaveCount(0);
  await page.setViewportSize({ width: 1280, height: 720 });
  await expect(page.getByRole('region', { name: 'Stock bar' })).toBeVisible();
});

test('a theme chosen by the system while the planner is open reaches the canvas at once', async ({ planner, page }) => {
  await page.emulateMedia({ colorScheme: 'light' });
  await planner.open(getSample('hoist-arms'));
  await expect(page.locator('.bench-feature').first()).toBeAttached();
  const readJaw = async (): Promise<number> => {
    const jaw = page.locator('[data-feature="vise:1"]');
    const box = await jaw.boundingBox();
    return page.evaluate(
      ({ x, y }) => {
        const canvas = document.querySelector<HTMLCanvasElement>('.bench-pane.is-elevation canvas');
        if (canvas === null) throw new Error('no canvas');
        const frame = canvas.getBoundingClientRect();
        const scale = canvas.width / frame.width;
        const [red = 0] =
          canvas.getContext('2d')?.getImageData((x - frame.x) * scale, (y - frame.y) * scale, 1, 1).data ?? [];
        return red;
      },
      { x: (box?.x ?? 0) + (box?.width ?? 0) * 0.3, y: (box?.y ?? 0) + (box?.height ?? 0) * 0.6 },
    );
  };
  await expect.poll(readJaw).toBeGreaterThan(150);
  await page.emulateMedia({ colorScheme: 'dark' });
  await expect.poll(readJaw).toBeLessThan(110);
});
