import type { CoreStock } from './core-model';
import { MasterLp } from './master-lp';
import type { WorkMeter } from './work-meter';

/** `sum(earnings[j] * bars[j]) >= needed` holds for every mix of bars into which all can be packed. */
export interface MixCut {
  readonly earnings: ArrayLike<number>;
  readonly needed: number;
}

/** How many bars of each stock. */
export type BarMix = readonly number[];

export interface MixChoice {
  /** Lightest mix that meets every cut and lies in no excluded one; `undefined` when there is none below the limit. */
  readonly mix: BarMix | undefined;
  /** Weight under which no mix is left. */
  readonly bound: number;
}

interface MixNode {
  readonly low: number[];
  readonly high: number[];
  readonly bound: number;
}

const MAX_NODES = 4000;
const WHOLE_TOLERANCE = 1e-4;

/**
 * Chooses the lightest mix of bars that the cuts allow: branch and bound over the few numbers of bars.
 *
 * @param below only mixes lighter than this are of use
 * @param roundUp rounds a weight up to one that a mix can have
 * @param excluded mixes known not to do; smaller ones do not either
 */
export function chooseBarMix(
  stocks: readonly CoreStock[],
  cuts: readonly MixCut[],
  excluded: readonly BarMix[],
  below: number,
  roundUp: (weight: number) => number,
  work: WorkMeter,
): MixChoice {
  const high = stocks.map((stock) =>
    Math.min(stock.quantity, stock.weight > 0 ? Math.floor((below - 1) / stock.weight) : stock.quantity),
  );
  const open: MixNode[] = [{ low: stocks.map(() => 0), high, bound: 0 }];
  let best: BarMix | undefined;
  let bestWeight = below;
  let newest: MixNode | undefined;
  for (let nodes = 0; open.length > 0; nodes++) {
    // Down to a whole mix first, then on from the lightest node.
    const node = newest ?? takeLightest(open);
    if (newest) open.pop();
    newest = undefined;
    if (node.bound >= bestWeight) {
      if (nodes > 0 && open.every((other) => other.bound >= bestWeight)) break;
      continue;
    }
    if (nodes >= MAX_NODES || work.isOut()) {
      const lightest = open.reduce((least, other) => Math.min(least, other.bound), node.bound);
      return { mix: best, bound: Math.min(lightest, bestWeight) };
    }
    const { bound, mix } = relaxMix(stocks, cuts, node, work);
    const floor = Math.max(node.bound, roundUp(Math.ceil(bound)));
    if (floor >= bestWeight) continue;
    const children = branchMix(stocks, cuts, excluded, node, mix, (whole) => {
      const weight = weighMix(stocks, whole);
      if (weight < bestWeight) {
        best = whole;
        bestWeight = weight;
      }
    });
    for (const child of children) open.push({ ...child, bound: floor });
    if (children.length > 0) newest = open.at(-1);
  }
  return { mix: best, bound: bestWeight };
}

export function weighMix(stocks: readonly CoreStock[], mix: BarMix): number {
  return stocks.reduce((sum, stock, j) => sum + stock.weight * (mix[j] as number), 0);
}

function takeLightest(open: MixNode[]): MixNode {
  let at = 0;
  for (let k = 1; k < open.length; k++) if ((open[k] as MixNode).bound <= (open[at] as MixNode).bound) at = k;
  return open.splice(at, 1)[0] as MixNode;
}

/** Linear relaxation of one node, with a bound that holds whatever rounding did to the duals it rests on. */
function relaxMix(
  stocks: readonly CoreStock[],
  cuts: readonly MixCut[],
  node: MixNode,
  work: WorkMeter,
): { bound: number; mix: number[] } {
  const unit = Math.max(...stocks.map((stock) => stock.weight), 1);
  const scales = cuts.map((cut) => Math.max(...stocks.map((_, j) => cut.earnings[j] as number), 1));
  const right = cuts.map((cut, k) => {
    const met = stocks.reduce((sum, _, j) => sum + (cut.earnings[j] as number) * (node.low[j] as number), 0);
    return (cut.needed - met) / (scales[k] as number);
  });
  const widths = stocks.map((_, j) => (node.high[j] as number) - (node.low[j] as number));
  const lp = new MasterLp([...right, ...widths.map((width) => -width)], 1e4, work);
  stocks.forEach((stock, j) => {
    const rows = [...cuts.keys(), cuts.length + j];
    const values = [...cuts.map((cut, k) => (cut.earnings[j] as number) / (scales[k] as number)), -1];
    lp.addColumn({ cost: stock.weight / unit, rows, values });
  });
  lp.solve();
  const duals = cuts.map((_, k) => Math.max(0, lp.duals[k] as number));
  let total = 0;
  let magnitude = 0;
  const add = (term: number): void => {
    total += term;
    magnitude += Math.abs(term);
  };
  duals.forEach((dual, k) => {
    add(dual * (right[k] as number));
  });
  const mix = [...node.low];
  stocks.forEach((stock, j) => {
    const earned = duals.reduce(
      (sum, dual, k) => sum + (dual * ((cuts[k] as MixCut).earnings[j] as number)) / (scales[k] as number),
      0,
    );
    add(-(widths[j] as number) * Math.max(0, earned * (1 + 1e-13) - stock.weight / unit));
  });
  for (const { column, value } of lp.getSolution()) mix[column] = (node.low[column] as number) + value;
  const base = weighMix(stocks, node.low);
  return { bound: base + (total - magnitude * 1e-12) * unit, mix };
}

/** Splits a node where the relaxed mix is not whole, or where it is whole but excluded; reports it where it is good. */
function branchMix(
  stocks: readonly CoreStock[],
  cuts: readonly MixCut[],
  excluded: readonly BarMix[],
  node: MixNode,
  mix: readonly number[],
  found: (mix: BarMix) => void,
): { low: number[]; high: number[] }[] {
  let split = -1;
  let widest = WHOLE_TOLERANCE;
  mix.forEach((bars, j) => {
    const distance = Math.abs(bars - Math.round(bars));
    if (distance > widest) {
      widest = distance;
      split = j;
    }
  });
  if (split >= 0) return splitAt(node, split, Math.floor(mix[split] as number));
  const whole = mix.map((bars) => Math.round(bars));
  const isMet = cuts.every((cut) => {
    return whole.reduce((sum, bars, j) => sum + bars * (cut.earnings[j] as number), 0) >= cut.needed * (1 - 1e-12);
  });
  const blocking = excluded.find((other) => whole.every((bars, j) => bars <= (other[j] as number)));
  if (isMet && !blocking) found(whole);
  if (isMet && blocking) return splitBeyond(node, blocking);
  // A met mix with fewer bars in this node may still be lighter only through rounding; an unmet one must be split on.
  if (isMet) return [];
  const loose = stocks.findIndex((_, j) => (node.high[j] as number) > (node.low[j] as number));
  if (loose < 0) return [];
  const middle = Math.min(
    Math.max(whole[loose] as number, node.low[loose] as number),
    (node.high[loose] as number) - 1,
  );
  return splitAt(node, loose, middle);
}

function splitAt(node: MixNode, j: number, floor: number): { low: number[]; high: number[] }[] {
  const high = [...node.high];
  const low = [...node.low];
  high[j] = floor;
  low[j] = floor + 1;
  const parts = [
    { low: node.low, high },
    { low, high: node.high },
  ];
  return parts.filter((part) => (part.low[j] as number) <= (part.high[j] as number));
}

/** Parts of a node in which some number of bars is above that of an excluded mix; together all that is not excluded. */
function splitBeyond(node: MixNode, excluded: BarMix): { low: number[]; high: number[] }[] {
  const parts: { low: number[]; high: number[] }[] = [];
  const high = [...node.high];
  excluded.forEach((bars, j) => {
    if ((node.high[j] as number) > bars) {
      const low = [...node.low];
      low[j] = Math.max(bars + 1, node.low[j] as number);
      parts.push({ low, high: [...high] });
    }
    high[j] = Math.min(high[j] as number, bars);
  });
  return parts.filter((part) => part.low.every((low, j) => low <= (part.high[j] as number)));
}
