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

/** A bar filled by a rule, as it may be taken next. */
interface FilledBar {
  readonly pattern: CorePattern;
  /** How many such bars would be taken at once. */
  readonly count: number;
  /** What the blanks on one use up. */
  readonly load: number;
}

/** Where a rule stands: what is left, and the next bar of each stock; prices only decide which of them is taken. */
export interface GreedyStep {
  readonly left: Residual;
  readonly bars: readonly FilledBar[];
  /** Elementary steps that it takes to fill the bars. */
  readonly units: number;
  /** Where it stands then, by the bar taken; filled in as it comes to be asked for. */
  readonly next: GreedyStep[];
}

/**
 * Fills bar after bar by a rule until all is placed, then moves each filling to the cheapest bar that holds it.
 *
 * @param start where the rule stands with the whole residual; one that is used again spares the work done before, and counts it
 */
export function computeGreedyAnswer(
  core: CoreProblem,
  residual: Residual,
  rule: GreedyRule,
  work: WorkMeter,
  start: GreedyStep = computeGreedyStep(core, residual, rule),
): GreedyAnswer {
  const uses: PatternUse[] = [];
  let step = start;
  while (!isAllPlaced(step.left)) {
    work.add(step.units);
    const at = chooseBar(core, step.bars);
    const bar = step.bars[at];
    if (bar === undefined) return { uses, weight: Number.POSITIVE_INFINITY };
    uses.push({ pattern: bar.pattern, count: bar.count });
    step = step.next[at] ??= computeGreedyStep(core, takeBar(core, step.left, bar), rule);
  }
  const moved = moveToCheaperBars(core, residual, uses);
  return { uses: moved, weight: computeWeight(core, moved) };
}

function takeBar(core: CoreProblem, residual: Residual, { pattern, count }: FilledBar): Residual {
  const left = copyResidual(residual);
  takePattern(core, left, pattern, count);
  return left;
}

/** The bar that costs least for the length it is filled with; -1 when there is none. */
function chooseBar(core: CoreProblem, bars: readonly FilledBar[]): number {
  let best = -1;
  let bestRate = Number.POSITIVE_INFINITY;
  bars.forEach(({ pattern, load }, at) => {
    const rate = (core.stocks[pattern.stock] as CoreStock).weight / load;
    if (rate >= bestRate) return;
    best = at;
    bestRate = rate;
  });
  return best;
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

/** Fills the next bar of each stock at hand; hangs on everything of the problem but the weights. */
export function computeGreedyStep(core: CoreProblem, left: Residual, rule: GreedyRule): GreedyStep {
  const bounds = computeItemBounds(core, left.demands);
  const lead = chooseLead(core, left, bounds);
  const bars: FilledBar[] = [];
  let units = 0;
  core.stocks.forEach(({ capacity }, stock) => {
    const isAtHand = lead >= 0 && (left.quantities[stock] as number) > 0;
    if (!isAtHand || (core.sizes[lead] as number) > capacity) return;
    const { items, counts, spent } = fillBar(core, left, bounds, capacity, lead, rule);
    const pattern = { stock, items, counts };
    units += spent;
    bars.push({ pattern, count: countRepeats(core, left, pattern), load: computeLoad(core, pattern) });
  });
  return { left, bars, units, next: [] };
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

interface Filling {
  readonly items: number[];
  readonly counts: number[];
  /** Elementary steps spent on it. */
  readonly spent: number;
}

function fillBar(
  core: CoreProblem,
  residual: Residual,
  bounds: Int32Array,
  capacity: number,
  lead: number,
  rule: GreedyRule,
): Filling {
  if (rule.kind === 'longest-first') return fillLongestFirst(core, residual, bounds, capacity, lead);
  return fillBySearch(core, residual, capacity, lead, rule.nodes);
}

function fillLongestFirst(
  core: CoreProblem,
  residual: Residual,
  bounds: Int32Array,
  capacity: number,
  lead: number,
): Filling {
  const items: number[] = [];
  const counts: number[] = [];
  const wanted = new Map<number, number>();
  let left = capacity;
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
  return { items, counts, spent: 2 * core.sizes.length };
}

/** Fills a bar with the lead item in it as full as a search within a number of nodes finds. */
function fillBySearch(
  core: CoreProblem,
  residual: Residual,
  capacity: number,
  lead: number,
  maxNodes: number,
): Filling {
  const wanted = residual.demands.slice();
  const leadRow = core.rows[lead] as number;
  wanted[leadRow] = (wanted[leadRow] as number) - (core.values[lead] as number);
  const room = capacity - (core.sizes[lead] as number);
  const search = new FullestFilling(core, wanted, room, maxNodes);
  search.visit(0, room);
  return { ...collect([lead, ...search.best].sort((a, b) => a - b)), spent: search.nodes * 12 + core.sizes.length };
}

/** Depth-first search for the items that leave least of a room, the longest tried first. */
class FullestFilling {
  best: number[] = [];
  nodes = 0;
  private leastLeft = Number.POSITIVE_INFINITY;
  private readonly stack: number[] = [];
  /** Near the end little is left to place; what is not wanted, or fits nowhere, is passed over once and not at every node. */
  private readonly open: number[] = [];
  private readonly shortest: number;
  private readonly core: CoreProblem;
  private readonly wanted: Float64Array;
  private readonly maxNodes: number;

  /** @param wanted of each row; the search changes it and puts it back */
  constructor(core: CoreProblem, wanted: Float64Array, room: number, maxNodes: number) {
    this.core = core;
    this.wanted = wanted;
    this.maxNodes = maxNodes;
    const { sizes, rows } = core;
    for (let item = 0; item < sizes.length; item++) {
      if ((sizes[item] as number) <= room && (wanted[rows[item] as number] as number) > 0) this.open.push(item);
    }
    this.shortest = sizes[this.open.at(-1) ?? -1] ?? Number.POSITIVE_INFINITY;
  }

  /** @returns true when the search is over */
  visit(from: number, left: number): boolean {
    const { core, open, stack, wanted } = this;
    if (left < this.leastLeft) {
      this.leastLeft = left;
      this.best = stack.slice();
      if (left === 0) return true;
    }
    if (left < this.shortest) return false;
    for (let at = from; at < open.length; at++) {
      const item = open[at] as number;
      const size = core.sizes[item] as number;
      if (size > left) continue;
      const row = core.rows[item] as number;
      const wantedOfRow = wanted[row] as number;
      if (wantedOfRow <= 0) continue;
      if (++this.nodes > this.maxNodes) return true;
      wanted[row] = wantedOfRow - (core.values[item] as number);
      stack.push(item);
      const isOver = this.visit(at, left - size);
      stack.pop();
      wanted[row] = wantedOfRow;
      if (isOver) return true;
    }
    return false;
  }
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
