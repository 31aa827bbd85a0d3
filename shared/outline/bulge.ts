import { getDistance, type Point } from './point';
import type { OutlineShape } from './shapes';

/** Flatter than this is a line. */
const SMALLEST_BULGE = 1e-12;

/**
 * A stretch of a polyline. Its bulge is the tangent of a quarter of the arc's angle, positive when the arc turns
 * anticlockwise from start to end; 1 is half a circle. Source: DXF reference, group code 42 of LWPOLYLINE and VERTEX.
 *
 * @param bulge any finite number; 0 for a straight stretch
 * @example computeBulgeShape({ x: 0, y: 0 }, { x: 2, y: 0 }, 1) // half a circle below, centre 1, 0
 */
export function computeBulgeShape(from: Point, to: Point, bulge: number): OutlineShape {
  const chord = getDistance(from, to);
  if (Math.abs(bulge) < SMALLEST_BULGE || chord === 0) return { kind: 'line', from, to };
  // From the middle of the chord to the centre, in half chords to the left.
  const toCentre = (1 - bulge * bulge) / (2 * bulge);
  const centre = {
    x: (from.x + to.x) / 2 - ((to.y - from.y) / 2) * toCentre,
    y: (from.y + to.y) / 2 + ((to.x - from.x) / 2) * toCentre,
  };
  return {
    kind: 'arc',
    centre,
    radius: (chord * (1 + bulge * bulge)) / (4 * Math.abs(bulge)),
    startAngleRad: Math.atan2(from.y - centre.y, from.x - centre.x),
    sweepRad: 4 * Math.atan(bulge),
  };
}

/** A corner of a polyline; the bulge belongs to the stretch that begins here. */
export interface PolylineCorner extends Point {
  readonly bulge: number;
}

/** The stretches of a polyline in order, the closing one last. */
export function buildPolylineShapes(corners: readonly PolylineCorner[], isClosed: boolean): OutlineShape[] {
  return corners.flatMap((corner, index) => {
    const isLast = index === corners.length - 1;
    const next = isLast ? corners[0] : corners[index + 1];
    if (next === undefined || (isLast && !isClosed)) return [];
    return [computeBulgeShape({ x: corner.x, y: corner.y }, { x: next.x, y: next.y }, corner.bulge)];
  });
}
