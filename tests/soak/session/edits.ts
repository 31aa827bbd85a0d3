import type { Page } from '@playwright/test';

/** One change to the plan or the shop as a person makes it. */
export interface Edit {
  /** @param count how many were made before, so that each changes something */
  make: (page: Page, count: number) => Promise<void>;
  /** Name of the undo button afterwards. */
  step: RegExp;
}

function type(label: string, getText: (count: number) => string, step: RegExp): Edit {
  return {
    step,
    async make(page, count) {
      const field = page.getByLabel(label, { exact: true });
      await field.fill(getText(count));
      await field.press('Enter');
    },
  };
}

const switchUnits: Edit = {
  step: /^Undo: show (inches|millimetres)$/,
  make: (page) => page.keyboard.press('Alt+u'),
};

/** To the right and back again, so that the vise stays on the table. */
const dragVise: Edit = {
  step: /^Undo: move vise 3/,
  async make(page, count) {
    const box = await page.locator('[data-feature="vise:2"]').boundingBox();
    if (box === null) throw new Error('The vise is not on the canvas.');
    const from = { x: box.x + box.width * 0.8, y: box.y + box.height * 0.9 };
    const way = count % 2 === 0 ? 24 : -24;
    await page.mouse.move(from.x, from.y);
    await page.keyboard.down('Alt');
    await page.mouse.down();
    for (let step = 1; step <= 4; step += 1) await page.mouse.move(from.x + (way * step) / 4, from.y);
    await page.mouse.up();
    await page.keyboard.up('Alt');
  },
};

const mm = (least: number, count: number): string => `${least + (count % 97) / 10} mm`;

const setLength = type('Length of Pawl arm', (count) => mm(180, count), /^Undo: .*Pawl arm/);
const setStub = type('Stub', (count) => mm(40, count), /^Undo: .*stub/i);

const setTravel = type('Travel X', (count) => mm(600, count), /^Undo: shop: change travel/i);

const times = (count: number, edit: Edit): Edit[] => Array.from({ length: count }, () => edit);

/** The views in the order they are worked in, and the edits made in each. */
export const VIEWS_OF_A_ROUND: readonly { view: string; edits: readonly Edit[] }[] = [
  { view: 'Parts', edits: [...times(7, setLength), switchUnits, ...times(7, setLength), switchUnits] },
  { view: 'Bench', edits: [...times(5, dragVise), switchUnits] },
  { view: 'Order', edits: [...times(7, setStub), switchUnits] },
  { view: 'Parts', edits: times(7, setLength) },
  { view: 'Shop', edits: times(3, setTravel) },
  { view: 'Sheet', edits: [switchUnits] },
];
