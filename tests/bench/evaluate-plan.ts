import { buildPart } from '../../shared/model/build-part';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import { buildEmptyPlan } from '../../shared/model/defaults';
import type { Plan } from '../../shared/model/plan';
import type { BarOffer, Shop } from '../../shared/model/shop';

const MATERIAL = 'material-4140-annealed';

/** 60 bars on offer in one metal: ten widths in six thicknesses, three lengths each. */
function buildBars(): BarOffer[] {
  const pattern = defaultShop.bars.find(({ materialId }) => materialId === MATERIAL);
  if (pattern === undefined) throw new Error(`the shop has no bar of ${MATERIAL}`);
  const widths = [20, 25, 30, 35, 40, 45, 50, 60, 70, 80];
  const thicknesses = [8, 10, 12, 15, 20, 25];
  return widths.flatMap((width) =>
    thicknesses.map((thickness) => ({
      ...pattern,
      id: `bench-${width}x${thickness}`,
      name: `${width} × ${thickness}`,
      width,
      thickness,
      priceBasis: 'piece' as const,
      lengths: [1000, 2000, 3600].map((length) => ({
        id: `length-${length}`,
        length,
        // A short bar costs a little more by the metre; no two sections cost alike.
        price: Math.round(width * thickness * length * 1e-4 * (1 + 150 / length)) / 10 + 4,
        stocked: true,
        quantity: null,
      })),
    })),
  );
}

/** The plan of the speed target: 40 parts of different lengths, 6 vises, 60 bars on offer. */
export function buildBenchPlan(): { plan: Plan; shop: Shop } {
  const shop: Shop = {
    ...defaultShop,
    machine: { ...defaultShop.machine, tableLength: 1400, travelX: 1200 },
    bars: buildBars(),
  };
  const start = buildEmptyPlan({ units: 'mm', date: '', author: '', shop });
  const parts = Array.from({ length: 40 }, (_, index) =>
    buildPart({
      id: `part-${index + 1}`,
      name: `Part ${index + 1}`,
      length: 60 + 7.3 * index,
      height: 18 + (index % 7),
      thickness: 6 + (index % 4) / 2,
      quantity: 2 + (index % 9),
      stations: [
        { kind: 'boss', from: 0, to: 16, width: 6 + (index % 4) / 2, widthEnd: 6 + (index % 4) / 2 },
        { kind: 'shank', from: 16, to: 44, width: 5, widthEnd: 5 },
      ],
      holes: [{ id: 'bore', axis: 'z', x: 8, z: 0, diameter: 3, slotLength: 0, through: true, beforeCutOff: true }],
    }),
  );
  const plan: Plan = {
    ...start,
    parts,
    stock: { ...start.stock, materialId: MATERIAL },
    holding: { ...start.holding, viseCount: { pinned: 6 } },
  };
  return { plan, shop };
}
