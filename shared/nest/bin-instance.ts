import type { CoreProblem } from './core-model';
import { solveCore } from './solve-core';
import type { NestBudget } from './types';
import { WorkMeter } from './work-meter';

/** A public cutting-stock or bin-packing instance: one bar length, no kerf, least number of bars. */
export interface BinInstance {
  readonly name: string;
  readonly capacity: number;
  readonly items: readonly { readonly length: number; readonly demand: number }[];
  /** Best lower bound and best number of bins known from the literature, where the file gives them. */
  readonly knownBound: number | undefined;
  readonly knownBins: number | undefined;
}

/** What one line of an instance file holds. */
export type BinInstanceLine =
  | { readonly kind: 'instance'; readonly instance: BinInstance }
  | { readonly kind: 'nothing' }
  | { readonly kind: 'refused'; readonly reason: string };

/** An answer to a public instance, as it is printed. */
export interface BinAnswer {
  readonly bins: number;
  readonly bound: number;
  readonly isProven: boolean;
  /** Bins filled alike: `items[k]` lengths, `counts[k]` of each, `bins` of them. */
  readonly fillings: readonly {
    readonly lengths: readonly number[];
    readonly counts: readonly number[];
    readonly bins: number;
  }[];
  readonly workUnits: number;
}

/**
 * Reads one line of an instance file: `name TAB capacity TAB bound TAB bins TAB items`, items as `LENGTHxDEMAND` with spaces
 * between; a line that is empty or starts with `#` holds nothing.
 *
 * @example `t  10  2  2  6x2 4x2` (tabs between the first five) → capacity 10, two items of 6 and two of 4
 */
export function parseBinInstance(line: unknown): BinInstanceLine {
  if (typeof line !== 'string') return { kind: 'refused', reason: 'A line of text is wanted.' };
  const text = line.replace(/\r?\n$/, '');
  if (text.trim() === '' || text.startsWith('#')) return { kind: 'nothing' };
  const fields = text.split('\t');
  const [name, capacityText, boundText, binsText, itemsText] = fields;
  if (!name || fields.length !== 5 || capacityText === undefined || itemsText === undefined) {
    return {
      kind: 'refused',
      reason: 'A line needs five fields with tabs between: name, capacity, bound, bins, items.',
    };
  }
  const capacity = readCount(capacityText);
  if (capacity === undefined)
    return { kind: 'refused', reason: `${name}: the capacity must be a whole number over 0.` };
  const demands = new Map<number, number>();
  for (const item of itemsText.split(' ').filter((its) => its !== '')) {
    const [lengthText, demandText, ...more] = item.split('x');
    const length = readCount(lengthText);
    const demand = readCount(demandText);
    if (length === undefined || demand === undefined || more.length > 0) {
      return { kind: 'refused', reason: `${name}: "${item}" is not LENGTHxDEMAND with whole numbers over 0.` };
    }
    if (length > capacity) return { kind: 'refused', reason: `${name}: item ${length} is longer than the capacity.` };
    demands.set(length, (demands.get(length) ?? 0) + demand);
  }
  if (demands.size === 0) return { kind: 'refused', reason: `${name}: there are no items.` };
  const items = [...demands].map(([length, demand]) => ({ length, demand })).sort((a, b) => b.length - a.length);
  const known = { knownBound: readCount(boundText), knownBins: readCount(binsText) };
  return { kind: 'instance', instance: { name, capacity, items, ...known } };
}

function readCount(text: string | undefined): number | undefined {
  if (text === undefined || !/^\d{1,12}$/.test(text)) return undefined;
  const count = Number(text);
  return count > 0 ? count : undefined;
}

/**
 * Least number of bins for a public instance.
 *
 * @param budget its `onProgress` is told numbers of bins instead of costs
 */
export function computeBinAnswer(instance: BinInstance, budget: NestBudget): BinAnswer {
  const { items, capacity } = instance;
  const core: CoreProblem = {
    sizes: items.map((item) => item.length),
    rows: items.map((_, row) => row),
    values: items.map(() => 1),
    demands: items.map((item) => item.demand),
    stocks: [{ capacity, weight: 1, quantity: Number.POSITIVE_INFINITY }],
  };
  const work = new WorkMeter(budget);
  const answer = solveCore(core, work, {
    roundUp: (weight) => weight,
    onProgress: (bound, weight) => {
      budget.onProgress?.({
        boundMinor: bound,
        incumbentMinor: Number.isFinite(weight) ? weight : null,
        getResult: () => null,
      });
    },
  });
  return {
    bins: answer.weight,
    bound: answer.bound,
    isProven: answer.weight === answer.bound,
    fillings: answer.uses.map(({ pattern, count }) => ({
      lengths: pattern.items.map((item) => core.sizes[item] as number),
      counts: pattern.counts,
      bins: count,
    })),
    workUnits: work.spent,
  };
}
