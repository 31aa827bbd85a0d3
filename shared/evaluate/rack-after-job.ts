import type { OrderResult } from '../engine/results';
import { nextId } from '../model/next-id';
import type { BarOffer, Remnant, Shop } from '../model/shop';

/** What the rack holds before and after a job, for a sentence to the user. */
export interface RackChange {
  rack: Remnant[];
  /** Pieces taken off the rack and put on it. */
  used: number;
  kept: number;
}

/** Two lengths closer than this are one piece of the rack, mm. */
const SAME_LENGTH = 0.01;

/**
 * The rack once the bars of an order are cut: remnants that were used are gone, drops worth keeping are on it.
 *
 * @param shop the shop as it stands; not changed
 * @param order the order as cut
 * @param bar the bar the order is of; a drop is of its material, size class and section
 * @param heatMark mark of the bar that was cut, '' when none is known
 * @returns the new rack; a kept drop is worth its share of the bar's cost by length
 */
export function computeRackAfterJob(shop: Shop, order: OrderResult, bar: BarOffer, heatMark: string): RackChange {
  let rack = [...shop.rack];
  let used = 0;
  let kept = 0;
  for (const use of order.bars) {
    const from = use.kind === 'remnant' ? shop.rack.find((remnant) => remnant.id === use.lengthId) : undefined;
    if (from !== undefined) {
      used += use.times;
      rack = rack.map((one) => (one.id === from.id ? { ...one, quantity: one.quantity - use.times } : one));
    }
    if (!use.dropIsRemnant || use.drop <= 0) continue;
    kept += use.times;
    const worth = from?.worth ?? use.cost;
    rack = putOn(rack, {
      id: nextId(rack, 'remnant'),
      materialId: bar.materialId,
      sizeClassId: bar.sizeClassId,
      width: bar.width,
      thickness: bar.thickness,
      length: use.drop,
      quantity: use.times,
      worth: use.length > 0 ? Math.round(worth * (use.drop / use.length) * 100) / 100 : 0,
      heatMark: from?.heatMark ?? heatMark,
      note: '',
    });
  }
  return { rack: rack.filter((remnant) => remnant.quantity > 0), used, kept };
}

function putOn(rack: readonly Remnant[], piece: Remnant): Remnant[] {
  const like = rack.find((one) => isAlike(one, piece));
  if (like === undefined) return [...rack, piece];
  return rack.map((one) => (one === like ? { ...one, quantity: one.quantity + piece.quantity } : one));
}

function isAlike(a: Remnant, b: Remnant): boolean {
  return (
    a.materialId === b.materialId &&
    a.sizeClassId === b.sizeClassId &&
    a.heatMark === b.heatMark &&
    a.worth === b.worth &&
    [a.width - b.width, a.thickness - b.thickness, a.length - b.length].every((gap) => Math.abs(gap) <= SAME_LENGTH)
  );
}
