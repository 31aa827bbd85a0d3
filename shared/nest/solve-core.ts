import {
  type CoreProblem,
  type CoreStock,
  computeWeight,
  getWholeResidual,
  type PatternUse,
  type Residual,
} from './core-model';
import { computeDive } from './dive';
import { computeExactSearch } from './exact-search';
import { computeGreedyAnswer, type GreedyRule } from './greedy';
import { type GreedyBook, type GreedyStarts, getGreedyStart } from './greedy-book';
import { Knapsack } from './knapsack';
import { computeListedSearch } from './listed-search';
import { computeMixSearch } from './mix-search';
import { PatternPool } from './pattern-pool';
import { computeDualBound, computeRelaxation, type DualBound, type Relaxation } from './relaxation';
import { computeRoundingBound } from './rounding-bound';
import type { WorkMeter } from './work-meter';

export interface CoreAnswer {
  readonly uses: readonly PatternUse[];
  /** `Infinity` when the bars do not suffice. */
  readonly weight: number;
  /** No answer weighs less. */
  readonly bound: number;
}

export interface CoreOptions {
  /** Rounds a proven bound up to a weight that an answer can have. */
  readonly roundUp: (weight: number) => number;
  /** An answer known beforehand. */
  readonly start?: readonly PatternUse[];
  /** What the greedy rules have worked out for jobs like this. */
  readonly greedy?: GreedyBook;
  /** Weight that is good enough: the work ends when it is reached, or proven out of reach. */
  readonly enough?: number;
  /** Told of every better bound and answer; `weight` is `Infinity` and `uses` empty until there is an answer. */
  readonly onProgress?: (bound: number, weight: number, uses: readonly PatternUse[]) => void;
}

/** The greedy rules, quickest first; those the budget cannot bear are left out. */
const GREEDY_RULES: readonly GreedyRule[] = [
  { kind: 'longest-first' },
  { kind: 'least-waste', nodes: 60 },
  { kind: 'least-waste', nodes: 300 },
  { kind: 'least-waste', nodes: 3000 },
];

/** Rough cost of one node of theirs, in elementary steps. */
const UNITS_PER_GREEDY_NODE = 12;

/** Most patterns that are listed and combined exactly. */
const MAX_LISTED = 2000;

/** Rounds of pricing, and cells of their table, for which the budget must do if the relaxation is to be begun at all. */
const LEAST_PRICING_ROUNDS = 6;
const TYPICAL_CELLS = 6000;

/** How much further each dive strays from the relaxation than the one before. */
const NOISE_STEP = 0.15;

const MAX_DIVES = 40;

/** Least-weight answer to a core problem, as far as the budget goes: greedy rules, relaxation, dives, exact search. */
export function solveCore(core: CoreProblem, work: WorkMeter, options: CoreOptions): CoreAnswer {
  const whole = getWholeResidual(core);
  let uses: readonly PatternUse[] = [];
  let weight = Number.POSITIVE_INFINITY;
  let bound = 0;
  const enough = options.enough ?? Number.NEGATIVE_INFINITY;
  const isSettled = (): boolean => weight <= bound || weight <= enough || (enough >= 0 && bound > enough);
  const found = (better: readonly PatternUse[], itsWeight: number): void => {
    if (itsWeight >= weight) return;
    uses = better;
    weight = itsWeight;
    options.onProgress?.(bound, weight, uses);
  };
  const prove = (candidate: number): void => {
    const rounded = options.roundUp(candidate);
    if (rounded <= bound) return;
    bound = rounded;
    options.onProgress?.(bound, weight, uses);
  };
  const getAnswer = (): CoreAnswer => ({ uses, weight, bound: Math.min(bound, weight) });

  if (core.demands.every((demand) => demand <= 0)) return { uses, weight: 0, bound: 0 };
  if (options.start && options.start.length > 0) found(options.start, computeWeight(core, options.start));
  prove(computeVolumeBound(core, whole));
  prove(computeRoundingBound(core));
  const starts: GreedyStarts = options.greedy?.getStarts(core) ?? new Map();
  for (const rule of GREEDY_RULES) {
    if (isSettled()) return getAnswer();
    if (rule.kind === 'least-waste') {
      const bars = uses.reduce((sum, use) => sum + use.count, 0);
      if (rule.nodes * bars * core.stocks.length * UNITS_PER_GREEDY_NODE > work.left) break;
    }
    const answer = computeGreedyAnswer(core, whole, rule, work, getGreedyStart(starts, core, rule));
    if (answer.weight < Number.POSITIVE_INFINITY) found(answer.uses, computeWeight(core, answer.uses));
  }
  const widest = Math.max(...core.stocks.map((stock) => stock.capacity));
  if (isSettled() || work.left < LEAST_PRICING_ROUNDS * core.sizes.length * Math.min(widest, TYPICAL_CELLS)) {
    return getAnswer();
  }
  const context = { core, work, pool: new PatternPool(), knapsack: new Knapsack(core.sizes, widest, work) };
  for (const use of uses) context.pool.add(use.pattern);
  const root: Relaxation = computeRelaxation(context, whole, Number.POSITIVE_INFINITY);
  prove(root.bound);
  const getBelow = (): number => (enough >= 0 ? Math.min(weight, enough + 1) : weight);
  const dive = (round: number, noise: number, retries = true): void => {
    const target = Math.max(bound, enough);
    computeDive(context, root, whole, { below: weight, target, noise, seed: round + 1, retries, found });
  };
  const proveBy = (search: (below: number) => boolean): void => {
    if (isSettled() || work.isOut()) return;
    const below = getBelow();
    if (search(below)) prove(Math.min(weight, below));
  };
  // With several stocks the bound is seldom met before the mix of bars is settled: one way down is enough for a start.
  if (!isSettled() && !work.isOut()) dive(0, 0, core.stocks.length === 1);
  if (!isSettled() && core.stocks.length > 1 && root.dual) {
    computeMixSearch(context, whole, root.dual, { getBelow, roundUp: options.roundUp, found, prove });
  }
  proveBy((below) => {
    if (!root.dual) return false;
    return computeListedSearch(context, whole, root.dual, { below, found, maxListed: MAX_LISTED });
  });
  for (let round = 1; round <= 4 && !isSettled() && !work.isOut(); round++) dive(round, NOISE_STEP * round);
  proveBy((below) => computeExactSearch(context, whole, { below, roundUp: options.roundUp, found }));
  for (let round = 5; round <= MAX_DIVES && !isSettled() && !work.isOut(); round++) {
    dive(round, NOISE_STEP * (1 + (round % 5)));
  }
  return getAnswer();
}

/** Bound by length alone: every bar earns at most its capacity. */
function computeVolumeBound(core: CoreProblem, whole: Residual): number {
  const leanest = core.demands.map(() => Number.POSITIVE_INFINITY);
  core.sizes.forEach((size, item) => {
    const row = core.rows[item] as number;
    leanest[row] = Math.min(leanest[row] as number, Math.floor(size / (core.values[item] as number)));
  });
  const capacities = core.stocks.map((stock) => stock.capacity);
  let numerator = 0;
  let denominator = 1;
  core.stocks.forEach((stock, j) => {
    const isUnlimited = whole.quantities[j] === Number.POSITIVE_INFINITY;
    if (!isUnlimited) return;
    const capacity = capacities[j] as number;
    if (capacity <= 0) return;
    if (numerator === 0 || stock.weight * denominator < numerator * capacity) {
      numerator = stock.weight;
      denominator = capacity;
    }
  });
  if (numerator === 0) {
    const dearest = core.stocks.reduce((a: CoreStock, b) => (b.weight * a.capacity > a.weight * b.capacity ? b : a));
    numerator = dearest.weight;
    denominator = dearest.capacity;
  }
  if (denominator <= 0) return 0;
  const dual: DualBound = {
    prices: Float64Array.from(leanest),
    earnings: Float64Array.from(capacities),
    numerator,
    denominator,
  };
  return computeDualBound(core, dual, whole);
}
