import type { OrderResult } from '../engine/results';

/**
 * Whether an order is to be taken in place of another of the same plan: more of it can be cut, it costs less, takes fewer
 * bars, or more is proven of it.
 */
export function isBetterOrder(order: OrderResult, than: OrderResult): boolean {
  for (const get of [countUnplaced, getCost, getBars, getOpenCost]) {
    const gain = get(than) - get(order);
    if (Math.abs(gain) > SAME_MONEY) return gain > 0;
  }
  return false;
}

/** Below the smallest coin. */
const SAME_MONEY = 1e-6;

function countUnplaced({ unplaced }: OrderResult): number {
  return unplaced.reduce((sum, { count }) => sum + count, 0);
}

function getCost({ cost }: OrderResult): number {
  return cost?.value ?? 0;
}

function getBars({ totalBars }: OrderResult): number {
  return totalBars;
}

/** What a cheaper order might still save, in the shop's currency; without prices 1 where it is not proven. */
export function getOpenCost({ proven, cost, bound }: OrderResult): number {
  if (proven) return 0;
  return cost === null || bound === null ? 1 : cost.value - bound;
}
