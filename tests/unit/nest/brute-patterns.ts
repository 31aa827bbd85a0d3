import type { NestInput, NestStock } from '../../../shared/nest/types';

/** One way of cutting one bar: how many blanks of each choice, the choices of all demands in a row. */
interface BrutePattern {
  readonly stock: number;
  readonly parts: readonly number[];
  readonly price: number;
}

/**
 * Least total with at most so many distinct patterns, found by going through every set of patterns and every number of bars of
 * each. Only for a handful of blanks. Written apart from the solver and sharing only its types.
 *
 * @returns `undefined` when no so few patterns make everything
 */
export function findBruteLimited(input: NestInput, limit: number): number | undefined {
  const patterns = input.stocks.flatMap((stock, at) => listPatterns(input, stock, at));
  const wanted = input.demands.map((demand) => demand.parts);
  const left = input.stocks.map((stock) => stock.quantity ?? Number.POSITIVE_INFINITY);
  let least: number | undefined;
  const choose = (from: number, open: number, still: readonly number[], total: number): void => {
    if (least !== undefined && total >= least) return;
    if (still.every((parts) => parts <= 0)) {
      least = total;
      return;
    }
    if (open === 0) return;
    for (let at = from; at < patterns.length; at++) {
      const { stock, parts, price } = patterns[at] as BrutePattern;
      const most = Math.min(left[stock] as number, Math.max(...still));
      for (let bars = 1; bars <= most; bars++) {
        left[stock] = (left[stock] as number) - bars;
        choose(
          at + 1,
          open - 1,
          still.map((rest, demand) => rest - bars * (parts[demand] as number)),
          total + bars * price,
        );
        left[stock] = (left[stock] as number) + bars;
      }
    }
  };
  choose(0, limit, wanted, 0);
  return least;
}

/** Every set of blanks that one bar gives, however little of it they use. */
function listPatterns(input: NestInput, stock: NestStock, at: number): BrutePattern[] {
  const mill = stock.kind === 'remnant' ? { badEndLeftNm: 0, badEndRightNm: 0 } : {};
  const ends = { ...input.ends, ...mill, ...stock.ends };
  const head = Math.max(ends.squaringTrimNm, ends.badEndLeftNm);
  const tail = Math.max(ends.stubNm, ends.badEndRightNm);
  const start = head > 0 ? head + input.kerfNm : 0;
  const choices = input.demands.flatMap((demand, index) => demand.choices.map((choice) => ({ ...choice, index })));
  const price = (stock.costMinor ?? 0) + stock.worthMinor;
  const list: BrutePattern[] = [];
  const add = (next: number, used: number, blanks: number, parts: readonly number[]): void => {
    const cuts = blanks * input.kerfNm - (tail === 0 ? input.kerfNm : 0);
    if (blanks > 0 && start + used + cuts + tail > stock.lengthNm) return;
    const choice = choices[next];
    if (choice === undefined) {
      if (blanks > 0) list.push({ stock: at, parts, price });
      return;
    }
    const demand = input.demands[choice.index];
    const most = Math.ceil((demand?.parts ?? 0) / choice.partsPerBlank);
    for (let count = 0; count <= most; count++) {
      const made = parts.map((sum, index) => (index === choice.index ? sum + count * choice.partsPerBlank : sum));
      add(next + 1, used + count * choice.lengthNm, blanks + count, made);
    }
  };
  add(
    0,
    0,
    0,
    input.demands.map(() => 0),
  );
  return list;
}
