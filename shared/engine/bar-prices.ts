import type { BarLength, BarOffer } from '../model/shop';
import { isSize } from './context';

/** Mass of a metre of bar at its nominal size, kg/m; `densityKgM3` of the material. */
export function getBarMassKgPerM(bar: Pick<BarOffer, 'width' | 'thickness'>, densityKgM3: number): number {
  return bar.width * bar.thickness * densityKgM3 * 1e-6;
}

/**
 * Price of one bar in the shop's currency, whichever way it is priced.
 *
 * @returns null when the price is not known
 */
export function getBarPrice(bar: BarOffer, barLength: BarLength, densityKgM3: number): number | null {
  const { price } = barLength;
  if (price === null || !Number.isFinite(price) || price < 0) return null;
  const metres = barLength.length / 1000;
  switch (bar.priceBasis) {
    case 'piece':
      return price;
    case 'length':
      return price * metres;
    case 'weight':
      return price * getBarMassKgPerM(bar, densityKgM3) * metres;
    default:
      return bar.priceBasis satisfies never;
  }
}

/** Lengths of a bar that can be planned with. */
export function getUsableLengths(bar: BarOffer): BarLength[] {
  return bar.lengths.filter(({ length, quantity }) => isSize(length) && (quantity === null || quantity > 0));
}
