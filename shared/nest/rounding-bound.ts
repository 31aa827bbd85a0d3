import type { CoreProblem } from './core-model';

/**
 * Bound on the number of bars by what long items leave for shorter ones (Martello & Toth 1990, "Knapsack Problems", L2),
 * for a problem with one unlimited bar length; 0 for any other.
 */
export function computeRoundingBound(core: CoreProblem): number {
  const stock = core.stocks[0];
  if (!stock || core.stocks.length > 1 || stock.quantity !== Number.POSITIVE_INFINITY) return 0;
  if (core.values.some((value) => value !== 1) || core.sizes.length !== core.demands.length) return 0;
  const { capacity } = stock;
  let best = 0;
  for (const threshold of core.sizes) {
    if (threshold * 2 > capacity) continue;
    best = Math.max(best, boundWithThreshold(core, capacity, threshold));
  }
  return best * stock.weight;
}

/** Items longer than `capacity - threshold` count a whole bar, those under `threshold` nothing (Martello & Toth's L2). */
function boundWithThreshold(core: CoreProblem, capacity: number, threshold: number): number {
  let whole = 0;
  let halves = 0;
  let halfLength = 0;
  let smallLength = 0;
  core.sizes.forEach((size, item) => {
    const count = core.demands[core.rows[item] as number] as number;
    if (size > capacity - threshold) whole += count;
    else if (size * 2 > capacity) {
      halves += count;
      halfLength += size * count;
    } else if (size >= threshold) smallLength += size * count;
  });
  const spare = halves * capacity - halfLength;
  return whole + halves + Math.max(0, Math.ceil((smallLength - spare) / capacity));
}
