import type { Hole, Part, Station } from '../model/plan';
import { getNonNegative } from './workings';

/** Side of the part at one length along X: full width, and the width of openings through it. */
export interface WidthAt {
  x: number;
  width: number;
  /** Width across Y of holes finished before the cut-off, through the plane of the cut. */
  opening: number;
}

/** The band of height the cut-off sweeps, measured up from the part's finished bottom (negative is below it), mm. */
export interface CutBand {
  low: number;
  high: number;
}

/** Two stations that meet at one length differ by less than this, mm. */
const TINY = 1e-9;

/** Points along the half-chord of a round opening, so that the rib between them is near a straight line. */
const CHORD_STEPS = 12;

/**
 * Width of a part at a length: its stations there, the narrowest where they overlap, else its full thickness. Where
 * the width steps, `least` and `most` differ.
 *
 * @param x from the part's left end, mm
 * @returns mm, 0 to the part's thickness
 */
export function computeWidth(part: Part, x: number): { least: number; most: number } {
  const beside = [x - 1e-6, x + 1e-6]
    .filter((towards) => towards > 0 && towards < part.length)
    .map((towards) => getWidthTowards(part, x, towards));
  if (beside.length === 0) return { least: part.thickness, most: part.thickness };
  return { least: Math.min(...beside), most: Math.max(...beside) };
}

/** Narrowest width of the part along its length, mm. */
export function computeNarrowestWidth(part: Part): number {
  return Math.min(...computeWidthProfile(part, null).map((at) => at.width));
}

/** Widest width of the part along its length, mm. */
export function getWidestWidth(part: Part): number {
  if (part.stations.length === 0) return part.thickness;
  return Math.max(0, ...computeWidthProfile(part, null).map((at) => at.width));
}

/**
 * Width of the part and of its openings along X, at every length where either changes course, in ascending order.
 * A step in width gives two entries at the same length. Mirrored parts give the mirrored profile.
 *
 * @param part stations and holes; those that end outside the part are cut to it
 * @param band height of the cut, or null to leave holes out; a cross hole counts only where it meets the band, a bore
 * where it goes through
 */
export function computeWidthProfile(part: Part, band: CutBand | null): WidthAt[] {
  const breaks = getBreakpoints(part, band);
  const holes = band === null ? [] : part.holes.filter((hole) => hole.beforeCutOff);
  const profile: WidthAt[] = [];
  let last: WidthAt | undefined;
  const add = (at: WidthAt): void => {
    if (last === undefined || !isSame(at, last)) profile.push(at);
    last = at;
  };
  for (let index = 1; index < breaks.length; index += 1) {
    const from = breaks[index - 1] ?? 0;
    const to = breaks[index] ?? 0;
    const middle = (from + to) / 2;
    const stations = getStationsAt(part, middle);
    for (const x of [from, to]) {
      const width = getNarrowest(part, stations, x);
      add({ x, width, opening: band === null ? 0 : getOpeningWidth(holes, band, x, middle, width) });
    }
  }
  return profile;
}

function isSame(a: WidthAt, b: WidthAt): boolean {
  return Math.abs(a.x - b.x) < TINY && Math.abs(a.width - b.width) < TINY && Math.abs(a.opening - b.opening) < TINY;
}

/** Width of all openings together at `x` as it is approached from the side of `towards`. */
function getOpeningWidth(holes: readonly Hole[], band: CutBand, x: number, towards: number, width: number): number {
  let opening = 0;
  for (const hole of holes) opening += getOpening(hole, band, x, towards, width);
  return Math.min(width, opening);
}

/** Width at `x` as it is approached from the side of `towards`. */
function getWidthTowards(part: Part, x: number, towards: number): number {
  return getNarrowest(part, getStationsAt(part, towards), x);
}

function getStationsAt(part: Part, x: number): Station[] {
  return part.stations.filter((one) => one.to - one.from > TINY && x > one.from && x < one.to);
}

/** Narrowest of these stations at `x`, no wider than the part; its thickness where there is none. */
function getNarrowest(part: Part, stations: readonly Station[], x: number): number {
  let narrowest = part.thickness;
  for (const one of stations) {
    const along = Math.min(1, Math.max(0, (x - one.from) / (one.to - one.from)));
    narrowest = Math.min(narrowest, getNonNegative(one.width + (one.widthEnd - one.width) * along));
  }
  return narrowest;
}

function getOpening(hole: Hole, band: CutBand, x: number, towards: number, width: number): number {
  const radius = getNonNegative(hole.diameter) / 2;
  const half = getNonNegative(hole.slotLength) / 2;
  if (hole.axis === 'y') {
    const reach = getCrossHoleHalf(hole, band);
    const inside = reach > 0 && Math.abs(towards - hole.x) < half + reach;
    return inside ? width : 0;
  }
  // Told by the middle of the stretch: at the rim itself rounding may leave a hair of an opening on its outer side.
  if (!hole.through || Math.abs(towards - hole.x) - half >= radius) return 0;
  const beyond = Math.max(0, Math.abs(x - hole.x) - half);
  return beyond >= radius ? 0 : 2 * Math.sqrt(radius ** 2 - beyond ** 2);
}

/** Half the length along X over which a cross hole opens the band of the cut; 0 where it does not meet it. */
function getCrossHoleHalf(hole: Hole, band: CutBand): number {
  const radius = getNonNegative(hole.diameter) / 2;
  const nearest = Math.max(band.low - hole.z, hole.z - band.high, 0);
  return nearest >= radius ? 0 : Math.sqrt(radius ** 2 - nearest ** 2);
}

function getBreakpoints(part: Part, band: CutBand | null): number[] {
  const breaks = [0, part.length, ...part.stations.flatMap((station) => [station.from, station.to])];
  if (band !== null) {
    for (const hole of part.holes) {
      if (hole.beforeCutOff) breaks.push(...getHoleBreaks(hole, band));
    }
  }
  const inside = breaks.filter((x) => Number.isFinite(x) && x >= -TINY && x <= part.length + TINY);
  inside.sort((a, b) => a - b);
  return inside.filter((x, index) => index === 0 || x - (inside[index - 1] ?? 0) > TINY);
}

function getHoleBreaks(hole: Hole, band: CutBand): number[] {
  const half = getNonNegative(hole.slotLength) / 2;
  if (hole.axis === 'y') {
    const reach = getCrossHoleHalf(hole, band);
    return reach > 0 ? [hole.x - half - reach, hole.x + half + reach] : [];
  }
  if (!hole.through) return [];
  const radius = getNonNegative(hole.diameter) / 2;
  const beyond = Array.from(
    { length: CHORD_STEPS + 1 },
    (_, step) => half + radius * Math.sin((step / CHORD_STEPS) * (Math.PI / 2)),
  );
  return beyond.flatMap((distance) => [hole.x - distance, hole.x + distance]);
}
