import type { Locator, Page } from '@playwright/test';
import type { Plan } from '../../shared/model/plan';
import { openChanged } from './support/bench';
import { expect, openSetup, showView, test } from './support/planner';

/** Every number that may be left to auto, by where it stands. */
const FIELDS: readonly { readonly label: string; readonly open: (page: Page) => Promise<void> }[] = [
  ...['Vises', 'Shelf depth', 'Spacer', 'Spacer height', 'Grip wanted', 'Bar from stop'].map((label) => ({
    label,
    open: (page: Page) => openSetup(page, 'Holding'),
  })),
  ...['Clearance', 'Rib aimed at', 'Tab length'].map((label) => ({
    label,
    open: (page: Page) => openSetup(page, 'Cut-off'),
  })),
  ...['Skin, each side', 'Off the fixed jaw'].map((label) => ({
    label,
    open: (page: Page) => openSetup(page, 'Allowance'),
  })),
  {
    label: 'Stick-out',
    async open(page) {
      await openSetup(page, 'Cuts');
      await page.locator('.cut-open').first().click();
    },
  },
  ...['Squaring trim', 'Bad mill end', 'Stub', 'Drop worth keeping', 'Parts a blank'].map((label) => ({
    label,
    open: (page: Page) => showView(page, 'Order'),
  })),
];

test('a number typed over auto pins it, were it the very same; looking at it does not', async ({ planner }) => {
  test.slow();
  // On a shelf and with tabs, so that every field is there.
  const page = await openChanged(planner, (plan) => {
    const auto = leaveAllToAuto(plan);
    return {
      ...auto,
      holding: { ...auto.holding, seat: { pinned: { kind: 'shelf' } } },
      release: { ...auto.release, keep: { pinned: 'tabs' } },
    };
  });
  for (const { label, open } of FIELDS) {
    await showView(page, 'Bench');
    await open(page);
    const field = page.getByRole('textbox', { name: label, exact: true });
    await expectPinned(page, label, false);
    await field.click();
    await field.press('Tab');
    await expectPinned(page, label, false);
    const shown = await field.inputValue();
    expect(shown, label).not.toBe('');
    await field.fill('');
    await field.pressSequentially(shown);
    await field.press('Enter');
    await expectPinned(page, label, true);
    await expect(field).toHaveValue(shown);
    await page.keyboard.press('Escape');
  }
});

test('a vise typed where auto has it pins the row; choosing what auto shows pins a list', async ({ planner }) => {
  const page = await openChanged(planner, leaveAllToAuto);
  await openSetup(page, 'Holding');
  const centre = page.getByLabel('Vise 1 centre', { exact: true });
  await centre.click();
  await centre.press('Tab');
  await expectPinned(page, 'Vise centres', false);
  const shown = await centre.inputValue();
  await centre.fill('');
  await centre.pressSequentially(shown);
  await centre.press('Tab');
  await expectPinned(page, 'Vise centres', true);
  await expect(undo(page)).toHaveAccessibleName(`Undo: pin vise 1 at ${shown}`);
  for (const [section, label] of [
    ['Bar', 'Section'],
    ['Bar', 'Way up'],
    ['Holding', 'Seat'],
    ['Holding', 'Gripped faces'],
    ['Cut-off', 'Cutter'],
    ['Cut-off', 'Leave'],
  ] as const) {
    await openSetup(page, section);
    const button = page.locator('.select-button').and(page.getByRole('button', { name: new RegExp(`${label}$`, 'u') }));
    await button.click();
    await page.keyboard.press('Escape');
    await expectPinned(page, label, false);
    await button.press('Enter');
    await page.getByRole('option', { selected: true }).press(section === 'Bar' ? 'Enter' : ' ');
    await expectPinned(page, label, true);
  }
});

test('where the tabs stand says why, is pinned by its mark and given back', async ({ planner }) => {
  const page = await openChanged(planner, (plan) => {
    const auto = leaveAllToAuto(plan);
    return { ...auto, release: { ...auto.release, keep: { pinned: 'tabs' } } };
  });
  await openSetup(page, 'Cut-off');
  await expect(page.getByText('placed by the planner')).toBeVisible();
  await page.getByRole('button', { name: /^Tabs: auto/u }).click();
  const why = page.getByRole('dialog', { name: 'Why Tabs' });
  await expect(why).toContainText('The fewest tabs');
  await expect(why).toContainText('Pawl arm, from its left end');
  await why.getByRole('button', { name: 'Pin this value' }).click();
  await expect(page.getByText('placed by hand')).toBeVisible();
  await page.getByRole('button', { name: /^Tabs: pinned/u }).click();
  await why.getByRole('button', { name: /^Leave it to auto/u }).click();
  await expect(page.getByText('placed by the planner')).toBeVisible();
  await expect(undo(page)).toHaveAccessibleName('Undo: leave tabs to auto');
});

/** The same plan with nothing pinned. */
function leaveAllToAuto(plan: Plan): Plan {
  const { holding, release, cleanup, stock, order } = plan;
  return {
    ...plan,
    partsPerBlank: 'auto',
    stock: { ...stock, barId: 'auto', wayUp: 'auto' },
    holding: {
      ...holding,
      viseCount: 'auto',
      vises: 'auto',
      seat: 'auto',
      shelfDepth: 'auto',
      spacer: 'auto',
      spacerHeight: 'auto',
      targetGrip: 'auto',
      blankX: 'auto',
      grippedSurface: 'auto',
    },
    release: { ...release, cutterId: 'auto', clearance: 'auto', keep: 'auto', ribTarget: 'auto', tabLength: 'auto' },
    cleanup: { ...cleanup, skinPerSide: 'auto', fromFixedJaw: 'auto' },
    cuts: plan.cuts.map((cut) => ({ ...cut, stickOut: 'auto' })),
    order: { ...order, squaringTrim: 'auto', badEnd: 'auto', stub: 'auto', leastRemnant: 'auto' },
  };
}

async function expectPinned(page: Page, label: string, pinned: boolean): Promise<void> {
  const mark = page.getByRole('button', { name: new RegExp(`^${label}: ${pinned ? 'pinned' : 'auto'}`, 'u') });
  await expect(mark, label).toBeVisible();
}

function undo(page: Page): Locator {
  return page.getByRole('button', { name: /^Undo/u });
}
