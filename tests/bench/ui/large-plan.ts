import { buildPart } from '../../../shared/model/build-part';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { buildEmptyPlan } from '../../../shared/model/defaults';
import type { BlankTemplate, Plan } from '../../../shared/model/plan';
import type { Shop } from '../../../shared/model/shop';

export interface LargePlanSize {
  /** Pieces on the blanks, each of a part of its own up to `kinds`. */
  readonly pieces: number;
  readonly kinds: number;
  readonly blanks: number;
  readonly vises: number;
}

/** Room between two pieces of a blank, mm: the cutter goes through. */
const GAP = 18;
const BLANK_END = 5;

/** Pieces on the first blank, which is the one in view: about as long as twelve vises side by side. */
const ON_FIRST = 9;

/**
 * A plan with its layout and its vises pinned, as large as is asked, and a shop whose table it fits on. The tallest part
 * lies on the first blank, which therefore grips least and is in view.
 */
export function buildLargePlan({ pieces, kinds, blanks, vises }: LargePlanSize): { plan: Plan; shop: Shop } {
  const shop: Shop = { ...defaultShop, machine: { ...defaultShop.machine, tableLength: 3000, travelX: 2600 } };
  const start = buildEmptyPlan({ units: 'mm', date: '', author: '', shop });
  const parts = Array.from({ length: kinds }, (_, index) => {
    const thickness = 6 + (index % 4) / 2;
    return buildPart({
      id: `part-${index + 1}`,
      name: `Part ${index + 1}`,
      length: 60 + ((index * 37) % 300),
      height: index === 0 ? 26 : 18 + (index % 7),
      thickness,
      quantity: Math.ceil(pieces / kinds),
      stations: [
        { kind: 'boss', from: 0, to: 16, width: thickness, widthEnd: thickness },
        { kind: 'shank', from: 16, to: 44, width: 5, widthEnd: 5 },
      ],
      holes: [{ id: 'bore', axis: 'z', x: 8, z: 0, diameter: 3, slotLength: 0, through: true, beforeCutOff: true }],
    });
  });
  const templates = Array.from(
    { length: blanks },
    (_, index): BlankTemplate => ({ id: `blank-${index + 1}`, length: 'auto', count: { pinned: 1 }, slots: [] }),
  );
  const reached = templates.map(() => BLANK_END);
  for (let index = 0; index < pieces; index += 1) {
    const on = index < ON_FIRST ? 0 : 1 + ((index - ON_FIRST) % (blanks - 1));
    const part = parts[index % kinds];
    const x = reached[on] ?? BLANK_END;
    if (part === undefined) continue;
    templates[on]?.slots.push({ id: `slot-${index + 1}`, partId: part.id, x, mirrored: index % 2 === 1 });
    reached[on] = x + part.length + GAP;
  }
  const plan: Plan = {
    ...start,
    parts,
    stock: { ...start.stock, materialId: 'material-4140-annealed' },
    layout: { pinned: templates },
    holding: { ...start.holding, viseCount: { pinned: vises } },
  };
  return { plan, shop };
}
