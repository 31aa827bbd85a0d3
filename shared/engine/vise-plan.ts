import type { Contact } from './results';
import { SAME_LENGTH } from './rounding';

/** The vises of one kind and what the bar may do between and beside them. Lengths in mm. */
export interface ViseRoom {
  jawWidth: number;
  bodyLength: number;
  /** Least gap between bodies. */
  bodyGap: number;
  /** Room for bodies along X; infinite when the table is not known. */
  tableLength: number;
  /** Longest legal overhang and gap between jaws; infinite where no force is known. */
  overhangLimit: number;
  gapLimit: number;
}

/** What a blank at one place has of its vises. */
export interface Support {
  contacts: Contact[];
  contactLength: number;
  overhangLeft: number;
  overhangRight: number;
  largestGap: number;
  /** Worst of overhang and gap over their limits: legal up to 1; infinite when no vise touches. */
  worstRatio: number;
}

/** At least this share of a blank is gripped where it can be (said of soft jaws in lathe chucks; common practice, no source). */
const LEAST_GRIPPED_SHARE = 1 / 3;

/** How many vises go on the table side by side, at least 1. */
export function getMostVises(room: ViseRoom): number {
  const pitch = room.bodyLength + room.bodyGap;
  if (!Number.isFinite(room.tableLength) || !(pitch > 0)) return MOST_VISES;
  const most = Math.floor((room.tableLength + room.bodyGap + SAME_LENGTH) / pitch);
  return Math.max(1, Math.min(MOST_VISES, most));
}

const MOST_VISES = 12;

/**
 * Vise centres that make the worst deflection of one blank as small as it gets for so many vises.
 *
 * An overhang o bends `F o³ / 3EI`, a gap g between jaws `F g³ / 192EI`; the worst of them is least when they bend alike,
 * so `g = 4 o` (the cube root of 64). Bodies that would overlap push the vises apart; where that would open a gap that
 * bends more than fewer vises do, the ones too many stand beside.
 *
 * @param blankLength mm
 * @param blankX blank's left end from the stop, mm
 * @param count vises, 1 or more
 * @returns centres from the stop, ascending, mm
 */
export function getVisePositions(room: ViseRoom, blankLength: number, blankX: number, count: number): number[] {
  let best = getEvenPositions(room, blankLength, blankX, count, count);
  let least = getBend(room, best, blankX, blankLength);
  for (let under = count - 1; under >= 1; under -= 1) {
    const centres = getEvenPositions(room, blankLength, blankX, under, count);
    const bend = getBend(room, centres, blankX, blankLength);
    if (bend < least * (1 - 1e-9)) {
      best = centres;
      least = bend;
    }
  }
  return best;
}

/** `under` vises centred under the blank and the rest as close beside them as bodies allow, to the right. */
function getEvenPositions(room: ViseRoom, blankLength: number, blankX: number, under: number, count: number): number[] {
  const leastPitch = room.bodyLength + room.bodyGap;
  const overhang = (blankLength - under * room.jawWidth) / (2 + 4 * (under - 1));
  const pitch = Math.max(leastPitch, room.jawWidth + 4 * Math.max(0, overhang));
  const middle = blankX + blankLength / 2;
  const centres = Array.from({ length: under }, (_, index) => middle + (index - (under - 1) / 2) * pitch);
  const last = centres.at(-1) ?? middle;
  for (let beside = 1; beside <= count - under; beside += 1) centres.push(last + beside * leastPitch);
  return centres;
}

/** What the worse of overhang and gap bends, but for a factor that is the same for both. */
function getBend(room: ViseRoom, centres: readonly number[], blankX: number, blankLength: number): number {
  const { contacts, overhangLeft, overhangRight, largestGap } = getSupport(room, centres, blankX, blankLength);
  if (contacts.length === 0) return Number.POSITIVE_INFINITY;
  return Math.max((4 * Math.max(overhangLeft, overhangRight)) ** 3, largestGap ** 3);
}

/**
 * Where vises touch a blank and how far it stands free.
 *
 * @param centres vise centres from the stop, in any order; the contacts keep their index
 * @param from blank's left end from the stop, mm
 */
export function getSupport(room: ViseRoom, centres: readonly number[], from: number, blankLength: number): Support {
  const to = from + blankLength;
  const half = room.jawWidth / 2;
  const contacts = centres
    .map((centre, viseIndex) => ({ viseIndex, from: Math.max(from, centre - half), to: Math.min(to, centre + half) }))
    .filter((contact) => contact.to - contact.from > SAME_LENGTH)
    .sort((a, b) => a.from - b.from);
  const first = contacts[0];
  if (first === undefined) {
    return {
      contacts,
      contactLength: 0,
      overhangLeft: blankLength,
      overhangRight: blankLength,
      largestGap: 0,
      worstRatio: Number.POSITIVE_INFINITY,
    };
  }
  let reached = first.to;
  let contactLength = first.to - first.from;
  let largestGap = 0;
  for (const contact of contacts.slice(1)) {
    largestGap = Math.max(largestGap, contact.from - reached);
    contactLength += Math.max(0, contact.to - Math.max(reached, contact.from));
    reached = Math.max(reached, contact.to);
  }
  const overhangLeft = first.from - from;
  const overhangRight = to - reached;
  return {
    contacts,
    contactLength,
    overhangLeft,
    overhangRight,
    largestGap,
    worstRatio: getWorstRatio(room, Math.max(overhangLeft, overhangRight), largestGap, contactLength / blankLength),
  };
}

/**
 * Longest blank so many vises hold within the limits at their best places, mm: `n B + 2 o + (n - 1) 4 o`, o the longest
 * legal overhang. Infinite limits fall back on the least gripped share.
 */
export function getLongestBlank(room: ViseRoom, count: number): number {
  if (!Number.isFinite(room.overhangLimit)) return (count * room.jawWidth) / LEAST_GRIPPED_SHARE;
  const leastGap = Math.max(0, room.bodyLength + room.bodyGap - room.jawWidth);
  const usable = leastGap > room.gapLimit + SAME_LENGTH ? 1 : count;
  return (
    usable * room.jawWidth + 2 * room.overhangLimit + (usable - 1) * Math.min(room.gapLimit, 4 * room.overhangLimit)
  );
}

/**
 * Vises one blank length needs at their best places.
 *
 * @returns null when not even the most that go on the table keep it within the limits
 */
export function getVisesNeeded(room: ViseRoom, blankLength: number, most: number): number | null {
  for (let count = 1; count <= most; count += 1) {
    if (blankLength <= getLongestBlank(room, count) + SAME_LENGTH) return count;
  }
  return null;
}

/**
 * Where a blank stands on given vises: at the stop, its datum, wherever the limits let it stand there with a fair share of
 * its length gripped. It leaves the stop only for a place that is within the limits, the one with the least overhang and gap
 * over one or several neighbouring vises, or for any place where a vise touches it at all. So a vise that is dragged does
 * not take the bar with it before it must.
 *
 * @returns blank's left end from the stop, 0 or more, mm
 */
export function getBestBlankX(room: ViseRoom, centres: readonly number[], blankLength: number): number {
  const atStop = getSupport(room, centres, 0, blankLength);
  if (isLegal(atStop) && isGripped(atStop, blankLength)) return 0;
  let best = { x: 0, support: atStop };
  const sorted = centres.toSorted((a, b) => a - b);
  sorted.forEach((left, first) => {
    for (const right of sorted.slice(first)) {
      const x = (left + right) / 2 - blankLength / 2;
      if (x < 0) continue;
      const support = getSupport(room, centres, x, blankLength);
      if (support.worstRatio < best.support.worstRatio) best = { x, support };
    }
  });
  if (atStop.contacts.length === 0) return best.x;
  return isLegal(best.support) && (!isLegal(atStop) || isGripped(best.support, blankLength)) ? best.x : 0;
}

function isLegal({ worstRatio }: Support): boolean {
  return worstRatio <= 1 + SAME_LENGTH;
}

function isGripped({ contactLength }: Support, blankLength: number): boolean {
  return contactLength >= blankLength * LEAST_GRIPPED_SHARE - SAME_LENGTH;
}

function getWorstRatio(room: ViseRoom, overhang: number, gap: number, grippedShare: number): number {
  if (!Number.isFinite(room.overhangLimit)) return LEAST_GRIPPED_SHARE / grippedShare;
  return Math.max(getRatio(overhang, room.overhangLimit), getRatio(gap, room.gapLimit));
}

function getRatio(value: number, limit: number): number {
  if (value <= SAME_LENGTH) return 0;
  return limit > 0 ? value / limit : Number.POSITIVE_INFINITY;
}
