import type { UsableStock } from './check-input';
import { computeLoad, type PatternUse } from './core-model';
import type { PreparedJob } from './prepare';
import type { NestTotals } from './types';

type UseTotals = Pick<
  NestTotals,
  'costMinor' | 'worthMinor' | 'barCount' | 'stockUse' | 'barsNm' | 'newBarsNm' | 'keptDropNm'
>;

/** Adds up bars, money and drops of a core answer without laying out a single bar. */
export function countUses(job: PreparedJob, remnantMinNm: number, uses: readonly PatternUse[]): UseTotals {
  const counts = job.stocks.map(() => 0);
  let keptDropNm = 0;
  for (const { pattern, count } of uses) {
    counts[pattern.stock] = (counts[pattern.stock] as number) + count;
    const { longestDropNm } = job.stocks[pattern.stock] as UsableStock;
    const dropNm = longestDropNm - computeLoad(job.core, pattern) * job.unitNm;
    if (dropNm > 0 && dropNm >= remnantMinNm) keptDropNm += dropNm * count;
  }
  const stockUse = job.stocks.flatMap(({ stock, priceMinor }, j) => {
    const count = counts[j] as number;
    if (count === 0) return [];
    const worthMinor = job.isPriced ? stock.worthMinor * count : 0;
    return [{ stockId: stock.id, count, costMinor: priceMinor * count - worthMinor, worthMinor }];
  });
  const sumUp = (getAmount: (usable: UsableStock) => number): number => {
    return job.stocks.reduce((sum, usable, j) => sum + (counts[j] as number) * getAmount(usable), 0);
  };
  return {
    stockUse,
    keptDropNm,
    barCount: sumUp(() => 1),
    costMinor: stockUse.reduce((sum, use) => sum + use.costMinor, 0),
    worthMinor: stockUse.reduce((sum, use) => sum + use.worthMinor, 0),
    barsNm: sumUp(({ stock }) => stock.lengthNm),
    newBarsNm: sumUp(({ stock }) => (stock.kind === 'new' ? stock.lengthNm : 0)),
  };
}
