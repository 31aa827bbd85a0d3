import {
  type CorePattern,
  type CoreStock,
  computeItemBounds,
  copyResidual,
  isAllPlaced,
  MAX_FIXED_BARS,
  type PatternUse,
  type Residual,
  takePattern,
} from './core-model';
import { MasterLp } from './master-lp';
import { type DualBound, estimateDualBound, type RelaxationContext } from './relaxation';

export interface ListedSearchOptions {
  /** Only answers lighter than this are of use. */
  readonly below: number;
  readonly found: (uses: readonly PatternUse[], weight: number) => void;
  /** Most patterns listed; beyond that nothing is searched. */
  readonly maxListed: number;
}

interface ListedPattern {
  readonly pattern: CorePattern;
  readonly rows: readonly number[];
  readonly amounts: readonly number[];
  readonly weight: number;
  /** Share of the gap that one bar of it uses up. */
  readonly reduced: number;
}

/** Relative room left for rounding wherever floating point decides that something is ruled out. */
const SAFETY = 1e-9;

/**
 * Where the gap between bound and answer is small, few patterns have a reduced cost within it, and no better answer can use any
 * other. They are all listed, and combined by branch and bound with a linear program over the list at each node; a bar that covers
 * the row with the fewest patterns left is fixed next.
 *
 * @returns true when the list and the search are complete: no answer lighter than the best found (or than `below`) exists
 */
export function computeListedSearch(
  context: RelaxationContext,
  residual: Residual,
  dual: DualBound,
  options: ListedSearchOptions,
): boolean {
  const list = listPatterns(context, residual, dual, options);
  return list !== undefined && new ListedSearch(context, residual, dual, list, options).run();
}

/** Patterns that nothing can be added to, with a reduced cost within the gap; `undefined` when there are too many. */
function listPatterns(
  context: RelaxationContext,
  residual: Residual,
  dual: DualBound,
  options: ListedSearchOptions,
): ListedPattern[] | undefined {
  const { core, knapsack } = context;
  const bounds = computeItemBounds(core, residual.demands);
  const profits = core.sizes.map((_, item) => getItemPrice(context, dual, item));
  const factor = dual.numerator / dual.denominator;
  const gap = options.below - 1 - estimateDualBound(core, dual, residual);
  // A hair of profit on every item lists those without a price too, so that no full bar is missed.
  knapsack.load(
    profits.map((profit) => profit + 1e-9),
    bounds,
  );
  const list: ListedPattern[] = [];
  for (let stock = 0; stock < core.stocks.length; stock++) {
    const quantity = residual.quantities[stock] as number;
    if (quantity <= 0) continue;
    const { capacity, weight } = core.stocks[stock] as CoreStock;
    const earned = (dual.earnings[stock] as number) * factor;
    const price = quantity === Number.POSITIVE_INFINITY ? weight : Math.max(weight, earned);
    const least = (price - gap) / factor;
    const slack = Math.abs(least) * SAFETY + 1e-6;
    const isComplete = knapsack.list(capacity, least - slack, options.maxListed, (items, counts, profit) => {
      if (!isFull(core.sizes, bounds, capacity, items, counts)) return;
      list.push({
        pattern: { stock, items, counts },
        ...addUpRows(context, items, counts),
        weight,
        reduced: Math.max(0, price - profit * factor - price * SAFETY),
      });
    });
    if (!isComplete || list.length > options.maxListed) return undefined;
  }
  return list;
}

function getItemPrice(context: RelaxationContext, dual: DualBound, item: number): number {
  return (dual.prices[context.core.rows[item] as number] as number) * (context.core.values[item] as number);
}

function isFull(
  sizes: readonly number[],
  bounds: Int32Array,
  capacity: number,
  items: readonly number[],
  counts: readonly number[],
): boolean {
  let room = capacity;
  items.forEach((item, k) => {
    room -= (sizes[item] as number) * (counts[k] as number);
  });
  for (let item = sizes.length - 1; item >= 0 && (sizes[item] as number) <= room; item--) {
    const at = items.indexOf(item);
    if ((bounds[item] as number) > (at >= 0 ? (counts[at] as number) : 0)) return false;
  }
  return true;
}

function addUpRows(
  context: RelaxationContext,
  items: readonly number[],
  counts: readonly number[],
): { rows: number[]; amounts: number[] } {
  const { core } = context;
  const byRow = new Map<number, number>();
  items.forEach((item, k) => {
    const row = core.rows[item] as number;
    byRow.set(row, (byRow.get(row) ?? 0) + (core.values[item] as number) * (counts[k] as number));
  });
  return { rows: [...byRow.keys()], amounts: [...byRow.values()] };
}

class ListedSearch {
  private readonly context: RelaxationContext;
  private readonly residual: Residual;
  private readonly list: readonly ListedPattern[];
  private readonly options: ListedSearchOptions;
  private readonly base: number;
  private readonly rowPrices: Float64Array;
  private readonly barred: Uint8Array;
  private readonly fixed: PatternUse[] = [];
  private below: number;

  constructor(
    context: RelaxationContext,
    residual: Residual,
    dual: DualBound,
    list: readonly ListedPattern[],
    options: ListedSearchOptions,
  ) {
    this.context = context;
    this.residual = residual;
    this.list = list;
    this.options = options;
    this.below = options.below;
    this.base = estimateDualBound(context.core, dual, residual);
    const factor = (dual.numerator / dual.denominator) * (1 - SAFETY);
    this.rowPrices = dual.prices.map((price) => price * factor);
    this.barred = new Uint8Array(list.length);
  }

  run(): boolean {
    return this.visit(copyResidual(this.residual), 0, 0);
  }

  /** @param spent share of the gap used up so far */
  private visit(left: Residual, weight: number, spent: number): boolean {
    const { work, core } = this.context;
    if (weight >= this.below) return true;
    if (isAllPlaced(left)) {
      this.below = weight;
      this.options.found([...this.fixed], weight);
      return true;
    }
    if (work.isOut() || this.fixed.length >= MAX_FIXED_BARS) return false;
    const gap = this.below - 1 - this.base - spent;
    const usable: number[] = [];
    for (let k = 0; k < this.list.length; k++) if (this.isUsable(k, left, gap)) usable.push(k);
    work.add(this.list.length * 10);
    const row = this.chooseRow(left, usable);
    if (row < 0) return true;
    const { bound, values } = this.relax(left, usable);
    if (weight + bound > this.below - 1) return true;
    const children = usable
      .filter((k) => (this.list[k] as ListedPattern).rows.includes(row))
      .sort((a, b) => (values.get(b) ?? 0) - (values.get(a) ?? 0) || a - b);
    let isComplete = true;
    for (const k of children) {
      const { pattern, reduced, weight: barWeight } = this.list[k] as ListedPattern;
      const after = copyResidual(left);
      takePattern(core, after, pattern, 1);
      this.fixed.push({ pattern, count: 1 });
      if (!this.visit(after, weight + barWeight, spent + reduced + this.priceOver(k, left))) isComplete = false;
      this.fixed.pop();
      // Every answer with this pattern has been seen: the others do without it.
      this.barred[k] = 1;
      if (!isComplete && work.isOut()) break;
    }
    for (const k of children) this.barred[k] = 0;
    return isComplete;
  }

  private isUsable(k: number, left: Residual, gap: number): boolean {
    const { pattern, rows, reduced } = this.list[k] as ListedPattern;
    if (this.barred[k] === 1 || reduced > gap || (left.quantities[pattern.stock] as number) <= 0) return false;
    if (!rows.some((row) => (left.demands[row] as number) > 0)) return false;
    return reduced + this.priceOver(k, left) <= gap;
  }

  /** What a bar makes beyond what is left to make, at the dual prices: that, too, uses up the gap. */
  private priceOver(k: number, left: Residual): number {
    const { rows, amounts } = this.list[k] as ListedPattern;
    let price = 0;
    for (let at = 0; at < rows.length; at++) {
      const row = rows[at] as number;
      const over = (amounts[at] as number) - (left.demands[row] as number);
      if (over > 0) price += over * (this.rowPrices[row] as number);
    }
    return price;
  }

  /** The row with the fewest patterns left; -1 when one has none. */
  private chooseRow(left: Residual, usable: readonly number[]): number {
    const counts = new Int32Array(left.demands.length);
    for (const k of usable) {
      for (const row of (this.list[k] as ListedPattern).rows) counts[row] = (counts[row] as number) + 1;
    }
    let best = -1;
    for (let row = 0; row < counts.length; row++) {
      if ((left.demands[row] as number) <= 0) continue;
      if (counts[row] === 0) return -1;
      if (best < 0 || (counts[row] as number) < (counts[best] as number)) best = row;
    }
    return best;
  }

  /** Linear program over the usable patterns: a bound that any rounding of its duals leaves valid, and its solution. */
  private relax(left: Residual, usable: readonly number[]): { bound: number; values: Map<number, number> } {
    const { core, work } = this.context;
    const unit = Math.max(...core.stocks.map((stock) => stock.weight), 1);
    const right: number[] = [];
    const rowAt = Int32Array.from(left.demands, (demand) => (demand > 0 ? right.push(demand) - 1 : -1));
    const stockAt = Int32Array.from(left.quantities, (quantity) => {
      return quantity > 0 && quantity !== Number.POSITIVE_INFINITY ? right.push(-quantity) - 1 : -1;
    });
    const lp = new MasterLp(right, 1000, work);
    for (const k of usable) {
      const { rows, amounts, weight, pattern } = this.list[k] as ListedPattern;
      const lpRows: number[] = [];
      const lpValues: number[] = [];
      rows.forEach((row, at) => {
        if ((rowAt[row] as number) < 0) return;
        lpRows.push(rowAt[row] as number);
        lpValues.push(amounts[at] as number);
      });
      if ((stockAt[pattern.stock] as number) >= 0) {
        lpRows.push(stockAt[pattern.stock] as number);
        lpValues.push(-1);
      }
      lp.addColumn({ cost: weight / unit, rows: lpRows, values: lpValues });
    }
    lp.solve();
    const values = new Map(lp.getSolution().map(({ column, value }) => [usable[column] as number, value]));
    const prices = Float64Array.from(rowAt, (at) => (at < 0 ? 0 : Math.max(0, lp.duals[at] as number)));
    return { bound: this.boundByPrices(left, usable, prices) * unit, values };
  }

  private boundByPrices(left: Residual, usable: readonly number[], prices: Float64Array): number {
    const { core } = this.context;
    const unit = Math.max(...core.stocks.map((stock) => stock.weight), 1);
    const most = new Float64Array(core.stocks.length);
    for (const k of usable) {
      const { rows, amounts, pattern } = this.list[k] as ListedPattern;
      let earned = 0;
      for (let at = 0; at < rows.length; at++)
        earned += (prices[rows[at] as number] as number) * (amounts[at] as number);
      most[pattern.stock] = Math.max(most[pattern.stock] as number, earned);
    }
    let scale = 1;
    core.stocks.forEach((stock, j) => {
      const isUnlimited = left.quantities[j] === Number.POSITIVE_INFINITY;
      if (isUnlimited && (most[j] as number) > 0) scale = Math.min(scale, stock.weight / unit / (most[j] as number));
    });
    let total = 0;
    prices.forEach((price, row) => {
      total += price * Math.max(0, left.demands[row] as number) * scale;
    });
    core.stocks.forEach((stock, j) => {
      const quantity = left.quantities[j] as number;
      if (quantity === Number.POSITIVE_INFINITY || quantity <= 0) return;
      total -= quantity * Math.max(0, (most[j] as number) * scale - stock.weight / unit);
    });
    return total - Math.abs(total) * SAFETY;
  }
}
