import { buildPart } from '../../../shared/model/build-part';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { buildEmptyPlan } from '../../../shared/model/defaults';
import type { Plan } from '../../../shared/model/plan';
import { refreshLibrary } from '../../../shared/model/plan-library';

/** Levers of four lengths: more than is proven while typing, and less than the search beside the page may spend. */
const LENGTHS = [61.3, 85, 108.7, 132.4];

/** A plan whose order the evaluation finds but cannot prove within the work it may spend. */
export function buildLeverPlan(): Plan {
  const start = buildEmptyPlan({ units: 'mm', date: '', author: '', shop: defaultShop });
  const parts = LENGTHS.map((length, index) =>
    buildPart({
      id: `lever-${index + 1}`,
      name: `Lever ${index + 1}`,
      length,
      height: 20 + (index % 3),
      thickness: 8,
      quantity: 28 + ((index * 5) % 13),
    }),
  );
  const plan = { ...start, parts, stock: { ...start.stock, materialId: 'material-4140-annealed' } };
  return refreshLibrary(plan, defaultShop);
}
