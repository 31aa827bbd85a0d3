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
import { computeGreedyAnswer } from './greedy';
import {
  computeDualBound,
  computeRelaxation,
  type DualBound,
  estimateDualBound,
  type RelaxationContext,
} from './relaxation';

export interface ExactSearchOptions {
  /** Only answers lighter than this are of use. */
  readonly below: number;
  /** Rounds a proven bound up to a weight that an answer can have. */
  readonly roundUp: (weight: number) => number;
  readonly found: (uses: readonly PatternUse[], weight: number) => void;
}

/** Most patterns listed at one node; where there are more the search is given up, since it would not end. */
const MAX_CHILDREN = 3000;

/**
 * Branch and price: at each node the relaxation of what is left gives a bound; then the largest item left must lie in
 * some bar, and every maximal way of filling that bar whose reduced cost the gap still allows is tried, cheapest first.
 *
 * @returns true when the search is complete: no answer lighter than the best found (or than `below`) exists
 */
export function computeExactSearch(
  context: RelaxationContext,
  residual: Residual,
  options: ExactSearchOptions,
): boolean {
  const { core, work, knapsack } = context;
  const fixed: PatternUse[] = [];
  const duals: DualBound[] = [];
  const seen = new Map<string, number>();
  let below = options.below;

  const report = (uses: readonly PatternUse[], weight: number): void => {
    if (weight >= below) return;
    below = weight;
    options.found(uses, weight);
  };

  const isHopeless = (left: Residual, weight: number): boolean => {
    for (let k = duals.length - 1; k >= 0; k--) {
      const dual = duals[k] as DualBound;
      if (weight + estimateDualBound(core, dual, left) <= below - 1) continue;
      if (options.roundUp(weight + computeDualBound(core, dual, left)) >= below) return true;
    }
    return false;
  };

  const visit = (left: Residual, weight: number): boolean => {
    if (weight >= below) return true;
    if (isAllPlaced(left)) {
      report([...fixed], weight);
      return true;
    }
    if (work.isOut() || fixed.length >= MAX_FIXED_BARS) return false;
    if (isHopeless(left, weight)) return true;
    const key = `${left.demands.join(',')};${left.quantities.join(',')}`;
    const best = seen.get(key);
    if (best !== undefined && best <= weight) return true;
    const relaxation = computeRelaxation(context, left, below - weight);
    if (!relaxation.dual) return false;
    if (options.roundUp(weight + relaxation.bound) >= below) {
      seen.set(key, weight);
      return true;
    }
    const finish = computeGreedyAnswer(core, left, { kind: 'least-waste', nodes: 200 }, work);
    report([...fixed, ...finish.uses], weight + finish.weight);
    duals.push(relaxation.dual);
    const isComplete = branch(left, weight, relaxation.dual);
    duals.pop();
    if (isComplete) seen.set(key, weight);
    return isComplete;
  };

  const branch = (left: Residual, weight: number, dual: DualBound): boolean => {
    const bounds = computeItemBounds(core, left.demands);
    const lead = bounds.findIndex((bound) => bound > 0);
    const leadRow = core.rows[lead] as number;
    const profits = core.sizes.map(
      (_, item) => (dual.prices[core.rows[item] as number] as number) * (core.values[item] as number),
    );
    const children: { pattern: CorePattern; reduced: number }[] = [];
    const allowed = below - weight - estimateDualBound(core, dual, left);
    const factor = dual.numerator / dual.denominator;
    let isComplete = true;
    for (let item = 0; item < core.sizes.length; item++) {
      if (core.rows[item] !== leadRow || (bounds[item] as number) <= 0) continue;
      // Patterns that hold this choice of the row but none of the choices already listed.
      const rest = bounds.map((bound, other) => {
        if (other === item) return bound - 1;
        return other < item && core.rows[other] === leadRow ? 0 : bound;
      });
      // A hair of profit on every item lists those without a price too, so that no maximal filling is missed.
      knapsack.load(
        profits.map((profit) => profit + 1e-9),
        rest,
      );
      for (let stock = 0; stock < core.stocks.length; stock++) {
        if ((left.quantities[stock] as number) <= 0) continue;
        const { capacity, weight: barWeight } = core.stocks[stock] as CoreStock;
        const room = capacity - (core.sizes[item] as number);
        if (room < 0) continue;
        const quantity = left.quantities[stock] as number;
        const scarcity =
          quantity === Number.POSITIVE_INFINITY
            ? 0
            : Math.max(0, (dual.earnings[stock] as number) * factor - barWeight);
        const least = (barWeight + scarcity - allowed) / factor - (profits[item] as number);
        const listed = knapsack.list(
          room,
          least * (1 - Math.sign(least) * 1e-9) - 1e-6,
          MAX_CHILDREN,
          (items, counts, profit) => {
            const pattern = { stock, ...withItem(items, counts, item) };
            if (!isMaximal(pattern, room, items, counts, rest)) return;
            children.push({ pattern, reduced: barWeight + scarcity - factor * (profit + (profits[item] as number)) });
          },
        );
        if (!listed) return false;
      }
    }
    children.sort((a, b) => a.reduced - b.reduced || a.pattern.stock - b.pattern.stock);
    for (const { pattern } of children) {
      const after = copyResidual(left);
      takePattern(core, after, pattern, 1);
      fixed.push({ pattern, count: 1 });
      const isDone = visit(after, weight + (core.stocks[pattern.stock] as CoreStock).weight);
      fixed.pop();
      if (!isDone) isComplete = false;
      if (work.isOut()) return false;
    }
    return isComplete;
  };

  const isMaximal = (
    pattern: CorePattern,
    room: number,
    items: readonly number[],
    counts: readonly number[],
    rest: Int32Array,
  ): boolean => {
    let left = room;
    items.forEach((item, k) => {
      left -= (core.sizes[item] as number) * (counts[k] as number);
    });
    for (let item = core.sizes.length - 1; item >= 0; item--) {
      if ((core.sizes[item] as number) > left) return true;
      if ((rest[item] as number) <= 0) continue;
      const at = items.indexOf(item);
      if ((rest[item] as number) > (at >= 0 ? (counts[at] as number) : 0)) return false;
    }
    return pattern.items.length > 0;
  };

  return visit(residual, 0);
}

function withItem(items: number[], counts: number[], item: number): { items: number[]; counts: number[] } {
  const at = items.indexOf(item);
  if (at >= 0) {
    counts[at] = (counts[at] as number) + 1;
    return { items, counts };
  }
  const order = items.findIndex((other) => other > item);
  const place = order < 0 ? items.length : order;
  items.splice(place, 0, item);
  counts.splice(place, 0, 1);
  return { items, counts };
}
