import type { BlankSlot, BlankTemplate, Hole, Part, Station } from './plan';

/** What has to be said of a part; the rest has usual values. Lengths are mm. */
export type PartStart = Pick<Part, 'id' | 'name' | 'length' | 'height' | 'thickness'> & Partial<Part>;

/**
 * A part with usual values: one piece, no hand, plain bar shape, no holes, the plan's allowance, every face machined.
 *
 * @example buildPart({ id: 'part-1', name: 'Pawl arm', length: 184.15, height: 31.75, thickness: 12.7 })
 */
export function buildPart(start: PartStart): Part {
  return {
    number: '',
    hand: 'none',
    quantity: 1,
    stations: [],
    holes: [],
    keepOuts: [],
    insideCorner: null,
    allowance: null,
    thicknessTolerance: null,
    heightTolerance: null,
    asSupplied: [],
    note: '',
    ...start,
  };
}

/** A stretch of the part of one width; give `widthEnd` for a taper. Lengths are mm from the part's left end. */
export function buildStation(
  start: Pick<Station, 'from' | 'to' | 'width'> & Partial<Pick<Station, 'kind' | 'widthEnd'>>,
): Station {
  return { kind: 'shank', widthEnd: start.width, ...start };
}

/** A round hole right through, made before the piece is cut off; a bore seen from above unless told. */
export function buildHole(start: Pick<Hole, 'id' | 'x' | 'diameter'> & Partial<Hole>): Hole {
  return { axis: 'z', z: 0, slotLength: 0, through: true, beforeCutOff: true, ...start };
}

/** A kind of blank whose length and count are left to the engine. */
export function buildBlankTemplate(id: string, slots: BlankSlot[]): BlankTemplate {
  return { id, length: 'auto', count: 'auto', slots };
}
