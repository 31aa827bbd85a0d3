import { type CorePattern, type CoreProblem, type CoreStock, computeItemBounds, type Residual } from './core-model';
import type { Knapsack } from './knapsack';
import { type LpColumn, MasterLp } from './master-lp';
import type { PatternPool } from './pattern-pool';
import type { WorkMeter } from './work-meter';

/** Dual prices are rounded down to integers of this scale, so that the bound they prove holds exactly. */
const PRICE_SCALE = 2 ** 32;

/** Reduced cost (share of the dearest bar) from which a new pattern is worth adding. */
const ENTERING_TOLERANCE = 1e-7;

const COLUMNS_PER_ROUND = 12;

/**
 * Integer dual prices with what each bar can earn at them: proves a lower bound for the residual they were made for and for every
 * residual within it. By LP duality (Farley 1990, "A note on bounding a class of linear programming problems"),
 * with the limits on quantities relaxed after Lagrange.
 */
export interface DualBound {
  readonly prices: Float64Array;
  /** Most that one bar of each stock can earn. */
  readonly earnings: Float64Array;
  /** Prices times `numerator / denominator` are weights. */
  readonly numerator: number;
  readonly denominator: number;
}

export interface Relaxation {
  /** No answer for the residual weighs less; an integer. */
  readonly bound: number;
  readonly dual: DualBound | undefined;
  /** Patterns used by the relaxed answer and how often. */
  readonly solution: readonly { readonly pattern: CorePattern; readonly value: number }[];
  readonly isConverged: boolean;
}

export interface RelaxationContext {
  readonly core: CoreProblem;
  readonly knapsack: Knapsack;
  readonly pool: PatternPool;
  readonly work: WorkMeter;
}

/** Bound that dual prices prove for a residual, rounded up to an integer with exact arithmetic. */
export function computeDualBound(core: CoreProblem, dual: DualBound, residual: Residual): number {
  let earned = 0n;
  for (let row = 0; row < residual.demands.length; row++) {
    const demand = residual.demands[row] as number;
    if (demand > 0) earned += BigInt(dual.prices[row] as number) * BigInt(demand);
  }
  let total = earned * BigInt(dual.numerator);
  core.stocks.forEach((stock, j) => {
    const quantity = residual.quantities[j] as number;
    if (quantity === Number.POSITIVE_INFINITY || quantity <= 0) return;
    const over =
      BigInt(dual.numerator) * BigInt(dual.earnings[j] as number) - BigInt(stock.weight) * BigInt(dual.denominator);
    if (over > 0n) total -= BigInt(quantity) * over;
  });
  if (total <= 0n) return 0;
  const denominator = BigInt(dual.denominator);
  return Number((total + denominator - 1n) / denominator);
}

/** The same bound in floating point, a hair on the safe side and not rounded up: for use in inner loops. */
export function estimateDualBound(core: CoreProblem, dual: DualBound, residual: Residual): number {
  const factor = dual.numerator / dual.denominator;
  let total = 0;
  for (let row = 0; row < residual.demands.length; row++) {
    total += (dual.prices[row] as number) * (residual.demands[row] as number);
  }
  total *= factor;
  for (let j = 0; j < core.stocks.length; j++) {
    const quantity = residual.quantities[j] as number;
    if (quantity === Number.POSITIVE_INFINITY || quantity <= 0) continue;
    const over = (dual.earnings[j] as number) * factor - (core.stocks[j] as CoreStock).weight;
    if (over > 0) total -= quantity * over;
  }
  return total - Math.abs(total) * 1e-12;
}

/** Turns prices (weights per unit of demand) into a proven bound; `undefined` if they prove nothing. */
export function buildDualBound(
  context: RelaxationContext,
  residual: Residual,
  prices: Float64Array,
  itemBounds: Int32Array,
): DualBound | undefined {
  const { core, knapsack } = context;
  const largest = Math.max(...core.stocks.map((stock) => stock.weight), 1);
  const integerPrices = prices.map((price) => Math.max(0, Math.floor((price / largest) * PRICE_SCALE)));
  const profits = Float64Array.from(core.sizes, (_, item) => {
    return (integerPrices[core.rows[item] as number] as number) * (core.values[item] as number);
  });
  knapsack.load(profits, itemBounds);
  const earnings = Float64Array.from(core.stocks, (stock) => Math.ceil(knapsack.fill(stock.capacity).ceiling));
  let numerator = largest;
  let denominator = PRICE_SCALE;
  core.stocks.forEach((stock, j) => {
    if (residual.quantities[j] !== Number.POSITIVE_INFINITY) return;
    const earning = earnings[j] as number;
    if (BigInt(stock.weight) * BigInt(denominator) < BigInt(earning) * BigInt(numerator)) {
      numerator = stock.weight;
      denominator = earning;
    }
  });
  if (numerator === 0) return undefined;
  return { prices: integerPrices, earnings, numerator, denominator };
}

/** Rows and columns of the linear program for one residual. */
class ResidualLp {
  readonly lp: MasterLp;
  readonly itemBounds: Int32Array;
  readonly unit: number;
  readonly patterns: CorePattern[] = [];
  private readonly demandRows: Int32Array;
  private readonly stockRows: Int32Array;
  private readonly core: CoreProblem;
  private readonly residual: Residual;

  constructor(context: RelaxationContext, residual: Residual) {
    const { core } = context;
    this.core = core;
    this.residual = residual;
    this.itemBounds = computeItemBounds(core, residual.demands);
    this.unit = Math.max(...core.stocks.map((stock) => stock.weight), 1);
    const right: number[] = [];
    this.demandRows = Int32Array.from(core.demands, (_, row) =>
      (residual.demands[row] as number) > 0 ? right.push(residual.demands[row] as number) - 1 : -1,
    );
    const hasLimits = residual.quantities.some((quantity) => quantity !== Number.POSITIVE_INFINITY);
    this.stockRows = Int32Array.from(core.stocks, (_, j) => {
      const quantity = residual.quantities[j] as number;
      return quantity > 0 && quantity !== Number.POSITIVE_INFINITY ? right.push(-quantity) - 1 : -1;
    });
    this.lp = new MasterLp(right, hasLimits ? 1000 : 1.5, context.work);
    for (const pattern of context.pool.patterns) if (this.isProper(pattern)) this.addPattern(pattern);
  }

  private isProper(pattern: CorePattern): boolean {
    if ((this.residual.quantities[pattern.stock] as number) <= 0) return false;
    for (let k = 0; k < pattern.items.length; k++) {
      if ((pattern.counts[k] as number) > (this.itemBounds[pattern.items[k] as number] as number)) return false;
    }
    return true;
  }

  addPattern(pattern: CorePattern): void {
    const { core } = this;
    const rows: number[] = [];
    const values: number[] = [];
    pattern.items.forEach((item, k) => {
      const row = this.demandRows[core.rows[item] as number] as number;
      const value = (core.values[item] as number) * (pattern.counts[k] as number);
      const at = rows.indexOf(row);
      if (at >= 0) values[at] = (values[at] as number) + value;
      else {
        rows.push(row);
        values.push(value);
      }
    });
    const stockRow = this.stockRows[pattern.stock] as number;
    if (stockRow >= 0) {
      rows.push(stockRow);
      values.push(-1);
    }
    const column: LpColumn = { cost: (core.stocks[pattern.stock] as CoreStock).weight / this.unit, rows, values };
    this.lp.addColumn(column);
    this.patterns.push(pattern);
  }

  /** Dual price of each demand row, as a share of the dearest bar. */
  getPrices(): Float64Array {
    return Float64Array.from(this.core.demands, (_, row) => {
      const at = this.demandRows[row] as number;
      return at < 0 ? 0 : Math.max(0, this.lp.duals[at] as number);
    });
  }

  /** What the limit on a stock adds to the price of a bar of it. */
  getScarcity(stock: number): number {
    const at = this.stockRows[stock] as number;
    return at < 0 ? 0 : Math.max(0, this.lp.duals[at] as number);
  }
}

/**
 * Solves the pattern relaxation of what is still to be placed by column generation (Gilmore & Gomory 1961).
 *
 * @param enough weight at which a proven bound is high enough to stop early
 */
export function computeRelaxation(context: RelaxationContext, residual: Residual, enough: number): Relaxation {
  const { core, knapsack, work, pool } = context;
  const problem = new ResidualLp(context, residual);
  const { lp, itemBounds, unit } = problem;
  let isConverged = false;
  while (!work.isOut()) {
    if (!lp.solve()) break;

    const prices = problem.getPrices();
    const profits = Float64Array.from(core.sizes, (_, item) => {
      return (prices[core.rows[item] as number] as number) * (core.values[item] as number);
    });
    knapsack.load(profits, itemBounds);
    let added = 0;
    let worstRatio = 1;
    for (let j = 0; j < core.stocks.length; j++) {
      if ((residual.quantities[j] as number) <= 0) continue;
      const stock = core.stocks[j] as CoreStock;
      const price = stock.weight / unit + problem.getScarcity(j);
      worstRatio = Math.max(worstRatio, knapsack.getCeiling(stock.capacity) / price);
      for (const filling of knapsack.fillVaried(stock.capacity, price + ENTERING_TOLERANCE, COLUMNS_PER_ROUND)) {
        const pattern = { stock: j, items: filling.items, counts: filling.counts };
        if (!pool.add(pattern)) continue;
        problem.addPattern(pattern);
        added++;
      }
    }
    if (added === 0) {
      isConverged = true;
      break;
    }
    if (core.stocks.length === 1 && lp.getObjective() / worstRatio > (enough - 1) / unit + 1e-6) break;
  }
  const prices = problem.getPrices().map((price) => price * unit);
  const dual = buildDualBound(context, residual, prices, itemBounds);
  const bound = dual ? computeDualBound(core, dual, residual) : 0;
  const solution = lp.getSolution().map(({ column, value }) => ({
    pattern: problem.patterns[column] as CorePattern,
    value,
  }));
  return { bound, dual, solution, isConverged };
}
