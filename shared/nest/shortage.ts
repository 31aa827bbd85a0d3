import {
  type CorePattern,
  type CoreProblem,
  type CoreStock,
  getWholeResidual,
  isAllPlaced,
  type PatternUse,
  takePattern,
} from './core-model';
import { computeGreedyAnswer } from './greedy';
import { countBlanks, getPartsPerBlank, type PreparedJob, type PreparedRow } from './prepare';
import { solveCore } from './solve-core';
import type { NestProblem } from './types';
import type { WorkMeter } from './work-meter';

export interface Shortage {
  /** The problem with what cannot be placed taken out of the demand. */
  readonly core: CoreProblem;
  /** A first answer to it, where one had to be found on the way. */
  readonly start: readonly PatternUse[];
  readonly problems: readonly NestProblem[];
}

/**
 * Looks whether the bars at hand suffice; where they do not, the least length possible is left out.
 * Only demands that no unlimited bar holds can fall short.
 */
export function computeShortage(job: PreparedJob, work: WorkMeter): Shortage {
  const { core } = job;
  const whole = getWholeResidual(core);
  if (core.demands.length === 0 || core.stocks.length === 0) {
    return { core: { ...core, sizes: [], rows: [], values: [], demands: [], stocks: [] }, start: [], problems: [] };
  }
  const openEnded = Math.max(
    0,
    ...core.stocks.filter((stock) => stock.quantity === Number.POSITIVE_INFINITY).map((stock) => stock.capacity),
  );
  const isAtRisk = core.demands.map(
    (_, row) => !core.sizes.some((size, item) => core.rows[item] === row && size <= openEnded),
  );
  if (!isAtRisk.some(Boolean)) return { core, start: [], problems: [] };
  const greedy = computeGreedyAnswer(core, whole, { kind: 'longest-first' }, work);
  if (greedy.weight < Number.POSITIVE_INFINITY) return { core, start: greedy.uses, problems: [] };

  const trial = buildTrial(core, isAtRisk);
  const answer = solveCore(trial, work, { roundUp: (weight) => weight });
  const missing = core.demands.map(() => 0);
  const start: PatternUse[] = [];
  for (const { pattern, count } of answer.uses) {
    if (pattern.stock < core.stocks.length) {
      start.push({ pattern, count });
      continue;
    }
    addMissing(core, pattern, count, missing);
  }
  const left = getWholeResidual(core);
  left.demands.forEach((demand, row) => {
    left.demands[row] = Math.max(0, demand - (missing[row] as number));
  });
  const demands = [...left.demands];
  for (const { pattern, count } of start) takePattern(core, left, pattern, count);
  const rest = isAllPlaced(left) ? { uses: [] } : computeGreedyAnswer(core, left, { kind: 'longest-first' }, work);
  const problems = describeMissing(job, missing, answer.weight <= answer.bound);
  return { core: { ...core, demands }, start: [...start, ...rest.uses], problems };
}

/** The rows at risk alone, all real bars for nothing, and beside them a way to leave out an item at the price of its length. */
function buildTrial(core: CoreProblem, isAtRisk: readonly boolean[]): CoreProblem {
  const real = core.stocks.map((stock): CoreStock => {
    const quantity = stock.quantity === Number.POSITIVE_INFINITY ? 0 : stock.quantity;
    return { ...stock, weight: 0, quantity };
  });
  const sizes = core.sizes.filter((_, item) => isAtRisk[core.rows[item] as number]);
  const leftOut = [...new Set(sizes)].map(
    (size): CoreStock => ({ capacity: size, weight: size, quantity: Number.POSITIVE_INFINITY }),
  );
  return {
    ...core,
    demands: core.demands.map((demand, row) => (isAtRisk[row] ? demand : 0)),
    stocks: [...real, ...leftOut],
  };
}

function addMissing(core: CoreProblem, pattern: CorePattern, count: number, missing: number[]): void {
  pattern.items.forEach((item, k) => {
    const row = core.rows[item] as number;
    missing[row] = (missing[row] as number) + (core.values[item] as number) * (pattern.counts[k] as number) * count;
  });
}

function describeMissing(job: PreparedJob, missing: readonly number[], isLeast: boolean): NestProblem[] {
  return missing.flatMap((amount, row) => {
    if (amount === 0) return [];
    const prepared = job.rows[row] as PreparedRow;
    const { demands, choices } = prepared;
    const ids = demands.map((demand) => demand.id).join(', ');
    const unit = choices.length > 1 ? 'parts' : 'blanks';
    const doubt = isLeast ? '' : ' (perhaps fewer: not proven)';
    return [
      {
        code: 'not-enough-bars' as const,
        about: { kind: 'demand' as const, id: demands[0]?.id ?? '' },
        message: `The bars at hand run out: ${amount} ${unit} of ${ids} are left out${doubt}.`,
        partsMissing:
          choices.length > 1 ? Math.min(amount, demands[0]?.parts ?? 0) : countMissingParts(prepared, amount),
      },
    ];
  });
}

/** Parts on so many blanks of a row with one choice, taken from its last demands, which are served last. */
function countMissingParts(row: PreparedRow, blanks: number): number {
  let left = blanks;
  let parts = 0;
  for (const demand of [...row.demands].reverse()) {
    const wanted = countBlanks(demand, row);
    const missing = Math.min(left, wanted);
    parts += Math.max(0, demand.parts - (wanted - missing) * getPartsPerBlank(demand, row));
    left -= missing;
    if (left === 0) break;
  }
  return parts;
}
