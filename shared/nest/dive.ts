import {
  type CorePattern,
  type CoreProblem,
  computeItemBounds,
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
  readonly found: (uses: readonly PatternUse[], weight: number) => void;
}

const FINISHING_RULES: readonly GreedyRule[] = [{ kind: 'longest-first' }, { kind: 'least-waste', nodes: 500 }];

/** Share of a pattern's fraction from which it is taken along with the best one. */
const SURE_FRACTION = 0.7;

/**
 * Rounds the relaxation step by step: takes the whole bars of its answer, then the pattern nearest to one more bar, solves the
 * relaxation of the rest again, and tries at each step to finish by hand.
 */
export function computeDive(
  context: RelaxationContext,
  root: Relaxation,
  residual: Residual,
  options: DiveOptions,
): void {
  const { core, work } = context;
  const left = copyResidual(residual);
  const fixed: PatternUse[] = [];
  let below = options.below;
  let relaxation = root;
  let seed = options.seed;
  const next = (): number => {
    seed = (seed * 1103515245 + 12345) % 2147483648;
    return seed / 2147483648;
  };
  const report = (uses: readonly PatternUse[], weight: number): void => {
    if (weight >= below) return;
    below = weight;
    options.found(uses, weight);
  };
  while (!work.isOut()) {
    const taken = takeWholeBars(core, left, relaxation, fixed);
    if (!taken) takeLikelyBars(core, left, relaxation, fixed, options.noise, next);
    const weight = computeWeight(core, fixed);
    if (isAllPlaced(left)) {
      report([...fixed], weight);
      return;
    }
    for (const rule of FINISHING_RULES) {
      const finish = computeGreedyAnswer(core, left, rule, work);
      report([...fixed, ...finish.uses], weight + finish.weight);
      if (below <= options.target) return;
    }
    relaxation = computeRelaxation(context, left, below - weight);
    if (weight + relaxation.bound >= below || relaxation.solution.length === 0) return;
  }
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
  relaxation: Relaxation,
  fixed: PatternUse[],
  noise: number,
  next: () => number,
): void {
  const ranked = relaxation.solution
    .map(({ pattern, value }) => ({ pattern, score: value - Math.floor(value) + noise * (next() - 0.5) }))
    .sort((a, b) => b.score - a.score);
  let isAny = false;
  for (const { pattern, score } of ranked) {
    if (isAny && score < SURE_FRACTION) break;
    if ((left.quantities[pattern.stock] as number) < 1 || !isUseful(core, left, pattern)) continue;
    takePattern(core, left, pattern, 1);
    fixed.push({ pattern, count: 1 });
    isAny = true;
  }
}

/** Whether everything in a pattern is still wanted. */
function isUseful(core: CoreProblem, left: Residual, pattern: CorePattern): boolean {
  const bounds = computeItemBounds(core, left.demands);
  return pattern.items.every((item, k) => (pattern.counts[k] as number) <= (bounds[item] as number));
}
