/**
 * The bare arithmetic problem inside a nesting job: items with a size, bars with a capacity and a weight.
 *
 * Kerf and ends are already folded in: a blank of length l has size l + kerf, and the capacity of a bar is what its
 * blanks and their kerfs may use up together. Least total weight is sought; the weight of a bar is an integer that
 * holds its cost and, in its low digits, one for the bar itself, so that among equally cheap answers the one with
 * fewer bars wins.
 */
export interface CoreProblem {
  /** Size of each item, sorted from large to small; exact integers. */
  readonly sizes: readonly number[];
  /** Demand row each item serves. */
  readonly rows: readonly number[];
  /** How much of that row's demand one such item covers. */
  readonly values: readonly number[];
  /** Demand of each row. */
  readonly demands: readonly number[];
  readonly stocks: readonly CoreStock[];
}

export interface CoreStock {
  readonly capacity: number;
  /** Integer, over 0 unless the stock is limited. */
  readonly weight: number;
  /** `Infinity` = unlimited. */
  readonly quantity: number;
}

/** One way of filling one bar: `counts[k]` of item `items[k]`. */
export interface CorePattern {
  readonly stock: number;
  readonly items: readonly number[];
  readonly counts: readonly number[];
}

export interface PatternUse {
  readonly pattern: CorePattern;
  readonly count: number;
}

/** What is still to be placed, and the bars still to be had. */
export interface Residual {
  readonly demands: Float64Array;
  readonly quantities: Float64Array;
}

export function getWholeResidual(core: CoreProblem): Residual {
  return {
    demands: Float64Array.from(core.demands),
    quantities: Float64Array.from(core.stocks, (stock) => stock.quantity),
  };
}

export function copyResidual(residual: Residual): Residual {
  return { demands: residual.demands.slice(), quantities: residual.quantities.slice() };
}

export function isAllPlaced(residual: Residual): boolean {
  const { demands } = residual;
  for (let row = 0; row < demands.length; row++) if ((demands[row] as number) > 0) return false;
  return true;
}

/** Takes `count` bars of a pattern off a residual, in place; demand never falls below 0. */
export function takePattern(core: CoreProblem, residual: Residual, pattern: CorePattern, count: number): void {
  const { demands, quantities } = residual;
  quantities[pattern.stock] = (quantities[pattern.stock] as number) - count;
  for (let k = 0; k < pattern.items.length; k++) {
    const item = pattern.items[k] as number;
    const row = core.rows[item] as number;
    const covered = (pattern.counts[k] as number) * (core.values[item] as number) * count;
    demands[row] = Math.max(0, (demands[row] as number) - covered);
  }
}

/** Bars that a search fixes one on top of another before it gives up: it would not end, and the call stack would. */
export const MAX_FIXED_BARS = 1500;

/** More items than any bar can hold; keeps bounds inside 32 bits. */
const MOST_ITEMS = 2 ** 30;

/** Most items of each kind that a bar could usefully hold of what is still wanted. */
export function computeItemBounds(core: CoreProblem, demands: Float64Array): Int32Array {
  const { rows, values } = core;
  const bounds = new Int32Array(rows.length);
  for (let item = 0; item < rows.length; item++) {
    const wanted = demands[rows[item] as number] as number;
    const value = values[item] as number;
    bounds[item] = Math.min(MOST_ITEMS, value === 1 ? wanted : Math.ceil(wanted / value));
  }
  return bounds;
}

export function computeWeight(core: CoreProblem, uses: readonly PatternUse[]): number {
  return uses.reduce((sum, use) => sum + use.count * (core.stocks[use.pattern.stock] as CoreStock).weight, 0);
}

export function computeLoad(core: CoreProblem, pattern: CorePattern): number {
  return pattern.items.reduce((sum, item, k) => sum + (core.sizes[item] as number) * (pattern.counts[k] as number), 0);
}

/** Name of a pattern by which equal ones are told. */
export function getPatternKey(pattern: CorePattern): string {
  return `${pattern.stock}:${pattern.items.join(',')}:${pattern.counts.join(',')}`;
}
