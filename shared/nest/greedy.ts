import {
  type CorePattern,
  type CoreProblem,
  type CoreStock,
  computeItemBounds,
  computeLoad,
  computeWeight,
  copyResidual,
  isAllPlaced,
  type PatternUse,
  type Residual,
  takePattern,
} from './core-model';
import type { WorkMeter } from './work-meter';

/** How the next bar is filled by a greedy rule. */
export type GreedyRule =
  /** Always the longest item that still fits (first-fit decreasing). */
  | { readonly kind: 'longest-first' }
  /** The longest item left, then whatever leaves least of the bar (after Gupta & Ho 1999). */
  | { readonly kind: 'least-waste'; readonly nodes: number };

export interface GreedyAnswer {
  readonly uses: PatternUse[];
  /** `Infinity` when the bars ran out. */
  readonly weight: number;
}

/** Fills bar after bar by a rule until all is placed, then moves each filling to the cheapest bar that holds it. */
export function computeGreedyAnswer(
  core: CoreProblem,
  residual: Residual,
  rule: GreedyRule,
  work: WorkMeter,
): GreedyAnswer {
  const left = copyResidual(residual);
  const uses: PatternUse[] = [];
  while (!isAllPlaced(left)) {
    const pattern = chooseNextPattern(core, left, rule, work);
    if (!pattern) return { uses, weight: Number.POSITIVE_INFINITY };
    const count = countRepeats(core, left, pattern);
    takePattern(core, left, pattern, count);
    uses.push({ pattern, count });
  }
  const moved = moveToCheaperBars(core, residual, uses);
  return { uses: moved, weight: computeWeight(core, moved) };
}

/** How often a pattern can be cut before it makes more than is wanted; at least once. */
export function countRepeats(core: CoreProblem, residual: Residual, pattern: CorePattern): number {
  const covered = new Map<number, number>();
  pattern.items.forEach((item, k) => {
    const row = core.rows[item] as number;
    const amount = (pattern.counts[k] as number) * (core.values[item] as number);
    covered.set(row, (covered.get(row) ?? 0) + amount);
  });
  let most = residual.quantities[pattern.stock] as number;
  for (const [row, amount] of covered) most = Math.min(most, Math.floor((residual.demands[row] as number) / amount));
  return Math.max(1, most);
}

function chooseNextPattern(
  core: CoreProblem,
  residual: Residual,
  rule: GreedyRule,
  work: WorkMeter,
): CorePattern | undefined {
  const bounds = computeItemBounds(core, residual.demands);
  let best: CorePattern | undefined;
  let bestRate = Number.POSITIVE_INFINITY;
  const lead = chooseLead(core, residual, bounds);
  if (lead < 0) return undefined;
  for (let stock = 0; stock < core.stocks.length; stock++) {
    if ((residual.quantities[stock] as number) <= 0) continue;
    const { capacity, weight } = core.stocks[stock] as CoreStock;
    if ((core.sizes[lead] as number) > capacity) continue;
    const filling = fillBar(core, residual, bounds, capacity, lead, rule, work);
    const filled = filling.items.reduce(
      (sum, item, k) => sum + (filling.counts[k] as number) * (core.sizes[item] as number),
      0,
    );
    const rate = weight / filled;
    if (rate < bestRate) {
      bestRate = rate;
      best = { stock, ...filling };
    }
  }
  return best;
}

/** The largest item still wanted that some bar at hand can hold and that does not overshoot its row needlessly. */
function chooseLead(core: CoreProblem, residual: Residual, bounds: Int32Array): number {
  let widest = 0;
  core.stocks.forEach((stock, j) => {
    if ((residual.quantities[j] as number) > 0) widest = Math.max(widest, stock.capacity);
  });
  for (let item = 0; item < core.sizes.length; item++) {
    if ((bounds[item] as number) <= 0 || (core.sizes[item] as number) > widest) continue;
    if (isNeedlesslyLarge(core, residual, item)) continue;
    return item;
  }
  return -1;
}

/** Whether a smaller choice of the same row would cover all that is left of it. */
function isNeedlesslyLarge(core: CoreProblem, residual: Residual, item: number): boolean {
  const row = core.rows[item] as number;
  const wanted = residual.demands[row] as number;
  if ((core.values[item] as number) <= wanted) return false;
  for (let other = item + 1; other < core.sizes.length; other++) {
    if (core.rows[other] === row && (core.values[other] as number) >= wanted) return true;
  }
  return false;
}

function fillBar(
  core: CoreProblem,
  residual: Residual,
  bounds: Int32Array,
  capacity: number,
  lead: number,
  rule: GreedyRule,
  work: WorkMeter,
): { items: number[]; counts: number[] } {
  if (rule.kind === 'longest-first') return fillLongestFirst(core, residual, bounds, capacity, lead, work);
  return fillBySearch(core, residual, capacity, lead, rule.nodes, work);
}

function fillLongestFirst(
  core: CoreProblem,
  residual: Residual,
  bounds: Int32Array,
  capacity: number,
  lead: number,
  work: WorkMeter,
): { items: number[]; counts: number[] } {
  const items: number[] = [];
  const counts: number[] = [];
  const wanted = new Map<number, number>();
  let left = capacity;
  work.add(2 * core.sizes.length);
  for (let item = lead; item < core.sizes.length; item++) {
    const size = core.sizes[item] as number;
    if ((bounds[item] as number) <= 0 || size > left) continue;
    const row = core.rows[item] as number;
    const value = core.values[item] as number;
    const rest = wanted.get(row) ?? (residual.demands[row] as number);
    const most =
      item === lead
        ? Math.ceil(rest / value)
        : value <= rest
          ? Math.floor(rest / value)
          : isNeedlesslyLarge(core, residual, item)
            ? 0
            : Math.ceil(rest / value);
    const count = Math.min(most, Math.floor(left / size));
    if (count <= 0) continue;
    items.push(item);
    counts.push(count);
    left -= count * size;
    wanted.set(row, Math.max(0, rest - count * value));
  }
  return { items, counts };
}

/** Depth-first search for the fullest bar with the lead item in it, within a number of nodes. */
function fillBySearch(
  core: CoreProblem,
  residual: Residual,
  capacity: number,
  lead: number,
  maxNodes: number,
  work: WorkMeter,
): { items: number[]; counts: number[] } {
  const { sizes, rows, values } = core;
  const n = sizes.length;
  const wanted = residual.demands.slice();
  const leadRow = rows[lead] as number;
  wanted[leadRow] = (wanted[leadRow] as number) - (values[lead] as number);
  const room = capacity - (sizes[lead] as number);
  // Near the end little is left to place; what is not wanted, or fits nowhere, is passed over once and not at every node.
  const open: number[] = [];
  for (let item = 0; item < n; item++) {
    if ((sizes[item] as number) <= room && (wanted[rows[item] as number] as number) > 0) open.push(item);
  }
  const stack: number[] = [];
  let best: number[] = [];
  let fullest = -1;
  let nodes = 0;
  /** @returns true when the search is over */
  const visit = (from: number, left: number, filled: number): boolean => {
    if (filled > fullest) {
      fullest = filled;
      best = stack.slice();
      if (left === 0) return true;
    }
    if (filled + left <= fullest) return false;
    for (let at = from; at < open.length; at++) {
      const item = open[at] as number;
      const size = sizes[item] as number;
      if (size > left) continue;
      const row = rows[item] as number;
      if ((wanted[row] as number) <= 0) continue;
      if (++nodes > maxNodes) return true;
      wanted[row] = (wanted[row] as number) - (values[item] as number);
      stack.push(item);
      const isOver = visit(at, left - size, filled + size);
      stack.pop();
      wanted[row] = (wanted[row] as number) + (values[item] as number);
      if (isOver) return true;
    }
    return false;
  };
  visit(0, room, 0);
  work.add(nodes * 12 + n);
  return collect([lead, ...best].sort((a, b) => a - b));
}

function collect(sorted: readonly number[]): { items: number[]; counts: number[] } {
  const items: number[] = [];
  const counts: number[] = [];
  for (const item of sorted) {
    if (items.at(-1) === item) counts[counts.length - 1] = (counts.at(-1) as number) + 1;
    else {
      items.push(item);
      counts.push(1);
    }
  }
  return { items, counts };
}

/** Moves each filling, fullest first, to the lightest bar still to be had that holds it. */
export function moveToCheaperBars(core: CoreProblem, residual: Residual, uses: readonly PatternUse[]): PatternUse[] {
  if (core.stocks.length === 1) return [...uses];
  const order = core.stocks
    .map((_, j) => j)
    .sort((a, b) => {
      return (core.stocks[a] as CoreStock).weight - (core.stocks[b] as CoreStock).weight;
    });
  const left = residual.quantities.slice();
  const byLoad = uses.map((use) => ({ use, load: computeLoad(core, use.pattern) })).sort((a, b) => b.load - a.load);
  const moved: PatternUse[] = [];
  for (const { use, load } of byLoad) {
    let count = use.count;
    for (const stock of order) {
      if (count === 0) break;
      if ((core.stocks[stock] as CoreStock).capacity < load) continue;
      const taken = Math.min(count, left[stock] as number);
      if (taken <= 0) continue;
      left[stock] = (left[stock] as number) - taken;
      count -= taken;
      moved.push({ pattern: { ...use.pattern, stock }, count: taken });
    }
    if (count > 0) return [...uses];
  }
  return computeWeight(core, moved) <= computeWeight(core, uses) ? moved : [...uses];
}
