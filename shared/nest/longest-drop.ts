import { type CoreProblem, type CoreStock, computeLoad, type PatternUse } from './core-model';
import { solveCore } from './solve-core';
import type { WorkMeter } from './work-meter';

export interface DropSearch {
  readonly uses: readonly PatternUse[];
  /** No answer of this weight has a longer longest drop. */
  readonly isProven: boolean;
}

/**
 * Among answers of one weight, looks for the one with the longest single drop: one bar is set apart with less and less room in it
 * for as long as the rest can still be placed at the same weight.
 *
 * @param emptyDrops drop of a bar of each stock with nothing sawn from it, in units of the core problem
 * @param weight least weight, proven
 */
export function computeLongestDrop(
  core: CoreProblem,
  emptyDrops: readonly number[],
  uses: readonly PatternUse[],
  weight: number,
  roundUp: (weight: number) => number,
  work: WorkMeter,
): DropSearch {
  let best = uses;
  let longest = getLongestDrop(core, emptyDrops, uses);
  let isProven = true;
  const least = core.sizes.at(-1) ?? 0;
  const order = core.stocks.map((_, j) => j).sort((a, b) => (emptyDrops[b] as number) - (emptyDrops[a] as number));
  for (const j of order) {
    const stock = core.stocks[j] as CoreStock;
    if (stock.quantity <= 0 || stock.weight > weight) continue;
    let low = least;
    let high = getMostLoad(emptyDrops[j] as number, longest);
    let load = high;
    while (low <= high) {
      if (work.isOut()) return { uses: best, isProven: false };
      const trial = setBarApart(core, j, load);
      const enough = weight - stock.weight;
      const answer = solveCore(trial, work, { roundUp, enough });
      if (answer.weight <= enough) {
        best = putBarBack(core, answer.uses, j);
        longest = Math.max(longest, getLongestDrop(core, emptyDrops, best));
        high = getMostLoad(emptyDrops[j] as number, longest);
      } else {
        if (answer.bound <= enough) isProven = false;
        low = load + 1;
      }
      load = Math.floor((low + high) / 2);
    }
  }
  return { uses: best, isProven };
}

/** Most that may lie in a bar whose drop is to be longer than this. */
function getMostLoad(emptyDrop: number, longest: number): number {
  return Math.ceil(emptyDrop - longest) - 1;
}

function getLongestDrop(core: CoreProblem, emptyDrops: readonly number[], uses: readonly PatternUse[]): number {
  return uses.reduce((longest, { pattern }) => {
    return Math.max(longest, (emptyDrops[pattern.stock] as number) - computeLoad(core, pattern));
  }, 0);
}

/** The problem with one bar of a stock already paid for, and only so much room in it. */
function setBarApart(core: CoreProblem, j: number, room: number): CoreProblem {
  const stocks = core.stocks.map((stock, at) => (at === j ? { ...stock, quantity: stock.quantity - 1 } : stock));
  return { ...core, stocks: [...stocks, { capacity: room, weight: 0, quantity: 1 }] };
}

function putBarBack(core: CoreProblem, uses: readonly PatternUse[], j: number): PatternUse[] {
  return uses.map(({ pattern, count }) => {
    return { pattern: pattern.stock === core.stocks.length ? { ...pattern, stock: j } : pattern, count };
  });
}
