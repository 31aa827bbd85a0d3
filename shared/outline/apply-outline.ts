import { nextId } from '../model/next-id';
import type { Hole, Part, Station } from '../model/plan';
import { formatLength } from '../units/format';
import type { LengthUnits } from '../units/length-units';
import type { Outline } from './outline';
import { round, STATION_TOLERANCE, sampleStations } from './sample-stations';
import { computeWidthAlong, type WidthStretch } from './width-along';

/** Seen from above (X to the right, Y up the page: length and thickness) or from the side (X and Z: length and height). */
export type OutlineView = 'top' | 'side';

/** What an outline says of a part. Lengths are mm. */
export interface PartFromOutline {
  length: number;
  /** Null in a side view. */
  thickness: number | null;
  /** Null in a top view. */
  height: number | null;
  stations: Station[];
  holes: Omit<Hole, 'id'>[];
  /** True when the part reads differently from its two ends, so that its hand matters. */
  isHanded: boolean;
  /** Sentences on what the model of a part does not hold of the outline. */
  remarks: string[];
}

/** Off centre or out of true by more than this is told, mm. */
const CENTRED_WITHIN = 0.02;

/**
 * Reads a part off an outline.
 *
 * Top view: the length along x, the thickness across y, the stations from the width at each place, bores from the round
 * holes and slots. Side view: the length and the height, cross holes from the round holes.
 *
 * @param outline one with an outer loop
 * @param view which view of the part it is
 * @param units units of the sentences
 * @returns null when the outline has no outer loop
 */
export function computePartFromOutline(
  outline: Outline,
  view: OutlineView,
  units: LengthUnits,
): PartFromOutline | null {
  if (outline.outer === null) return null;
  const widths = computeWidthAlong(outline.outer.points);
  const size = { length: round(outline.width), across: round(outline.height) };
  const isTop = view === 'top';
  const stations = isTop ? sampleStations(widths, size.across) : [];
  const holes = isTop ? getBores(outline) : getCrossHoles(outline);
  return {
    length: size.length,
    thickness: isTop ? size.across : null,
    height: isTop ? null : size.across,
    stations,
    holes,
    isHanded: isHanded(widths, holes, size.length),
    remarks: [
      ...(isTop ? describeTop(outline, widths, units) : describeSide(outline, widths, size.across, units)),
      ...describeSlots(outline, view),
    ],
  };
}

/** The part with what the outline says put in: its other fields stay. Holes of the other view stay too. */
export function applyOutline(part: Part, found: PartFromOutline, view: OutlineView): Part {
  const axis = view === 'top' ? 'z' : 'y';
  const holes = part.holes.filter((hole) => hole.axis !== axis);
  for (const hole of found.holes) holes.push({ ...hole, id: nextId(holes, 'hole') });
  return {
    ...part,
    length: found.length,
    thickness: found.thickness ?? part.thickness,
    height: found.height ?? part.height,
    stations: view === 'top' ? found.stations : part.stations,
    holes,
  };
}

function getBores({ bores, slots }: Outline): Omit<Hole, 'id'>[] {
  const round0 = { axis: 'z' as const, z: 0, through: true, beforeCutOff: true };
  return [
    ...bores.map(({ centre, diameter }) => ({
      ...round0,
      x: round(centre.x),
      diameter: round(diameter),
      slotLength: 0,
    })),
    ...slots
      .filter(({ isAlongX }) => isAlongX)
      .map(({ centre, diameter, length }) => ({
        ...round0,
        x: round(centre.x),
        diameter: round(diameter),
        slotLength: round(length),
      })),
  ].sort((a, b) => a.x - b.x);
}

function getCrossHoles({ bores, slots }: Outline): Omit<Hole, 'id'>[] {
  const all = [...bores.map((bore) => ({ ...bore, length: 0 })), ...slots.filter(({ isAlongX }) => isAlongX)];
  return all
    .map(({ centre, diameter, length }) => ({
      axis: 'y' as const,
      x: round(centre.x),
      z: round(centre.y),
      diameter: round(diameter),
      slotLength: round(length),
      through: true,
      beforeCutOff: true,
    }))
    .sort((a, b) => a.x - b.x);
}

function describeTop(outline: Outline, widths: readonly WidthStretch[], units: LengthUnits): string[] {
  const show = (mm: number): string => formatLength(mm, units, { unit: true });
  const centre = outline.height / 2;
  const off = getFarthest(widths.flatMap(({ middle, middleEnd }) => [middle - centre, middleEnd - centre]));
  const boresOff = getFarthest(outline.bores.map((bore) => bore.centre.y - centre));
  const forked = widths.find(({ isForked }) => isForked);
  const remarks: string[] = [];
  if (off > CENTRED_WITHIN) {
    remarks.push(
      `The outline is not the same on both sides: its middle wanders by up to ${show(off)}. Widths are kept, the wander is not.`,
    );
  }
  if (boresOff > CENTRED_WITHIN) {
    remarks.push(`A bore stands ${show(boresOff)} off the centre line; the plan keeps its place along the part only.`);
  }
  if (forked !== undefined) {
    remarks.push(`From ${show(forked.from)} on the part is forked; its width is taken over the whole fork.`);
  }
  return remarks;
}

function describeSide(outline: Outline, widths: readonly WidthStretch[], height: number, units: LengthUnits): string[] {
  const show = (mm: number): string => formatLength(mm, units, { unit: true });
  const least = Math.min(...widths.map(({ width, widthEnd }) => Math.min(width, widthEnd)));
  if (outline.outer === null || height - least <= STATION_TOLERANCE) return [];
  return [
    `The height changes along the part, from ${show(least)} to ${show(height)}; the plan works with the tallest.`,
  ];
}

function describeSlots({ slots }: Outline, view: OutlineView): string[] {
  const count = slots.filter(({ isAlongX }) => !isAlongX).length;
  const across = view === 'top' ? 'across the part' : 'up and down';
  return count === 0
    ? []
    : [`${count} slot${count === 1 ? ' runs' : 's run'} ${across}; only slots along the part are kept.`];
}

function getFarthest(offsets: readonly number[]): number {
  return offsets.reduce((most, offset) => Math.max(most, Math.abs(offset)), 0);
}

/** Holds the part against itself turned end for end. */
function isHanded(widths: readonly WidthStretch[], holes: readonly Omit<Hole, 'id'>[], length: number): boolean {
  const turned = widths
    .map((stretch) => ({
      ...stretch,
      from: length - stretch.to,
      to: length - stretch.from,
      width: stretch.widthEnd,
      widthEnd: stretch.width,
    }))
    .reverse();
  const step = length / 97;
  for (let x = step / 2; x < length; x += step) {
    if (Math.abs(getWidth(widths, x) - getWidth(turned, x)) > STATION_TOLERANCE) return true;
  }
  const isMirrored = (hole: Omit<Hole, 'id'>): boolean =>
    holes.some(
      (other) =>
        Math.abs(other.x - (length - hole.x)) <= CENTRED_WITHIN &&
        Math.abs(other.diameter - hole.diameter) <= CENTRED_WITHIN &&
        Math.abs(other.z - hole.z) <= CENTRED_WITHIN,
    );
  return !holes.every(isMirrored);
}

function getWidth(widths: readonly WidthStretch[], x: number): number {
  const stretch = widths.find(({ from, to }) => x >= from && x <= to);
  if (stretch === undefined) return 0;
  const { from, to, width, widthEnd } = stretch;
  return width + ((widthEnd - width) * (x - from)) / (to - from);
}
