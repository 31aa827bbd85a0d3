import type { UsableStock } from './check-input';
import type { PatternUse } from './core-model';
import { countBlanks, getPartsPerBlank, type PreparedJob, type PreparedRow } from './prepare';
import type { BarFit, BarStretch, DemandOutcome, NestDemand, NestInput, NestPattern, SawCut, StockUse } from './types';

/** One blank as it is laid into a bar. */
interface PlacedBlank {
  readonly demandId: string;
  readonly partsPerBlank: number;
  readonly lengthNm: number;
}

/** Lays the blanks of one bar out from left to right, longest first, with every cut. */
export function layOutBar(
  usable: UsableStock,
  kerfNm: number,
  remnantMinNm: number,
  blanks: readonly PlacedBlank[],
  count: number,
): NestPattern {
  const { stock, headNm, tailNm, capacityNm } = usable;
  const stretches: BarStretch[] = [];
  const cuts: SawCut[] = [];
  let at = 0;
  const stretch = (part: Omit<BarStretch, 'startNm' | 'endNm'>, length: number): void => {
    if (length > 0) stretches.push({ ...part, startNm: at, endNm: at + length });
    at += length;
  };
  const cut = (frees: 'head' | 'blank'): void => {
    cuts.push({ positionNm: at, widthNm: kerfNm, frees });
    stretch({ kind: 'kerf' }, kerfNm);
  };
  if (headNm > 0) {
    stretch({ kind: 'head' }, headNm);
    cut('head');
  }
  let used = 0;
  let fit: BarFit = 'clear';
  blanks.forEach((blank, k) => {
    used += blank.lengthNm + kerfNm;
    stretch({ kind: 'blank', demandId: blank.demandId, partsPerBlank: blank.partsPerBlank }, blank.lengthNm);
    const rest = stock.lengthNm - at;
    const isAtBarEnd = k === blanks.length - 1 && tailNm === 0;
    if (isAtBarEnd && rest === 0) fit = 'exact';
    else if (isAtBarEnd && rest < kerfNm) {
      fit = 'under-a-kerf';
      stretch({ kind: 'over' }, rest);
    } else cut('blank');
  });
  const marginNm = capacityNm - used;
  if (marginNm === 0) fit = 'exact';
  const dropNm = stock.lengthNm - at;
  stretch({ kind: 'drop' }, dropNm);
  return {
    stockId: stock.id,
    kind: stock.kind,
    barLengthNm: stock.lengthNm,
    count,
    stretches,
    cuts,
    dropNm,
    isDropKept: dropNm > 0 && dropNm >= remnantMinNm,
    fit,
    marginNm,
  };
}

/** Hands the blanks of merged rows out to the demands behind them, in their order. */
class BlankDealer {
  private readonly queues: { demand: NestDemand; left: number }[][];
  private readonly job: PreparedJob;

  constructor(job: PreparedJob) {
    this.job = job;
    this.queues = job.rows.map((row) => {
      return row.demands.map((demand) => ({
        demand,
        left: row.choices.length > 1 ? Number.POSITIVE_INFINITY : countBlanks(demand, row),
      }));
    });
  }

  /** Deals one bar, and as many more as come out just the same, up to `count`. */
  deal(use: PatternUse): { blanks: PlacedBlank[]; count: number } {
    let repeats = use.count;
    const blanks: PlacedBlank[] = [];
    const taken: { slot: { left: number }; count: number }[] = [];
    use.pattern.items.forEach((item, k) => {
      const rowIndex = this.job.core.rows[item] as number;
      const row = this.job.rows[rowIndex] as PreparedRow;
      const choice = this.job.itemChoices[item] as { lengthNm: number; partsPerBlank: number };
      let wanted = use.pattern.counts[k] as number;
      for (const slot of this.queues[rowIndex] as { demand: NestDemand; left: number }[]) {
        const isLast = slot === this.queues[rowIndex]?.at(-1);
        const count = isLast ? wanted : Math.min(wanted, slot.left);
        if (count <= 0) continue;
        const partsPerBlank = row.choices.length > 1 ? choice.partsPerBlank : getPartsPerBlank(slot.demand, row);
        for (let n = 0; n < count; n++)
          blanks.push({ demandId: slot.demand.id, partsPerBlank, lengthNm: choice.lengthNm });
        taken.push({ slot, count });
        if (!isLast) repeats = Math.min(repeats, Math.floor(slot.left / count));
        wanted -= count;
        if (wanted <= 0) break;
        repeats = 1;
      }
    });
    for (const { slot, count } of taken) slot.left -= count * repeats;
    return { blanks, count: repeats };
  }
}

/** Every bar of a core answer laid out, in the order a person would saw them: longest blanks first. */
export function describePatterns(job: PreparedJob, input: NestInput, uses: readonly PatternUse[]): NestPattern[] {
  const dealer = new BlankDealer(job);
  const patterns: NestPattern[] = [];
  const ordered = [...uses].sort((a, b) => compareUses(a, b));
  for (const use of ordered) {
    let left = use.count;
    while (left > 0) {
      const { blanks, count } = dealer.deal({ pattern: use.pattern, count: left });
      patterns.push(
        layOutBar(job.stocks[use.pattern.stock] as UsableStock, input.kerfNm, input.remnantMinNm, blanks, count),
      );
      left -= count;
    }
  }
  return patterns;
}

function compareUses(a: PatternUse, b: PatternUse): number {
  const [itemsA, itemsB] = [a.pattern.items, b.pattern.items];
  for (let k = 0; k < Math.min(itemsA.length, itemsB.length); k++) {
    const byItem = (itemsA[k] as number) - (itemsB[k] as number);
    if (byItem !== 0) return byItem;
    const byCount = (b.pattern.counts[k] as number) - (a.pattern.counts[k] as number);
    if (byCount !== 0) return byCount;
  }
  return itemsB.length - itemsA.length || a.pattern.stock - b.pattern.stock;
}

export function describeStockUse(input: NestInput, patterns: readonly NestPattern[], isPriced: boolean): StockUse[] {
  return input.stocks.flatMap((stock, at) => {
    if (input.stocks.findIndex((other) => other.id === stock.id) !== at) return [];
    const count = patterns.reduce((sum, pattern) => sum + (pattern.stockId === stock.id ? pattern.count : 0), 0);
    if (count === 0) return [];
    const costMinor = isPriced ? (stock.costMinor ?? 0) : Math.ceil(stock.lengthNm / 1e6);
    return [
      { stockId: stock.id, count, costMinor: costMinor * count, worthMinor: isPriced ? stock.worthMinor * count : 0 },
    ];
  });
}

/** Counts what was made of every demand, from the laid-out bars. */
export function describeOutcomes(input: NestInput, patterns: readonly NestPattern[]): DemandOutcome[] {
  const seen = new Set<string>();
  const made = new Map<string, Map<string, { partsPerBlank: number; lengthNm: number; count: number }>>();
  for (const pattern of patterns) {
    for (const { demandId, partsPerBlank, startNm, endNm } of pattern.stretches) {
      if (demandId === undefined || partsPerBlank === undefined) continue;
      const blanks = made.get(demandId) ?? new Map();
      made.set(demandId, blanks);
      const key = `${partsPerBlank}:${endNm - startNm}`;
      const count = (blanks.get(key)?.count ?? 0) + pattern.count;
      blanks.set(key, { partsPerBlank, lengthNm: endNm - startNm, count });
    }
  }
  return input.demands.flatMap((demand) => {
    if (seen.has(demand.id)) return [];
    seen.add(demand.id);
    const blanks = [...(made.get(demand.id)?.values() ?? [])].sort((a, b) => b.lengthNm - a.lengthNm);
    const partsMade = blanks.reduce((sum, blank) => sum + blank.partsPerBlank * blank.count, 0);
    const wanted = Number.isInteger(demand.parts) && demand.parts > 0 ? demand.parts : 0;
    return [
      {
        demandId: demand.id,
        blanks,
        partsMade,
        partsOver: Math.max(0, partsMade - wanted),
        partsMissing: Math.max(0, wanted - partsMade),
      },
    ];
  });
}
