import { getAllowanceShare } from './chance-allowance';
import { type ChanceInputs, type ChanceModel, getChanceModel, getWholeFactor } from './chance-model';
import type { Figure, WhyInput } from './figure';
import { getNormalShare } from './normal';
import { COMMON_PRACTICE, getFigure, getFinite, getInput, getTextInput, LARGEST_FACTOR } from './workings';

/** Chances, 0 to 1, that something comes out well; beside the worst case, never in its place. */
export interface ChanceResult {
  /** Every blank keeps its stack above the jaws and the grip asked. */
  grip: Figure;
  /** Every face that keeps an allowance cleans up. */
  allowance: Figure;
  /** Every cut on every blank holds with the factor under which the shop stops. */
  hold: Figure;
  /** All three at once. */
  all: Figure;
  /** Hold factor that is reached in 19 jobs of 20. */
  holdFactorLow: Figure;
}

/** Slices of what varies evenly; within a slice the bar's size counts as its middle. */
const BAR_SLICES = 24;
const BISECTIONS = 16;
const LOW_SHARE = 0.95;

/**
 * The chance that grip, allowance and hold are met, when bar size, width of the slot, clamp force, bow and locating error
 * each vary as {@link ChanceModel} says. Worked out as a sum over slices of what varies, not by drawing lots, so that
 * nothing flickers. With several vises a clamp force under nothing is not cut off; it does not occur in practice.
 *
 * @returns the chances with their workings; null when nothing is set up
 */
export function computeChance(inputs: ChanceInputs): ChanceResult | null {
  if (inputs.section === null || inputs.blanks.length === 0) return null;
  const model = getChanceModel(inputs);
  const slices = getBarSlices(model);
  const sum = (getShare: (slice: BarSlice) => number) =>
    slices.reduce((total, slice) => total + getShare(slice), 0) / slices.length;
  const allowance = getAllowanceShare(model);
  const getHold = (slice: BarSlice, factor: number) => getHoldShare(model, slice, factor);
  const shares = {
    grip: sum(({ grip }) => grip),
    hold: sum((slice) => getHold(slice, model.holdTarget)),
    allowance,
    all: allowance * sum((slice) => (slice.grip > 0 ? slice.grip * getHold(slice, model.holdTarget) : 0)),
  };
  const best = Math.max(0, ...slices.map(({ factors }) => Math.min(LARGEST_FACTOR, ...factors)));
  const low = findLow(Math.min(LARGEST_FACTOR, best), (factor) => sum((slice) => getHold(slice, factor)));
  const getChance = (share: number, rule: string, spreads: readonly WhyInput[]) =>
    getFigure('fraction', Math.min(1, Math.max(0, share)), getWhy(rule, spreads));
  const spreads = getSpreads(inputs);
  return {
    grip: getChance(shares.grip, 'Chance that every blank keeps its stack and the grip asked', spreads.grip),
    allowance: getChance(
      shares.allowance,
      'Chance that every face that keeps an allowance cleans up, the part bowing one way, up, down or to either side, each as likely, and its hollow face alone short of the whole bow',
      spreads.allowance,
    ),
    hold: getChance(shares.hold, 'Chance that every cut holds with the factor the shop stops under', spreads.hold),
    all: getChance(shares.all, 'Chance that grip, allowance and hold are all met', [
      getInput('grip', shares.grip, 'fraction'),
      getInput('allowance', shares.allowance, 'fraction'),
      getInput('hold', shares.hold, 'fraction'),
      ...spreads.all,
    ]),
    holdFactorLow: getFigure('ratio', low, getWhy('Hold factor that is reached in 19 jobs of 20', spreads.hold)),
  };
}

/** A slice of the bar's limits: chance of grip in it, and each blank's weakest factor at the whole clamp force. */
interface BarSlice {
  grip: number;
  factors: number[];
}

function getBarSlices(model: ChanceModel): BarSlice[] {
  const count = model.barSpread > 0 ? BAR_SLICES : 1;
  const width = model.barSpread / count;
  return Array.from({ length: count }, (_, index) => {
    const from = model.barSpread > 0 ? index * width - model.barSpread * model.barMiddle : 0;
    return {
      grip: getGripShare(model, model.leastSpare + from, model.leastSpare + from + width),
      factors: model.blanks.map((blank) => getWholeFactor(blank, from + width / 2)),
    };
  });
}

/** Chance that an oversize spread evenly from 0 is no more than a spare spread evenly over `from..to`; exact. */
function getGripShare({ slotOversize }: ChanceModel, from: number, to: number): number {
  const lenient = 1e-9;
  const getShare = (spare: number) =>
    slotOversize > 0 ? Math.min(1, Math.max(0, (spare + lenient) / slotOversize)) : spare >= -lenient ? 1 : 0;
  if (to - from < 1e-12) return getShare(from);
  // Area under the ramp from 0 to 1, up to a spare.
  const getArea = (spare: number) => {
    const over = Math.max(0, spare + lenient);
    return over <= slotOversize && slotOversize > 0 ? over ** 2 / (2 * slotOversize) : over - slotOversize / 2;
  };
  return Math.min(1, Math.max(0, (getArea(to) - getArea(from)) / (to - from)));
}

/** Chance that every blank reaches a factor: the mean of its vises' forces, each tightened by itself, is enough. */
function getHoldShare(model: ChanceModel, { factors }: BarSlice, wanted: number): number {
  let share = 1;
  for (const [index, factor] of factors.entries()) {
    const vises = model.blanks[index]?.vises ?? 1;
    const deviation = model.clampDeviation / Math.sqrt(vises);
    const needed = factor > 0 ? wanted / factor : Number.POSITIVE_INFINITY;
    if (deviation > 0) share *= getNormalShare((1 - needed) / deviation);
    else if (needed > 1) return 0;
  }
  return share;
}

/** Largest factor up to `most` that is reached with the low share. */
function findLow(most: number, getShare: (factor: number) => number): number {
  let low = 0;
  let high = most;
  if (getShare(high) >= LOW_SHARE) return high;
  for (let step = 0; step < BISECTIONS; step += 1) {
    const middle = (low + high) / 2;
    if (getShare(middle) >= LOW_SHARE) low = middle;
    else high = middle;
  }
  return getFinite(low);
}

function getWhy(rule: string, spreads: readonly WhyInput[]) {
  return {
    rule: `${rule}; an estimate that rests on the spreads below`,
    formula: 'chance = Σ over slices of what varies (share of the slice × chance in it)',
    inputs: [...spreads],
    source: `probability sums; clamp scatter: Shigley, Table 8-14; bar: its size class; other spreads by the shop's rules, ${COMMON_PRACTICE}`,
  };
}

function getSpreads({
  section,
  vises,
  rules,
  bow,
}: ChanceInputs): Record<'grip' | 'hold' | 'allowance' | 'all', WhyInput[]> {
  const bar = [
    getInput('bar, smallest', section?.height.least ?? 0, 'length'),
    getInput('bar, largest', section?.height.most ?? 0, 'length'),
  ];
  const slot = getInput('slot wider by up to', rules.slotOversize, 'length');
  const clamp = [
    getInput('clamp force', vises?.clampForceN.value ?? 0, 'force'),
    getInput('clamp force ±, two deviations', rules.clampScatter, 'fraction'),
  ];
  const measured = bow.some((row) => row.measurements > 1);
  const bows = [
    getInput('locating error, two deviations', rules.locatingError, 'length'),
    measured
      ? getTextInput('bow', 'by the range of the shop’s own measurements')
      : getInput('bow ±, two deviations', rules.assumedBowSpread, 'fraction'),
  ];
  return {
    grip: [...bar, slot],
    hold: [...clamp, getInput('factor asked', rules.holdFactorStop, 'ratio'), ...bar],
    allowance: bows,
    all: [...bar, slot, ...clamp, ...bows],
  };
}
