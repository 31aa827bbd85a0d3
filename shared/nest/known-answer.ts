import {
  type CoreProblem,
  computeLoad,
  getWholeResidual,
  isAllPlaced,
  type PatternUse,
  takePattern,
} from './core-model';
import type { PreparedJob } from './prepare';
import type { NestPattern } from './types';

/**
 * An answer known beforehand as the core problem has it, so that the search starts from there.
 *
 * @returns empty where it does not answer this job: a bar or a blank of it is not on offer, or not everything is made
 */
export function getCoreUses(job: PreparedJob, core: CoreProblem, patterns: readonly NestPattern[]): PatternUse[] {
  const uses = patterns.map((pattern) => getCoreUse(job, core, pattern));
  if (uses.some((use) => use === undefined)) return [];
  const known = uses as PatternUse[];
  const left = getWholeResidual(core);
  for (const { pattern, count } of known) takePattern(core, left, pattern, count);
  return isAllPlaced(left) && left.quantities.every((quantity) => quantity >= 0) ? known : [];
}

function getCoreUse(job: PreparedJob, core: CoreProblem, pattern: NestPattern): PatternUse | undefined {
  const stock = job.stocks.findIndex((usable) => usable.stock.id === pattern.stockId);
  const counts = new Map<number, number>();
  for (const { kind, demandId, partsPerBlank, startNm, endNm } of pattern.stretches) {
    if (kind !== 'blank') continue;
    const item = job.itemChoices.findIndex((choice, at) => {
      if (choice.lengthNm !== endNm - startNm || choice.partsPerBlank !== partsPerBlank) return false;
      return job.rows[core.rows[at] as number]?.demands.some(({ id }) => id === demandId) === true;
    });
    if (item < 0) return undefined;
    counts.set(item, (counts.get(item) ?? 0) + 1);
  }
  const items = [...counts.keys()].sort((a, b) => a - b);
  const use = {
    pattern: { stock, items, counts: items.map((item) => counts.get(item) as number) },
    count: pattern.count,
  };
  const capacity = core.stocks[stock]?.capacity ?? -1;
  return computeLoad(core, use.pattern) <= capacity ? use : undefined;
}
