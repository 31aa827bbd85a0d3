import {
  type CorePattern,
  type CoreProblem,
  computeWeight,
  copyResidual,
  isAllPlaced,
  type PatternUse,
  type Residual,
  takePattern,
} from './core-model';
import { computeGreedyAnswer, countRepeats, type GreedyRule } from './greedy';
import { computeRelaxation, type Relaxation, type RelaxationContext } from './relaxation';

export interface DiveOptions {
  /** Only answers lighter than this are of use. */
  readonly below: number;
  /** An answer of this weight ends the dive. */
  readonly target: number;
  /** 0 = follow the relaxation; over 0 = stray from it by this much, differently for each seed. */
  readonly noise: number;
  readonly seed: number;
  /** Whether it may go back and try again where it fails; without, it takes the one way down. */
  readonly retries: boolean;
  readonly found: (uses: readonly PatternUse[], weight: number) => void;
}

const FINISHING_RULES: readonly GreedyRule[] = [{ kind: 'longest-first' }, { kind: 'least-waste', nodes: 500 }];

/** Share of a pattern's fraction from which it is taken along with the best one. */
const SURE_FRACTION = 0.7;

/** How many levels each step back goes, in turn; after the last the dive is given up. */
const STEPS_BACK = [1, 2, 3, 1, 5, 2, 8, 3, 1, 12, 5, 20];

/** State of a dive before the bars of one level were taken. */
interface DiveLevel {
  readonly left: Residual;
  readonly relaxation: Relaxation;
  readonly fixedCount: number;
  /** Patterns that already led nowhere from here. */
  readonly barred: Set<CorePattern>;
}

/**
 * Rounds the relaxation step by step: takes the whole bars of its answer, then the pattern nearest to one more bar, solves the
 * relaxation of the rest again, and tries at each step to finish by hand. Where the rest can no longer be done within the
 * weight wanted, it goes some levels back and takes another pattern there.
 */
export function computeDive(
  context: RelaxationContext,
  root: Relaxation,
  residual: Residual,
  options: DiveOptions,
): void {
  const { work } = context;
  const fixed: PatternUse[] = [];
  let below = options.below;
  const report = (uses: readonly PatternUse[], weight: number): void => {
    if (weight >= below) return;
    below = weight;
    options.found(uses, weight);
  };
  const levels: DiveLevel[] = [{ left: residual, relaxation: root, fixedCount: 0, barred: new Set() }];
  const next = makeNoise(options.seed);
  let stepsBack = 0;
  while (!work.isOut() && below > options.target) {
    const level = levels.at(-1) as DiveLevel;
    const deeper = descend(context, level, fixed, options.noise, next, () => below, report);
    if (deeper) {
      levels.push(deeper);
      continue;
    }
    const back = options.retries ? STEPS_BACK[stepsBack++] : undefined;
    if (back === undefined || levels.length === 1) return;
    levels.length = Math.max(1, levels.length - back + 1);
    fixed.length = (levels.at(-1) as DiveLevel).fixedCount;
  }
}

/** Takes the next bars of a level; `undefined` when nothing lighter can come of it. */
function descend(
  context: RelaxationContext,
  level: DiveLevel,
  fixed: PatternUse[],
  noise: number,
  next: () => number,
  getBelow: () => number,
  report: (uses: readonly PatternUse[], weight: number) => void,
): DiveLevel | undefined {
  const { core, work } = context;
  const left = copyResidual(level.left);
  const taken = takeWholeBars(core, left, level.relaxation, fixed);
  if (!taken && !takeLikelyBars(core, left, level, fixed, noise, next)) return undefined;
  const weight = computeWeight(core, fixed);
  if (isAllPlaced(left)) {
    report([...fixed], weight);
    return undefined;
  }
  for (const rule of FINISHING_RULES) {
    const finish = computeGreedyAnswer(core, left, rule, work);
    report([...fixed, ...finish.uses], weight + finish.weight);
  }
  // Any good patterns will do on the way down; only bounds that are reported need exact fillings.
  context.knapsack.isThorough = false;
  const relaxation = computeRelaxation(context, left, getBelow() - weight);
  context.knapsack.isThorough = true;
  if (weight + relaxation.bound >= getBelow() || relaxation.solution.length === 0) return undefined;
  return { left, relaxation, fixedCount: fixed.length, barred: new Set() };
}

function makeNoise(start: number): () => number {
  let seed = start;
  return () => {
    seed = (seed * 1103515245 + 12345) % 2147483648;
    return seed / 2147483648;
  };
}

function takeWholeBars(core: CoreProblem, left: Residual, relaxation: Relaxation, fixed: PatternUse[]): boolean {
  let isAny = false;
  for (const { pattern, value } of relaxation.solution) {
    const count = Math.min(Math.floor(value + 1e-4), left.quantities[pattern.stock] as number);
    if (count < 1 || !isUseful(core, left, pattern)) continue;
    const repeats = Math.min(count, countRepeats(core, left, pattern));
    takePattern(core, left, pattern, repeats);
    fixed.push({ pattern, count: repeats });
    isAny = true;
  }
  return isAny;
}

function takeLikelyBars(
  core: CoreProblem,
  left: Residual,
  level: DiveLevel,
  fixed: PatternUse[],
  noise: number,
  next: () => number,
): boolean {
  const ranked = level.relaxation.solution
    .map(({ pattern, value }) => ({ pattern, score: value - Math.floor(value) + noise * (next() - 0.5) }))
    .sort((a, b) => b.score - a.score);
  let isAny = false;
  for (const { pattern, score } of ranked) {
    if (isAny && score < SURE_FRACTION) break;
    if ((left.quantities[pattern.stock] as number) < 1 || !isUseful(core, left, pattern)) continue;
    if (!isAny && level.barred.has(pattern)) continue;
    takePattern(core, left, pattern, 1);
    fixed.push({ pattern, count: 1 });
    if (!isAny) level.barred.add(pattern);
    isAny = true;
  }
  return isAny;
}

/** Whether everything in a pattern is still wanted. */
function isUseful(core: CoreProblem, left: Residual, pattern: CorePattern): boolean {
  return pattern.items.every((item, k) => {
    const wanted = left.demands[core.rows[item] as number] as number;
    return (pattern.counts[k] as number) <= Math.ceil(wanted / (core.values[item] as number));
  });
}
