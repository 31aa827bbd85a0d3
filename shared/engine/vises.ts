import { getPinned } from '../model/choice';
import { formatLength } from '../units/format';
import type { EngineContext } from './context';
import { getDecided, getLengthInput } from './decide';
import type { Decided, Figure, WhyInput } from './figure';
import type { VisesResult } from './results';
import { roundToStep, SAME_LENGTH } from './rounding';
import { getBestBlankX, getMostVises, getSupport, getVisePositions, type ViseRoom } from './vise-plan';
import { COMMON_PRACTICE, getInput, getTextInput } from './workings';

/** Longest legal overhang and gap between jaws for the bar in hand, mm; infinite where no force is known. */
export interface SpanLimits {
  overhang: number;
  gap: number;
}

/** The vises of the plan and the table they stand on; null without a vise that has a jaw width. */
export function getViseRoom(context: EngineContext, limits: SpanLimits): ViseRoom | null {
  const { vise, rules, shop } = context;
  if (vise === null || !(vise.jawWidth > 0)) return null;
  const { tableLength } = shop.machine;
  return {
    jawWidth: vise.jawWidth,
    bodyLength: Math.max(vise.bodyLength, 0),
    bodyGap: Math.max(0, rules.viseGap),
    tableLength: tableLength > 0 ? tableLength : Number.POSITIVE_INFINITY,
    overhangLimit: limits.overhang,
    gapLimit: limits.gap,
  };
}

/** Most vises the plan may use: pinned, or as many as go on the table. */
export function getViseCeiling(context: EngineContext, room: ViseRoom): number {
  return getPinnedVises(context) ?? getMostVises(room);
}

/** A kind of blank that the vises are to hold. */
export interface BlankToHold {
  /** mm */
  length: number;
  /** Vises that must touch it for the hold the shop wants; may be a fraction, infinite where no number is enough. */
  visesWanted: number;
}

/**
 * Vises on the table: the fewest that keep every blank within its longest legal overhang and
 * gap and hold it, set for the longest blank; pinned ones are kept and judged.
 *
 * @param blanks one entry for each kind of blank
 * @param isComparison true for a row of the comparison of sections: what the engine would take instead of a pinned number is
 * then not asked
 */
export function computeVises(
  context: EngineContext,
  room: ViseRoom,
  blanks: readonly BlankToHold[],
  clamp: { clampForceN: Figure; countedClampForceN: number },
  isComparison = false,
): VisesResult {
  const longest = Math.max(0, ...blanks.map(({ length }) => length));
  const blankX = getPinned(context.plan.holding.blankX) ?? 0;
  const most = getMostVises(room);
  const place = (count: number): number[] => {
    const step = context.units === 'in' ? context.rules.nudgeStepInch : context.rules.nudgeStepMm;
    return roundCentres(getVisePositions(room, longest, blankX, count), step, room);
  };
  const pinned = getPinnedVises(context);
  const auto =
    isComparison && pinned !== undefined
      ? tryCount(context, room, [], [], pinned)
      : chooseCount(most, (trial) => tryCount(context, room, blanks, place(trial), trial));
  const count = decideCount(context, room, most, auto);
  const centres = getDecided(context.plan.holding.vises, place(Math.max(1, Math.min(count.value, 24))), {
    rule: 'Placed so that overhang and gaps bend alike under the same force: a gap of four overhangs',
    formula: 'o = (L - n B) / (2 + 4 (n - 1)), gap = 4 o',
    inputs: [
      getLengthInput('L', longest),
      getInput('n', count.value, 'count'),
      getLengthInput('B', room.jawWidth),
      getLengthInput('least pitch', room.bodyLength + room.bodyGap),
    ],
    source: 'beam theory: F o³ / 3EI beside F g³ / 192EI',
  });
  return { count, centres, clash: getClash(context, room, centres.value), ...clamp };
}

/** Where each kind of blank stands: pinned, at the stop, or over the vises that carry it best; mm from the stop. */
export function getBlankX(context: EngineContext, room: ViseRoom, centres: readonly number[], length: number): number {
  const pinned = getPinned(context.plan.holding.blankX);
  return pinned !== undefined && Number.isFinite(pinned) ? pinned : getBestBlankX(room, centres, length);
}

/** How a number of vises does. */
interface CountTrial {
  count: number;
  isLegal: boolean;
  /** Least over the blanks of vises that touch over vises wanted, no more than 1. */
  held: number;
}

/** Vises the plan pins, by their places or by their number; undefined where both are left to the engine. */
export function getPinnedVises({ plan }: EngineContext): number | undefined {
  return getPinned(plan.holding.vises)?.length ?? getPinnedCount(plan.holding.viseCount);
}

function decideCount(context: EngineContext, room: ViseRoom, most: number, auto: CountTrial): Decided<number> {
  const pinned = getPinnedVises(context);
  return getDecided(pinned === undefined ? 'auto' : { pinned }, auto.count, {
    rule: getCountRule(auto),
    formula:
      'fewest for which overhang <= longest legal overhang, gap <= longest legal gap and vises that touch × factor in one >= factor wanted',
    inputs: [
      getLimitInput('longest legal overhang', room.overhangLimit),
      getLimitInput('longest legal gap', room.gapLimit),
      getInput('factor wanted', context.rules.holdFactorCheck, 'ratio'),
      getInput('most on the table', most, 'count'),
    ],
    source: COMMON_PRACTICE,
  });
}

/** The fewest that keep to the limits and hold; where none hold, the fewest that hold best. */
function chooseCount(most: number, tryOut: (count: number) => CountTrial): CountTrial {
  let best = tryOut(1);
  for (let count = 2; count <= most && !(best.isLegal && best.held >= 1); count += 1) {
    const next = tryOut(count);
    // As long as nothing is legal each vise more is worth having; afterwards only one that grips more.
    if (!best.isLegal || (next.isLegal && next.held > best.held + SAME_LENGTH)) best = next;
  }
  return best;
}

function tryCount(
  context: EngineContext,
  room: ViseRoom,
  blanks: readonly BlankToHold[],
  centres: readonly number[],
  count: number,
): CountTrial {
  let worstRatio = 0;
  let held = 1;
  for (const { length, visesWanted } of blanks) {
    const x = getBlankX(context, room, centres, length);
    const support = getSupport(room, centres, x, length);
    worstRatio = Math.max(worstRatio, support.worstRatio);
    if (visesWanted > 0) held = Math.min(held, support.contacts.length / visesWanted);
  }
  return { count, isLegal: worstRatio <= 1 + SAME_LENGTH, held };
}

function getCountRule({ isLegal, held }: CountTrial): string {
  if (!isLegal) return 'As many vises as go on the table; even so the blank stands out too far';
  return held >= 1
    ? 'Fewest vises that keep overhangs and gaps within the deflection limit and hold with the factor wanted'
    : 'Fewest vises that keep overhangs and gaps within the deflection limit and hold as well as vises can; more would not touch the blank that holds least';
}

function getLimitInput(name: string, limit: number): WhyInput {
  return Number.isFinite(limit) ? getLengthInput(name, limit) : getTextInput(name, 'no force to go by');
}

function getPinnedCount(choice: EngineContext['plan']['holding']['viseCount']): number | undefined {
  const count = getPinned(choice);
  return count !== undefined && Number.isFinite(count) && count >= 1 ? Math.min(24, Math.round(count)) : undefined;
}

/** Centres a person can set: multiples of the step where the bodies still clear each other. */
function roundCentres(centres: readonly number[], step: number, room: ViseRoom): number[] {
  if (!(step > 0)) return [...centres];
  const rounded = centres.map((centre) => roundToStep(centre, step));
  const leastPitch = room.bodyLength + room.bodyGap;
  const isClear = rounded.every(
    (centre, index) => index === 0 || centre - (rounded[index - 1] ?? 0) >= leastPitch - SAME_LENGTH,
  );
  return isClear ? rounded : [...centres];
}

function getClash(context: EngineContext, room: ViseRoom, centres: readonly number[]): string {
  const show = (mm: number): string => formatLength(mm, context.units, { unit: true });
  const sorted = centres.map((centre, index) => ({ centre, index })).sort((a, b) => a.centre - b.centre);
  for (const [at, { centre, index }] of sorted.entries()) {
    const next = sorted[at + 1];
    if (next === undefined) break;
    const gap = next.centre - centre - room.bodyLength;
    if (gap < -SAME_LENGTH) return `Vises ${index + 1} and ${next.index + 1} overlap by ${show(-gap)}.`;
    if (gap < room.bodyGap - SAME_LENGTH) {
      return `Vises ${index + 1} and ${next.index + 1} stand ${show(gap)} apart, and ${show(room.bodyGap)} is needed.`;
    }
  }
  const first = sorted[0];
  const last = sorted.at(-1);
  if (first === undefined || last === undefined) return 'No vise holds the bar.';
  const span = last.centre - first.centre + room.bodyLength;
  return span > room.tableLength + SAME_LENGTH
    ? `The vises take ${show(span)} of the table, which is ${show(room.tableLength)} long.`
    : '';
}
