import { getPinned } from '../model/choice';
import type { Part } from '../model/plan';
import { formatLength } from '../units/format';
import { type BarCutting, getBlanksPerBar } from './bar-count';
import { getGangLength } from './blank-length';
import type { EngineContext } from './context';
import { getBlankCounts } from './layout';
import type { GangRow } from './results';
import { SAME_LENGTH } from './rounding';
import { getVisesNeeded, type ViseRoom } from './vise-plan';

/** A length of bar that can be had; `cost` in any one unit, or null where it is not known. */
export interface LengthOffer {
  length: number;
  cost: number | null;
}

export interface GangQuestion {
  partingWidth: number;
  offers: readonly LengthOffer[];
  cutting: BarCutting;
  /** Null without a vise: then only the bar limits the blank. */
  room: ViseRoom | null;
  mostVises: number;
}

/** Longer gangs than this are not looked at. */
const MOST_PARTS_PER_BLANK = 24;

/**
 * The table of 1 to n parts on a blank (DESIGN 4.3). Rows end at the first that neither a bar nor the vises can take;
 * that row is kept, with its reason.
 */
export function computeGangRows(context: EngineContext, question: GangQuestion, part: Part): GangRow[] {
  const rows: GangRow[] = [];
  const longest = Math.max(0, ...question.offers.map((offer) => offer.length));
  for (let partsPerBlank = 1; partsPerBlank <= MOST_PARTS_PER_BLANK; partsPerBlank += 1) {
    const row = getGangRow(context, question, part, partsPerBlank, longest);
    rows.push(row);
    if (!row.fits) break;
  }
  return rows;
}

/**
 * Parts per blank for the least cost of bars for this part alone; then for the fewest loads, the least metal, the fewest
 * parts on a blank.
 *
 * @param make pieces to make
 * @returns 1 or more; the pinned number where the plan has one
 */
export function getPartsPerBlank(
  context: EngineContext,
  question: GangQuestion,
  rows: readonly GangRow[],
  make: number,
): number {
  const pinned = getPinned(context.plan.partsPerBlank);
  if (pinned !== undefined && Number.isFinite(pinned) && pinned >= 1) {
    return Math.min(MOST_PARTS_PER_BLANK, Math.round(pinned));
  }
  const offers = rows
    .filter((row) => row.fits && row.partsPerBlank <= make)
    .map((row) => ({ row, ...getGangCost(context, question, row, make) }));
  const best = offers.reduce<(typeof offers)[number] | null>(
    (taken, offer) => (taken === null || isBetter(offer, taken) ? offer : taken),
    null,
  );
  return best?.row.partsPerBlank ?? 1;
}

function getGangRow(
  context: EngineContext,
  question: GangQuestion,
  part: Part,
  partsPerBlank: number,
  longest: number,
): GangRow {
  const blankLength = getGangLength(context, question.partingWidth, part, partsPerBlank);
  const { blanks, drop } = getBlanksPerBar(longest, blankLength, question.cutting);
  const vises = question.room === null ? null : getVisesNeeded(question.room, blankLength, question.mostVises);
  const reason = getReason(context, question, blankLength, blanks, vises);
  return {
    partId: part.id,
    partsPerBlank,
    blankLength,
    blanksPerBar: blanks,
    partsPerBar: blanks * partsPerBlank,
    drop,
    vises: vises ?? question.mostVises,
    fits: reason === '',
    reason,
  };
}

function getReason(
  context: EngineContext,
  question: GangQuestion,
  blankLength: number,
  blanks: number,
  vises: number | null,
): string {
  const show = (mm: number): string => formatLength(mm, context.units, { unit: true });
  if (question.offers.length > 0 && blanks === 0) return `a blank of ${show(blankLength)} is longer than any bar gives`;
  const { travelX } = context.shop.machine;
  if (travelX > 0 && blankLength > travelX + SAME_LENGTH) {
    return `a blank of ${show(blankLength)} is longer than the travel of ${show(travelX)}`;
  }
  if (question.room !== null && vises === null) {
    return `a blank of ${show(blankLength)} stands out too far of ${getViseWords(question.mostVises)}`;
  }
  return '';
}

function getViseWords(count: number): string {
  return count === 1 ? 'one vise' : `${count} vises`;
}

interface GangCost {
  cost: number;
  loads: number;
  metal: number;
}

function getGangCost(context: EngineContext, question: GangQuestion, row: GangRow, make: number): GangCost {
  const { whole, rest } = getBlankCounts(context, make, row.partsPerBlank);
  const loads = whole + (rest > 0 ? 1 : 0);
  const costs = question.offers.map((offer) => {
    const { blanks } = getBlanksPerBar(offer.length, row.blankLength, question.cutting);
    return blanks === 0 ? Number.POSITIVE_INFINITY : Math.ceil(loads / blanks) * (offer.cost ?? offer.length);
  });
  return {
    cost: costs.length === 0 ? 0 : Math.min(...costs),
    loads,
    metal: loads * (row.blankLength + question.cutting.kerf),
  };
}

function isBetter(offer: GangCost, than: GangCost): boolean {
  if (Math.abs(offer.cost - than.cost) > SAME_LENGTH) return offer.cost < than.cost;
  if (offer.loads !== than.loads) return offer.loads < than.loads;
  return offer.metal < than.metal - SAME_LENGTH;
}
