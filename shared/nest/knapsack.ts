import { getGcd } from './integers';
import { PartialFillings } from './partial-fillings';
import type { WorkMeter } from './work-meter';

/** Best filling of one bar for given profits. */
export interface Filling {
  readonly items: number[];
  readonly counts: number[];
  readonly profit: number;
  /** No filling has a profit above this; equal to `profit` unless the search was cut short. */
  readonly ceiling: number;
}

/** Bars up to this many units long are tabulated unit by unit; longer ones on a grid that errs on the safe side. */
const MAX_EXACT_CELLS = 40_000;

/** Nodes of the search on a coarse grid before all partial fillings are gone through in order. */
const MAX_NODES = 2000;

/** Partial fillings after which that gives up, too. */
const MAX_STATES = 400_000;

/** Steps of putting lists of partial fillings together after which it does so as well. */
const MAX_MERGE_STEPS = 8_000_000;

/** The same, where several good fillings are wanted and none need be the best. */
const MAX_NODES_PER_START = 600;

/** Relative slack that keeps rounding in sums of profits from looking like an improvement. */
const PROFIT_SLACK = 1e-11;

/**
 * Length of a grid cell that wastes little when sizes are rounded down to it: many sizes of one job share a step
 * (a half millimetre, a 64th of an inch) even where a few do not.
 */
function chooseCell(sizes: readonly number[], maxCapacity: number, gridCells: number): number {
  const plain = Math.ceil(maxCapacity / gridCells);
  let best = plain;
  let least = computeLoss(sizes, plain);
  for (let k = 1; k < sizes.length; k++) {
    const step = getGcd(sizes[k - 1] as number, sizes[k] as number);
    for (const cell of [step, getGcd(step, sizes[(k + 7) % sizes.length] as number)]) {
      if (cell * gridCells * 2 < maxCapacity || cell > plain * 2) continue;
      const loss = computeLoss(sizes, cell);
      if (loss >= least) continue;
      least = loss;
      best = cell;
    }
  }
  return best;
}

/** Sum of the shares of the sizes that rounding down to a cell loses. */
function computeLoss(sizes: readonly number[], cell: number): number {
  return sizes.reduce((sum, size) => sum + (size % cell) / size, 0);
}

/**
 * Bounded knapsack by a table of suffixes.
 *
 * `table[k][c]` is the best profit of items k.. in c grid cells. Sizes are rounded down to cells, so that the table
 * is never below the truth; where the grid is coarse a depth-first search over exact sizes is led and cut off by it.
 * With integer profits (below 2^53) every figure is exact.
 */
export class Knapsack {
  /** Whether a search cut short is settled exactly; without, answers come sooner and ceilings are higher. */
  isThorough = true;
  private readonly sizes: readonly number[];
  private readonly cell: number;
  private readonly cells: number;
  private readonly work: WorkMeter;
  private active: Int32Array;
  private activeCount = 0;
  private profits: Float64Array;
  private bounds: Int32Array;
  private table: Float64Array = new Float64Array(0);

  /**
   * @param sizes item sizes, over 0, large to small
   * @param maxCapacity largest capacity that will be asked for
   * @param gridCells cells to use where the capacity is too large for one cell a unit
   */
  constructor(sizes: readonly number[], maxCapacity: number, work: WorkMeter, gridCells = 6000) {
    this.sizes = sizes;
    this.work = work;
    this.cell = maxCapacity <= Math.min(MAX_EXACT_CELLS, gridCells * 4) ? 1 : chooseCell(sizes, maxCapacity, gridCells);
    this.cells = this.toCells(maxCapacity);
    this.active = new Int32Array(sizes.length);
    this.profits = new Float64Array(sizes.length);
    this.bounds = new Int32Array(sizes.length);
  }

  private toCells(length: number): number {
    return this.cell === 1 ? length : Math.floor(length / this.cell);
  }

  /** Tabulates the problem for these profits and bounds; items without profit are left out. */
  load(profits: ArrayLike<number>, bounds: ArrayLike<number>): void {
    let count = 0;
    for (let item = 0; item < this.sizes.length; item++) {
      const profit = profits[item] as number;
      const bound = bounds[item] as number;
      if (profit <= 0 || bound <= 0 || this.toCells(this.sizes[item] as number) > this.cells) continue;
      this.active[count] = item;
      this.profits[count] = profit;
      this.bounds[count] = bound;
      count++;
    }
    this.activeCount = count;
    const width = this.cells + 1;
    if (this.table.length < (count + 1) * width) this.table = new Float64Array((count + 1) * width);
    this.table.fill(0, count * width, (count + 1) * width);
    for (let k = count - 1; k >= 0; k--) this.addRow(k, width);
  }

  private addRow(k: number, width: number): void {
    const table = this.table;
    const row = k * width;
    const size = this.toCells(this.sizes[this.active[k] as number] as number);
    const profit = this.profits[k] as number;
    const mostThatFit = size === 0 ? Number.POSITIVE_INFINITY : Math.floor(this.cells / size);
    const bound = this.bounds[k] as number;
    const end = row + width;
    this.work.add(width);
    if (bound >= mostThatFit && mostThatFit > 1) {
      table.copyWithin(row, row + width, row + width + size);
      for (let c = row + size; c < end; c++) {
        const without = table[c + width] as number;
        const taken = (table[c - size] as number) + profit;
        table[c] = Math.max(taken, without);
      }
      this.work.add(width - size);
      return;
    }
    // The first piece is laid onto the row below, so that it need not be copied beforehand.
    table.copyWithin(row, row + width, row + width + Math.min(size, width));
    for (let c = row + size; c < end; c++) {
      const without = table[c + width] as number;
      const taken = (table[c + width - size] as number) + profit;
      table[c] = Math.max(taken, without);
    }
    this.work.add(Math.max(0, width - size));
    let left = Math.min(bound, mostThatFit) - 1;
    for (let chunk = 2; left > 0; chunk *= 2) {
      const take = Math.min(chunk, left);
      left -= take;
      const step = take * size;
      const gain = take * profit;
      for (let c = end - 1; c >= row + step; c--) {
        const taken = (table[c - step] as number) + gain;
        if (taken > (table[c] as number)) table[c] = taken;
      }
      this.work.add(Math.max(0, width - step));
    }
  }

  /** Upper bound on the profit in a capacity, straight from the table. */
  getCeiling(capacity: number): number {
    return capacity < 0 ? 0 : (this.table[this.toCells(capacity)] as number);
  }

  /** Best filling of a capacity for what was loaded last. */
  fill(capacity: number): Filling {
    if (capacity <= 0) return { items: [], counts: [], profit: 0, ceiling: 0 };
    return this.cell === 1 ? this.traceBack(capacity) : this.searchExact(capacity);
  }

  private traceBack(capacity: number, first = 0): Filling {
    const width = this.cells + 1;
    const items: number[] = [];
    const counts: number[] = [];
    let left = capacity;
    let profit = 0;
    for (let k = first; k < this.activeCount && left > 0; k++) {
      const size = this.sizes[this.active[k] as number] as number;
      const most = Math.min(this.bounds[k] as number, Math.floor(left / size));
      if (most === 0) continue;
      const next = (k + 1) * width;
      let best = 0;
      let bestProfit = this.table[next + left] as number;
      for (let count = 1; count <= most; count++) {
        const candidate = count * (this.profits[k] as number) + (this.table[next + left - count * size] as number);
        if (candidate > bestProfit * (1 + PROFIT_SLACK)) {
          best = count;
          bestProfit = candidate;
        }
      }
      if (best === 0) continue;
      items.push(this.active[k] as number);
      counts.push(best);
      left -= best * size;
      profit += best * (this.profits[k] as number);
    }
    return { items, counts, profit, ceiling: Math.max(profit, this.getCeiling(capacity)) };
  }

  /**
   * Good fillings that each start with another item, best first, read off one table.
   * @param leastProfit fillings below this are left out
   */
  fillVaried(capacity: number, leastProfit: number, limit: number): Filling[] {
    const starts: { k: number; count: number; profit: number }[] = [];
    const width = this.cells + 1;
    for (let k = 0; k < this.activeCount; k++) {
      const size = this.sizes[this.active[k] as number] as number;
      const most = Math.min(this.bounds[k] as number, Math.floor(capacity / size));
      let best = { k, count: 0, profit: leastProfit };
      for (let count = 1; count <= most; count++) {
        const rest = this.table[(k + 1) * width + this.toCells(capacity - count * size)] as number;
        const profit = count * (this.profits[k] as number) + rest;
        if (profit > best.profit) best = { k, count, profit };
      }
      if (best.count > 0) starts.push(best);
    }
    starts.sort((a, b) => b.profit - a.profit);
    const fillings = starts.slice(0, limit).map(({ k, count }) => {
      const size = this.sizes[this.active[k] as number] as number;
      const left = capacity - count * size;
      const rest =
        this.cell === 1
          ? this.traceBack(left, k + 1)
          : this.searchExact(left, k + 1, leastProfit - count * (this.profits[k] as number), MAX_NODES_PER_START);
      const profit = count * (this.profits[k] as number) + rest.profit;
      return {
        items: [this.active[k] as number, ...rest.items],
        counts: [count, ...rest.counts],
        profit,
        ceiling: profit,
      };
    });
    if (this.cell === 1) return fillings;
    const good = fillings.filter((filling) => filling.profit >= leastProfit);
    if (good.length > 0 || starts.length === 0) return good;
    const best = this.fill(capacity);
    return best.profit >= leastProfit ? [best] : [];
  }

  /** Depth-first search over exact sizes, led by the coarse table; what it leaves open is settled by `settleExact`. */
  private searchExact(capacity: number, first = 0, leastProfit = 0, maxNodes = MAX_NODES): Filling {
    const width = this.cells + 1;
    const count = this.activeCount;
    const taken = new Int32Array(count);
    let best: Int32Array = taken.slice();
    let bestProfit = 0;
    let nodes = 0;
    const ceiling = this.table[first * width + this.toCells(capacity)] as number;
    const visit = (k: number, left: number, profit: number): void => {
      if (profit > bestProfit * (1 + PROFIT_SLACK)) {
        bestProfit = profit;
        best = taken.slice();
      }
      if (k === count || nodes >= maxNodes || bestProfit >= ceiling) return;
      const size = this.sizes[this.active[k] as number] as number;
      const gain = this.profits[k] as number;
      const next = (k + 1) * width;
      for (
        let take = Math.min(this.bounds[k] as number, Math.floor(left / size));
        take >= 0 && nodes < maxNodes;
        take--
      ) {
        nodes++;
        const rest = left - take * size;
        const reach = profit + take * gain + (this.table[next + Math.floor(rest / this.cell)] as number);
        if (reach <= bestProfit * (1 + PROFIT_SLACK) || reach < leastProfit) continue;
        taken[k] = take;
        visit(k + 1, rest, profit + take * gain);
      }
      taken[k] = 0;
    };
    visit(first, capacity, 0);
    this.work.add(nodes * 20);
    const found = this.toFilling(best, bestProfit, nodes < maxNodes ? bestProfit * (1 + PROFIT_SLACK) : ceiling);
    if (nodes < maxNodes || maxNodes < MAX_NODES || !this.isThorough) return found;
    return this.settleExact(capacity, found);
  }

  private toFilling(taken: ArrayLike<number>, profit: number, ceiling: number): Filling {
    const items: number[] = [];
    const counts: number[] = [];
    for (let k = 0; k < taken.length; k++) {
      if ((taken[k] as number) === 0) continue;
      items.push(this.active[k] as number);
      counts.push(taken[k] as number);
    }
    return { items, counts, profit, ceiling };
  }

  /**
   * Goes through all undominated partial fillings, item by item, keeping only those that the coarse table does not rule out
   * (dynamic programming with bounds, as in Kellerer, Pferschy & Pisinger 2004, "Knapsack Problems", ch. 5).
   */
  private settleExact(capacity: number, known: Filling): Filling {
    const states = new PartialFillings();
    let level = [states.add(0, 0, -1, -1)];
    let best = -1;
    let bestProfit = known.profit;
    let steps = 0;
    const isSpent = (): boolean => states.count > MAX_STATES || steps > MAX_MERGE_STEPS;
    const isWorthwhile = (state: number, next: number): boolean => {
      const left = capacity - states.getUsed(state);
      if (left < 0) return false;
      const reach = states.getProfit(state) + (this.table[next + Math.floor(left / this.cell)] as number);
      return reach > bestProfit * (1 + PROFIT_SLACK);
    };
    for (let k = 0; k < this.activeCount && !isSpent(); k++) {
      const size = this.sizes[this.active[k] as number] as number;
      const gain = this.profits[k] as number;
      const next = (k + 1) * (this.cells + 1);
      let front = level;
      for (let copy = 0; copy < (this.bounds[k] as number) && front.length > 0 && !isSpent(); copy++) {
        const grown: number[] = [];
        for (const parent of front) {
          const used = states.getUsed(parent) + size;
          if (used > capacity) break;
          const state = states.add(used, states.getProfit(parent) + gain, parent, k);
          if (states.getProfit(state) > bestProfit * (1 + PROFIT_SLACK)) {
            bestProfit = states.getProfit(state);
            best = state;
          }
          if (isWorthwhile(state, next)) grown.push(state);
          else if (state !== best) states.dropLast();
        }
        front = grown;
        level = states.mergeUndominated(level, front);
        steps += level.length + grown.length;
      }
      level = level.filter((state) => isWorthwhile(state, next));
    }
    this.work.add(states.count * 40 + steps * 5);
    const ceiling = isSpent() ? known.ceiling : bestProfit * (1 + PROFIT_SLACK);
    if (best < 0) return { ...known, ceiling };
    const taken = new Int32Array(this.activeCount);
    for (let at = best; states.getItem(at) >= 0; at = states.getParent(at)) {
      taken[states.getItem(at)] = (taken[states.getItem(at)] as number) + 1;
    }
    return this.toFilling(taken, bestProfit, ceiling);
  }

  /**
   * Lists every filling of a capacity with at least this profit, up to a number of them.
   * @returns whether the list is complete
   */
  list(
    capacity: number,
    leastProfit: number,
    limit: number,
    found: (items: number[], counts: number[], profit: number) => void,
  ): boolean {
    const width = this.cells + 1;
    const items: number[] = [];
    const counts: number[] = [];
    let nodes = 0;
    let listed = 0;
    const visit = (k: number, left: number, profit: number): boolean => {
      if (k === this.activeCount) {
        if (profit < leastProfit) return true;
        if (listed++ >= limit) return false;
        found(items.slice(), counts.slice(), profit);
        return true;
      }
      const item = this.active[k] as number;
      const size = this.sizes[item] as number;
      const next = (k + 1) * width;
      for (let take = Math.min(this.bounds[k] as number, Math.floor(left / size)); take >= 0; take--) {
        if (nodes++ > limit * 20) return false;
        const rest = left - take * size;
        const gained = profit + take * (this.profits[k] as number);
        if (gained + (this.table[next + this.toCells(rest)] as number) < leastProfit) continue;
        if (take > 0) {
          items.push(item);
          counts.push(take);
        }
        const isComplete = visit(k + 1, rest, gained);
        if (take > 0) {
          items.pop();
          counts.pop();
        }
        if (!isComplete) return false;
      }
      return true;
    };
    const isComplete = visit(0, capacity, 0);
    this.work.add(nodes * 20 + listed * 200);
    return isComplete;
  }
}
