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
import { computeLimitedSearch } from './pattern-limit-search';
import type { CoreAnswer } from './solve-core';
import { mergeEqual } from './surplus';
import type { WorkMeter } from './work-meter';

export interface LimitedAnswer {
  readonly uses: readonly PatternUse[];
  /** `Infinity` when nothing with so few patterns was found. */
  readonly weight: number;
  /** No answer within the limit weighs less. */
  readonly bound: number;
  /** Whether everything was tried: then no better answer within the limit exists, or none at all where none was found. */
  readonly isComplete: boolean;
}

export interface LimitedOptions {
  /** No answer weighs less, whatever its patterns. */
  readonly bound: number;
  /** Rounds a proven bound up to a weight that an answer can have. */
  readonly roundUp: (weight: number) => number;
  /** Told of every better answer. */
  readonly onProgress: (answer: CoreAnswer) => void;
}

interface PartialAnswer {
  readonly left: Residual;
  readonly uses: readonly PatternUse[];
  readonly weight: number;
  /** Weight so far and what the rest must weigh by its length: by this partial answers are ranked. */
  readonly outlook: number;
}

interface FoundAnswer {
  readonly uses: readonly PatternUse[];
  readonly weight: number;
}

/** Share of the work left that the beam search may take. */
const BEAM_SHARE = 0.3;

/** Partial answers kept at each step, from beam to beam: a narrow one comes to an answer before the work runs out. */
const BEAM_WIDTHS = [1, 4, 15, 60];

/** Numbers of repeats tried for the next pattern. */
const MAX_REPEATS_TRIED = 40;

export function countPatterns(uses: readonly PatternUse[]): number {
  return new Set(uses.map((use) => getPatternKey(use.pattern))).size;
}

/**
 * Least-weight answer with at most so many distinct patterns; blanks beyond the demand are allowed, since that may be what
 * fewer patterns cost. A beam search gives a first answer, and where the patterns are few enough all sets of them are tried.
 */
export function computeLimitedAnswer(
  core: CoreProblem,
  limit: number,
  work: WorkMeter,
  { bound, roundUp, onProgress }: LimitedOptions,
): LimitedAnswer {
  let best: FoundAnswer = { uses: [], weight: Number.POSITIVE_INFINITY };
  const found = (uses: readonly PatternUse[], weight: number): void => {
    if (weight >= best.weight) return;
    const trimmed = trimPatterns(core, uses);
    best = { uses: trimmed, weight: computeWeight(core, trimmed) };
    onProgress({ ...best, bound });
  };
  const alone = finishWithOnePattern(core, getWholeResidual(core));
  if (alone) found([alone], computeWeight(core, [alone]));
  work.within(work.left * BEAM_SHARE, () => {
    for (const width of BEAM_WIDTHS) {
      if (best.weight > bound && !work.isOut()) searchBeam(core, limit, width, work, found);
    }
  });
  const isComplete =
    best.weight <= bound || computeLimitedSearch(core, limit, work, { below: best.weight, roundUp, found });
  const isProven = isComplete && best.weight < Number.POSITIVE_INFINITY;
  return { ...best, bound: isProven ? best.weight : bound, isComplete };
}

/** Takes blanks beyond the demand out of every bar of a pattern alike, so that no pattern is added. */
function trimPatterns(core: CoreProblem, uses: readonly PatternUse[]): PatternUse[] {
  const over = core.demands.map((demand) => -demand);
  for (const { pattern, count } of uses) {
    pattern.items.forEach((item, k) => {
      const row = core.rows[item] as number;
      over[row] = (over[row] as number) + (pattern.counts[k] as number) * (core.values[item] as number) * count;
    });
  }
  const trimmed = mergeEqual(uses).map(({ pattern, count }) => {
    const counts = pattern.items.map((item, k) => {
      const row = core.rows[item] as number;
      const amount = (core.values[item] as number) * count;
      const taken = Math.min(pattern.counts[k] as number, Math.floor((over[row] as number) / amount));
      over[row] = (over[row] as number) - taken * amount;
      return (pattern.counts[k] as number) - taken;
    });
    const kept = pattern.items.flatMap((item, k) => ((counts[k] as number) > 0 ? [{ item, count: counts[k] }] : []));
    return {
      pattern: {
        stock: pattern.stock,
        items: kept.map(({ item }) => item),
        counts: kept.map((one) => one.count as number),
      },
      count,
    };
  });
  return mergeEqual(trimmed.filter(({ pattern }) => pattern.items.length > 0));
}

/**
 * Each step adds one pattern, filled as well as can be for a chosen number of repeats, and then asks what it costs to finish
 * with one pattern more.
 */
function searchBeam(
  core: CoreProblem,
  limit: number,
  width: number,
  work: WorkMeter,
  found: (uses: readonly PatternUse[], weight: number) => void,
): void {
  const widest = Math.max(...core.stocks.map((stock) => stock.capacity));
  const knapsack = new Knapsack(core.sizes, widest, work, 2000);
  let lightest = Number.POSITIVE_INFINITY;
  const report = (uses: readonly PatternUse[], weight: number): void => {
    lightest = Math.min(lightest, weight);
    found(uses, weight);
  };
  const whole = getWholeResidual(core);
  let beam: PartialAnswer[] = [{ left: whole, uses: [], weight: 0, outlook: 0 }];
  for (let step = 1; step <= limit && beam.length > 0; step++) {
    const grown = new Map<string, PartialAnswer>();
    for (const partial of beam) {
      if (work.isOut()) break;
      const last = finishWithOnePattern(core, partial.left);
      if (last) report([...partial.uses, last], partial.weight + computeWeight(core, [last]));
      if (step === limit) continue;
      for (const next of listNextPatterns(core, partial.left, knapsack, work)) {
        const grownPartial = addPattern(core, partial, next);
        if (grownPartial.outlook >= lightest) continue;
        if (isAllPlaced(grownPartial.left)) {
          report(grownPartial.uses, grownPartial.weight);
          continue;
        }
        grown.set(grownPartial.left.demands.join(), grownPartial);
      }
    }
    beam = [...grown.values()].sort((a, b) => a.outlook - b.outlook).slice(0, width);
  }
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
function listNextPatterns(core: CoreProblem, left: Residual, knapsack: Knapsack, work: WorkMeter): PatternUse[] {
  const most = Math.max(...left.demands);
  const step = Math.max(1, most / MAX_REPEATS_TRIED);
  const list: PatternUse[] = [];
  for (let at = 1; at <= most && !work.isOut(); at += step) {
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
