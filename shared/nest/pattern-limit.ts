import {
  type CorePattern,
  type CoreProblem,
  type CoreStock,
  computeWeight,
  copyResidual,
  getPatternKey,
  getWholeResidual,
  isAllPlaced,
  type PatternUse,
  type Residual,
  takePattern,
} from './core-model';
import { Knapsack } from './knapsack';
import type { WorkMeter } from './work-meter';

export interface LimitedAnswer {
  readonly uses: readonly PatternUse[];
  /** `Infinity` when nothing with so few patterns was found. */
  readonly weight: number;
  /** No answer within the limit weighs less; 0 when nothing is known. */
  readonly bound: number;
}

interface PartialAnswer {
  readonly left: Residual;
  readonly uses: readonly PatternUse[];
  readonly weight: number;
  /** Weight so far and what the rest must weigh by its length: by this partial answers are ranked. */
  readonly outlook: number;
}

/** Partial answers kept at each step. */
const BEAM_WIDTH = 60;

/** Numbers of repeats tried for the next pattern. */
const MAX_REPEATS_TRIED = 40;

export function countPatterns(uses: readonly PatternUse[]): number {
  return new Set(uses.map((use) => getPatternKey(use.pattern))).size;
}

/**
 * Looks for a light answer with at most so many distinct patterns; blanks beyond the demand are allowed.
 *
 * A beam search: each step adds one pattern, filled as well as can be for a chosen number of repeats, and then asks
 * what it costs to finish with one pattern more. With a limit of 1 and no ganged choices that is exact.
 */
export function computeLimitedAnswer(core: CoreProblem, limit: number, work: WorkMeter): LimitedAnswer {
  const widest = Math.max(...core.stocks.map((stock) => stock.capacity));
  const knapsack = new Knapsack(core.sizes, widest, work, 2000);
  let best: { uses: readonly PatternUse[]; weight: number } = { uses: [], weight: Number.POSITIVE_INFINITY };
  const whole = getWholeResidual(core);
  let beam: PartialAnswer[] = [{ left: whole, uses: [], weight: 0, outlook: 0 }];
  for (let step = 1; step <= limit && beam.length > 0; step++) {
    const grown = new Map<string, PartialAnswer>();
    for (const partial of beam) {
      if (work.isOut()) break;
      const last = finishWithOnePattern(core, partial.left);
      if (last && partial.weight + computeWeight(core, [last]) < best.weight) {
        best = { uses: [...partial.uses, last], weight: partial.weight + computeWeight(core, [last]) };
      }
      if (step === limit) continue;
      for (const next of listNextPatterns(core, partial.left, knapsack)) {
        const grownPartial = addPattern(core, partial, next);
        if (grownPartial.outlook >= best.weight) continue;
        if (isAllPlaced(grownPartial.left)) {
          best = { uses: grownPartial.uses, weight: grownPartial.weight };
          continue;
        }
        grown.set(grownPartial.left.demands.join(), grownPartial);
      }
    }
    beam = [...grown.values()].sort((a, b) => a.outlook - b.outlook).slice(0, BEAM_WIDTH);
  }
  const isExact = limit === 1 && core.values.every((value) => value === 1);
  return { ...best, bound: isExact ? best.weight : 0 };
}

/** The lightest way to meet all that is left with one pattern, cut as often as need be. */
function finishWithOnePattern(core: CoreProblem, left: Residual): PatternUse | undefined {
  let best: PatternUse | undefined;
  let bestWeight = Number.POSITIVE_INFINITY;
  const cheapest = core.demands.map((_, row) => findLeanestItem(core, row));
  for (let stock = 0; stock < core.stocks.length; stock++) {
    const { capacity, weight } = core.stocks[stock] as CoreStock;
    const most = Math.min(left.quantities[stock] as number, Math.max(...left.demands));
    const repeats = findFewestRepeats(core, left, cheapest, capacity, most);
    if (repeats === undefined || repeats * weight >= bestWeight) continue;
    bestWeight = repeats * weight;
    best = { pattern: { stock, ...shareOut(core, left, cheapest, repeats) }, count: repeats };
  }
  return best;
}

/** Item of a row that takes least length for each part. */
function findLeanestItem(core: CoreProblem, row: number): number {
  let leanest = -1;
  for (let item = 0; item < core.sizes.length; item++) {
    if (core.rows[item] !== row) continue;
    const rate = (core.sizes[item] as number) / (core.values[item] as number);
    if (leanest < 0 || rate <= (core.sizes[leanest] as number) / (core.values[leanest] as number)) leanest = item;
  }
  return leanest;
}

/** More repeats never need a longer bar, so the fewest are found by halving. */
function findFewestRepeats(
  core: CoreProblem,
  left: Residual,
  items: readonly number[],
  capacity: number,
  most: number,
): number | undefined {
  const fits = (repeats: number): boolean => {
    const { items: used, counts } = shareOut(core, left, items, repeats);
    return used.reduce((sum, item, k) => sum + (core.sizes[item] as number) * (counts[k] as number), 0) <= capacity;
  };
  if (most < 1 || !fits(most)) return undefined;
  let [low, high] = [1, most];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (fits(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}

function shareOut(
  core: CoreProblem,
  left: Residual,
  items: readonly number[],
  repeats: number,
): { items: number[]; counts: number[] } {
  const pairs = items
    .map((item, row) => ({
      item,
      count: Math.ceil((left.demands[row] as number) / (core.values[item] as number) / repeats),
    }))
    .filter(({ count }) => count > 0)
    .sort((a, b) => a.item - b.item);
  return { items: pairs.map(({ item }) => item), counts: pairs.map(({ count }) => count) };
}

/** The fullest pattern for each of several numbers of repeats. */
function listNextPatterns(core: CoreProblem, left: Residual, knapsack: Knapsack): PatternUse[] {
  const most = Math.max(...left.demands);
  const step = Math.max(1, most / MAX_REPEATS_TRIED);
  const list: PatternUse[] = [];
  for (let at = 1; at <= most; at += step) {
    const repeats = Math.floor(at);
    const bounds = core.sizes.map((_, item) => {
      return Math.floor((left.demands[core.rows[item] as number] as number) / (core.values[item] as number) / repeats);
    });
    if (bounds.every((bound) => bound === 0)) break;
    knapsack.load(core.sizes, bounds);
    for (let stock = 0; stock < core.stocks.length; stock++) {
      if ((left.quantities[stock] as number) < repeats) continue;
      const { items, counts } = knapsack.fill((core.stocks[stock] as CoreStock).capacity);
      if (items.length === 0 || !coversNoRowTwice(core, left, { stock, items, counts }, repeats)) continue;
      list.push({ pattern: { stock, items, counts }, count: repeats });
    }
  }
  return list;
}

/** Whether a pattern with several choices of one row makes no more of it than is wanted. */
function coversNoRowTwice(core: CoreProblem, left: Residual, pattern: CorePattern, repeats: number): boolean {
  const made = new Map<number, number>();
  pattern.items.forEach((item, k) => {
    const row = core.rows[item] as number;
    made.set(row, (made.get(row) ?? 0) + (core.values[item] as number) * (pattern.counts[k] as number) * repeats);
  });
  return [...made].every(([row, amount]) => amount <= (left.demands[row] as number));
}

function addPattern(core: CoreProblem, partial: PartialAnswer, next: PatternUse): PartialAnswer {
  const left = copyResidual(partial.left);
  takePattern(core, left, next.pattern, next.count);
  const weight = partial.weight + computeWeight(core, [next]);
  const rate = Math.min(...core.stocks.map((stock) => stock.weight / stock.capacity));
  const length = left.demands.reduce((sum, demand, row) => {
    const item = findLeanestItem(core, row);
    return sum + (demand * (core.sizes[item] as number)) / (core.values[item] as number);
  }, 0);
  return { left, uses: [...partial.uses, next], weight, outlook: weight + length * rate };
}
