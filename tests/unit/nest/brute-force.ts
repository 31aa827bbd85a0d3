import type { BarEnds, NestInput, NestStock } from '../../../shared/nest/types';

/** Best that can be had, in the order in which it is sought; `undefined` when the bars do not suffice. */
export interface BruteBest {
  total: number;
  bars: number;
  longestDropNm: number;
}

interface OpenBar {
  stock: number;
  blanks: number;
  length: number;
}

/**
 * Tries every way of putting every set of blanks into bars. Only for a handful of blanks.
 * Written apart from the solver and sharing only its types.
 */
export function findBruteBest(input: NestInput): BruteBest | undefined {
  let best: BruteBest | undefined;
  for (const lengths of listBlankSets(input)) {
    best = placeAll(
      input,
      [...lengths].sort((a, b) => b - a),
      best,
    );
  }
  return best;
}

/** Every set of blanks that meets the demands and of which none could be left out. */
function listBlankSets(input: NestInput): number[][] {
  let sets: number[][] = [[]];
  for (const demand of input.demands) {
    const own: number[][] = [];
    const choose = (from: number, left: number, chosen: { parts: number; length: number }[]): void => {
      if (left <= 0) {
        const over = -left;
        if (chosen.every((blank) => blank.parts > over)) own.push(chosen.map((blank) => blank.length));
        return;
      }
      for (let k = from; k < demand.choices.length; k++) {
        const choice = demand.choices[k];
        if (!choice) continue;
        choose(k, left - choice.partsPerBlank, [...chosen, { parts: choice.partsPerBlank, length: choice.lengthNm }]);
      }
    };
    choose(0, demand.parts, []);
    sets = sets.flatMap((set) => own.map((more) => [...set, ...more]));
  }
  return sets;
}

function getEnds(input: NestInput, stock: NestStock): BarEnds {
  const mill = stock.kind === 'remnant' ? { badEndLeftNm: 0, badEndRightNm: 0 } : {};
  return { ...input.ends, ...mill, ...stock.ends };
}

/** What is left behind the last cut of a bar with these blanks; negative when they do not fit. */
function getDrop(input: NestInput, stock: NestStock, blanks: number, length: number): number {
  const ends = getEnds(input, stock);
  const head = Math.max(ends.squaringTrimNm, ends.badEndLeftNm);
  const tail = Math.max(ends.stubNm, ends.badEndRightNm);
  const start = head > 0 ? head + input.kerfNm : 0;
  const rest = stock.lengthNm - start - length - (blanks - 1) * input.kerfNm;
  if (tail > 0) return rest - input.kerfNm >= tail ? rest - input.kerfNm : -1;
  if (rest < 0) return -1;
  return rest < input.kerfNm ? 0 : rest - input.kerfNm;
}

function placeAll(input: NestInput, lengths: number[], known: BruteBest | undefined): BruteBest | undefined {
  let best = known;
  const open: OpenBar[] = [];
  const left = input.stocks.map((stock) => stock.quantity ?? Number.POSITIVE_INFINITY);
  const place = (at: number, total: number): void => {
    if (best && (total > best.total || (total === best.total && open.length > best.bars))) return;
    const length = lengths[at];
    if (length === undefined) {
      const drops = open.map((bar) => getDrop(input, input.stocks[bar.stock] as NestStock, bar.blanks, bar.length));
      const answer = { total, bars: open.length, longestDropNm: Math.max(0, ...drops) };
      if (!best || isBetter(answer, best)) best = answer;
      return;
    }
    const tried = new Set<string>();
    for (const bar of open) {
      const key = `${bar.stock}:${bar.blanks}:${bar.length}`;
      if (tried.has(key)) continue;
      tried.add(key);
      if (getDrop(input, input.stocks[bar.stock] as NestStock, bar.blanks + 1, bar.length + length) < 0) continue;
      bar.blanks++;
      bar.length += length;
      place(at + 1, total);
      bar.blanks--;
      bar.length -= length;
    }
    input.stocks.forEach((stock, k) => {
      if ((left[k] as number) <= 0 || getDrop(input, stock, 1, length) < 0) return;
      left[k] = (left[k] as number) - 1;
      open.push({ stock: k, blanks: 1, length });
      place(at + 1, total + (stock.costMinor ?? 0) + stock.worthMinor);
      open.pop();
      left[k] = (left[k] as number) + 1;
    });
  };
  place(0, 0);
  return best;
}

function isBetter(a: BruteBest, b: BruteBest): boolean {
  if (a.total !== b.total) return a.total < b.total;
  if (a.bars !== b.bars) return a.bars < b.bars;
  return a.longestDropNm > b.longestDropNm;
}
