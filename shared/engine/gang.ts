import { getPinned } from '../model/choice';
import type { Part } from '../model/plan';
import { formatLength } from '../units/format';
import { type BarCutting, getBlanksPerBar } from './bar-count';
import { getGangLength } from './blank-length';
import type { EngineContext } from './context';
import { getBlankCounts } from './layout';
import type { GangRow } from './results';
import { SAME_LENGTH } from './rounding';
import { getLongestBlank, getVisesNeeded, type ViseRoom } from './vise-plan';

/** A length of bar that can be had; `cost` in any one unit, or null where it is not known. */
export interface LengthOffer {
  length: number;
  cost: number | null;
}

/** What limits a gang beside the bar. */
export interface GangLimits {
  /** Null without a vise: then only the bar limits the blank. */
  room: ViseRoom | null;
  mostVises: number;
}

/** Longer gangs than this are not looked at. */
export const MOST_PARTS_PER_BLANK = 24;

/** Parts per blank as the plan pins it; null where it is left to the engine. */
export function getPinnedPartsPerBlank(context: EngineContext): number | null {
  const pinned = getPinned(context.plan.partsPerBlank);
  if (pinned === undefined || !Number.isFinite(pinned) || pinned < 1) return null;
  return Math.min(MOST_PARTS_PER_BLANK, Math.round(pinned));
}

/** Longest blank that vises and travel take, mm; infinite where nothing limits it. */
export function getLongestHeldBlank(context: EngineContext, { room, mostVises }: GangLimits): number {
  const { travelX } = context.shop.machine;
  const byVises = room === null ? Number.POSITIVE_INFINITY : getLongestBlank(room, mostVises);
  return Math.min(byVises, travelX > 0 ? travelX : Number.POSITIVE_INFINITY);
}

/**
 * The table of 1 to n parts on a blank. Rows end at the first that neither a bar nor the vises can take;
 * that row is kept, with its reason.
 */
export function computeGangRows(
  context: EngineContext,
  partingWidth: number,
  offers: readonly LengthOffer[],
  cutting: BarCutting,
  limits: GangLimits,
  part: Part,
): GangRow[] {
  const rows: GangRow[] = [];
  const longest = Math.max(0, ...offers.map((offer) => offer.length));
  for (let partsPerBlank = 1; partsPerBlank <= MOST_PARTS_PER_BLANK; partsPerBlank += 1) {
    const blankLength = getGangLength(context, partingWidth, part, partsPerBlank);
    const { blanks, drop } = getBlanksPerBar(longest, blankLength, cutting);
    const vises = limits.room === null ? null : getVisesNeeded(limits.room, blankLength, limits.mostVises);
    const reason =
      offers.length > 0 && blanks === 0
        ? `a blank of ${formatLength(blankLength, context.units, { unit: true })} is longer than any bar gives`
        : getHeldReason(context, limits, blankLength);
    rows.push({
      partId: part.id,
      partsPerBlank,
      blankLength,
      blanksPerBar: blanks,
      partsPerBar: blanks * partsPerBlank,
      drop,
      vises: vises ?? limits.mostVises,
      fits: reason === '',
      reason,
    });
    if (reason !== '') break;
  }
  return rows;
}

function getHeldReason(context: EngineContext, limits: GangLimits, blankLength: number): string {
  const show = (mm: number): string => formatLength(mm, context.units, { unit: true });
  const { travelX } = context.shop.machine;
  if (travelX > 0 && blankLength > travelX + SAME_LENGTH) {
    return `a blank of ${show(blankLength)} is longer than the travel of ${show(travelX)}`;
  }
  if (blankLength > getLongestHeldBlank(context, limits) + SAME_LENGTH) {
    const words = limits.mostVises === 1 ? 'one vise' : `${limits.mostVises} vises`;
    return `a blank of ${show(blankLength)} stands out too far of ${words}`;
  }
  return '';
}

/** One number of parts per blank, with what does not hang on prices. */
export interface GangOption {
  partsPerBlank: number;
  blankLength: number;
  loads: number;
  /** Length of bar the blanks and their kerfs take, mm. */
  metal: number;
  /** Bars needed of each length on offer for this part alone; infinite where a blank does not come out of it. */
  barsByLength: readonly number[];
}

/**
 * Every number of parts per blank that some bar gives.
 *
 * @param lengths bar lengths on offer, mm
 * @param make pieces to make
 */
export function getGangOptions(
  context: EngineContext,
  partingWidth: number,
  lengths: readonly number[],
  cutting: BarCutting,
  part: Part,
  make: number,
): GangOption[] {
  const options: GangOption[] = [];
  for (let partsPerBlank = 1; partsPerBlank <= Math.min(MOST_PARTS_PER_BLANK, make); partsPerBlank += 1) {
    const blankLength = getGangLength(context, partingWidth, part, partsPerBlank);
    const { whole, rest } = getBlankCounts(context, make, partsPerBlank);
    const loads = whole + (rest > 0 ? 1 : 0);
    const barsByLength = lengths.map((length) => {
      const { blanks } = getBlanksPerBar(length, blankLength, cutting);
      return blanks === 0 ? Number.POSITIVE_INFINITY : Math.ceil(loads / blanks);
    });
    if (!barsByLength.some(Number.isFinite)) break;
    options.push({ partsPerBlank, blankLength, loads, metal: loads * (blankLength + cutting.kerf), barsByLength });
  }
  return options;
}

/**
 * Parts per blank: least cost of bars for this part alone, then fewest loads, least metal, fewest parts.
 *
 * @param options those that can be held
 * @param costs of one bar of each length, in the order of `barsByLength`
 * @returns 1 where nothing fits, so that there is something to judge
 */
export function choosePartsPerBlank(options: readonly GangOption[], costs: readonly number[]): number {
  let best: GangOption | null = null;
  let bestCost = Number.POSITIVE_INFINITY;
  for (const option of options) {
    let cost = Number.POSITIVE_INFINITY;
    for (let index = 0; index < costs.length; index += 1) {
      cost = Math.min(cost, (option.barsByLength[index] ?? 0) * (costs[index] ?? 0));
    }
    if (best === null || cost < bestCost - SAME_LENGTH || (cost <= bestCost + SAME_LENGTH && isLess(option, best))) {
      best = option;
      bestCost = cost;
    }
  }
  return best?.partsPerBlank ?? 1;
}

/**
 * Parts per blank that take least length of bar, whatever bars cost; on ties the most.
 *
 * @param options those that can be held
 * @returns 1 where nothing fits
 */
export function chooseLeanestPerBlank(options: readonly GangOption[]): number {
  let leanest: GangOption | null = null;
  for (const option of options) {
    if (leanest === null || option.metal < leanest.metal + SAME_LENGTH) leanest = option;
  }
  return leanest?.partsPerBlank ?? 1;
}

/**
 * Parts per blank that take fewest loads of the vises; on ties the fewest parts, which take least bar.
 *
 * @param options those that can be held
 * @returns 1 where nothing fits
 */
export function chooseFewestLoads(options: readonly GangOption[]): number {
  let fewest: GangOption | null = null;
  for (const option of options) {
    if (fewest === null || option.loads < fewest.loads) fewest = option;
  }
  return fewest?.partsPerBlank ?? 1;
}

function isLess(option: GangOption, than: GangOption): boolean {
  return option.loads === than.loads ? option.metal < than.metal - SAME_LENGTH : option.loads < than.loads;
}
