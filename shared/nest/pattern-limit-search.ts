import {
  type CorePattern,
  type CoreProblem,
  type CoreStock,
  computeItemBounds,
  copyResidual,
  getWholeResidual,
  isAllPlaced,
  type PatternUse,
  type Residual,
  takePattern,
} from './core-model';
import { Knapsack } from './knapsack';
import { PatternPool } from './pattern-pool';
import { computeDualBound, computeRelaxation, type DualBound, estimateDualBound } from './relaxation';
import type { WorkMeter } from './work-meter';

export interface LimitedSearchOptions {
  /** Only answers lighter than this are of use. */
  readonly below: number;
  readonly roundUp: (weight: number) => number;
  readonly found: (uses: readonly PatternUse[], weight: number) => void;
}

/** Most full patterns that are listed; where there are more the search would not end. */
const MAX_PATTERNS = 5000;

/** Rough cost of looking at a node, and of each row in it, in elementary steps. */
const UNITS_PER_NODE = 500;
const UNITS_PER_ROW = 50;

/** A pattern with what one bar of it makes of each row. */
interface FullPattern {
  readonly pattern: CorePattern;
  readonly rows: readonly number[];
  readonly amounts: readonly number[];
  readonly weight: number;
}

/**
 * Tries every set of at most so many distinct patterns. Only patterns to which nothing can be added need be tried, since
 * blanks beyond the demand are allowed; the row that fewest patterns make is met first, by each of them in turn.
 *
 * @returns true when all was tried: no answer lighter than the best found (or than `below`) exists
 */
export function computeLimitedSearch(
  core: CoreProblem,
  limit: number,
  work: WorkMeter,
  options: LimitedSearchOptions,
): boolean {
  const patterns = work.isOut() ? undefined : listFullPatterns(core, work);
  if (patterns === undefined || work.isOut()) return false;
  const whole = getWholeResidual(core);
  const widest = Math.max(...core.stocks.map((stock) => stock.capacity));
  const context = { core, work, pool: new PatternPool(), knapsack: new Knapsack(core.sizes, widest, work) };
  const { dual } = computeRelaxation(context, whole, Number.POSITIVE_INFINITY);
  return dual !== undefined && new LimitedSearch(core, work, dual, patterns, options).visit(whole, limit, 0);
}

class LimitedSearch {
  private readonly core: CoreProblem;
  private readonly work: WorkMeter;
  private readonly dual: DualBound;
  private readonly patterns: readonly FullPattern[];
  private readonly makersOf: readonly FullPattern[][];
  private readonly options: LimitedSearchOptions;
  private readonly fixed: PatternUse[] = [];
  private readonly seen = new Map<string, number>();
  private below: number;

  constructor(
    core: CoreProblem,
    work: WorkMeter,
    dual: DualBound,
    patterns: readonly FullPattern[],
    options: LimitedSearchOptions,
  ) {
    this.core = core;
    this.work = work;
    this.dual = dual;
    const byReducedCost = patterns.map((full) => ({ full, reduced: getReducedCost(dual, full) }));
    this.patterns = byReducedCost.sort((a, b) => a.reduced - b.reduced).map(({ full }) => full);
    this.makersOf = core.demands.map((_, row) => this.patterns.filter(({ rows }) => rows.includes(row)));
    this.options = options;
    this.below = options.below;
  }

  /** @returns false when the work ran out */
  visit(left: Residual, patternsLeft: number, weight: number): boolean {
    if (isAllPlaced(left)) {
      this.report([], weight);
      return true;
    }
    if (patternsLeft === 0 || this.isHopeless(left, weight)) return true;
    if (this.work.isOut()) return false;
    const key = `${patternsLeft};${left.demands.join(',')};${left.quantities.join(',')}`;
    const best = this.seen.get(key);
    if (best !== undefined && best <= weight) return true;
    const isComplete = patternsLeft === 1 ? this.finish(left, weight) : this.branch(left, patternsLeft, weight);
    if (isComplete) this.seen.set(key, weight);
    return isComplete;
  }

  private report(last: readonly PatternUse[], weight: number): void {
    if (weight >= this.below) return;
    this.below = weight;
    this.options.found([...this.fixed, ...last], weight);
  }

  private isHopeless(left: Residual, weight: number): boolean {
    const { core, dual } = this;
    this.work.add(UNITS_PER_NODE + core.demands.length * UNITS_PER_ROW);
    if (weight + estimateDualBound(core, dual, left) <= this.below - 1) return false;
    return this.options.roundUp(weight + computeDualBound(core, dual, left)) >= this.below;
  }

  /** Everything that is left with one pattern. */
  private finish(left: Residual, weight: number): boolean {
    const makers = this.getMakers(left);
    this.work.add(makers.length * this.core.demands.length);
    for (const maker of makers) {
      const count = countToMeetAll(left, maker);
      if (count > (left.quantities[maker.pattern.stock] as number)) continue;
      this.report([{ pattern: maker.pattern, count }], weight + count * maker.weight);
    }
    return true;
  }

  private branch(left: Residual, patternsLeft: number, weight: number): boolean {
    for (const maker of this.getMakers(left)) {
      const { pattern } = maker;
      const most = Math.min(countUseful(left, maker), left.quantities[pattern.stock] as number);
      for (let count = most; count >= 1; count--) {
        const after = copyResidual(left);
        takePattern(this.core, after, pattern, count);
        this.fixed.push({ pattern, count });
        const isDone = this.visit(after, patternsLeft - 1, weight + count * maker.weight);
        this.fixed.pop();
        if (!isDone) return false;
      }
    }
    return true;
  }

  /** Patterns of which one must be used: those that make the row which fewest make. */
  private getMakers(left: Residual): readonly FullPattern[] {
    let fewest: readonly FullPattern[] = this.patterns;
    left.demands.forEach((wanted, row) => {
      const makers = this.makersOf[row] as FullPattern[];
      if (wanted > 0 && makers.length <= fewest.length) fewest = makers;
    });
    return fewest;
  }
}

/** What one bar of a pattern costs beyond what it earns at the prices of the relaxation. */
function getReducedCost(dual: DualBound, { rows, amounts, weight }: FullPattern): number {
  const earned = rows.reduce((sum, row, k) => sum + (dual.prices[row] as number) * (amounts[k] as number), 0);
  return weight - (earned * dual.numerator) / dual.denominator;
}

/** Bars of a pattern that meet all that is left; `Infinity` when it does not make everything. */
function countToMeetAll(left: Residual, { rows, amounts }: FullPattern): number {
  let most = 1;
  for (let row = 0; row < left.demands.length; row++) {
    const wanted = left.demands[row] as number;
    if (wanted <= 0) continue;
    const at = rows.indexOf(row);
    if (at < 0) return Number.POSITIVE_INFINITY;
    most = Math.max(most, Math.ceil(wanted / (amounts[at] as number)));
  }
  return most;
}

/** Bars of a pattern beyond which it makes only what is not wanted. */
function countUseful(left: Residual, { rows, amounts }: FullPattern): number {
  return rows.reduce((most, row, k) => {
    return Math.max(most, Math.ceil((left.demands[row] as number) / (amounts[k] as number)));
  }, 0);
}

/** Every way of filling a bar to which no wanted blank can be added; `undefined` when there are too many. */
function listFullPatterns(core: CoreProblem, work: WorkMeter): FullPattern[] | undefined {
  const bounds = computeItemBounds(core, Float64Array.from(core.demands));
  const list: FullPattern[] = [];
  const counts = core.sizes.map(() => 0);
  const isFull = (room: number): boolean => {
    return core.sizes.every((size, item) => size > room || (counts[item] as number) >= (bounds[item] as number));
  };
  let steps = 0;
  const fill = (stock: number, item: number, room: number): boolean => {
    if (++steps > MAX_PATTERNS * core.sizes.length || list.length > MAX_PATTERNS) return false;
    if (item === core.sizes.length) {
      if (isFull(room)) list.push(buildFullPattern(core, stock, counts));
      return true;
    }
    const size = core.sizes[item] as number;
    for (let count = Math.min(bounds[item] as number, Math.floor(room / size)); count >= 0; count--) {
      counts[item] = count;
      const isDone = fill(stock, item + 1, room - count * size);
      counts[item] = 0;
      if (!isDone) return false;
    }
    return true;
  };
  const isComplete = core.stocks.every(({ capacity, quantity }, stock) => quantity <= 0 || fill(stock, 0, capacity));
  work.add(steps * core.sizes.length);
  return isComplete ? list.filter(({ rows }) => rows.length > 0) : undefined;
}

function buildFullPattern(core: CoreProblem, stock: number, counts: readonly number[]): FullPattern {
  const items = core.sizes.flatMap((_, item) => ((counts[item] as number) > 0 ? [item] : []));
  const made = new Map<number, number>();
  for (const item of items) {
    const row = core.rows[item] as number;
    made.set(row, (made.get(row) ?? 0) + (counts[item] as number) * (core.values[item] as number));
  }
  return {
    pattern: { stock, items, counts: items.map((item) => counts[item] as number) },
    rows: [...made.keys()],
    amounts: [...made.values()],
    weight: (core.stocks[stock] as CoreStock).weight,
  };
}
