import { getDistance, getOnCircle, type Point } from './point';

/** A piece of an outline: straight, or an arc of a circle. Lengths are mm. */
export type Segment = LineSegment | ArcSegment;

export interface LineSegment {
  readonly kind: 'line';
  readonly from: Point;
  readonly to: Point;
}

export interface ArcSegment {
  readonly kind: 'arc';
  readonly from: Point;
  readonly to: Point;
  readonly centre: Point;
  readonly radius: number;
  readonly startAngleRad: number;
  /** Anticlockwise when positive. */
  readonly sweepRad: number;
}

export function reverseSegment(segment: Segment): Segment {
  if (segment.kind === 'line') return { kind: 'line', from: segment.to, to: segment.from };
  const { startAngleRad, sweepRad } = segment;
  return {
    ...segment,
    from: segment.to,
    to: segment.from,
    startAngleRad: startAngleRad + sweepRad,
    sweepRad: -sweepRad,
  };
}

export function getSegmentLength(segment: Segment): number {
  return segment.kind === 'line' ? getDistance(segment.from, segment.to) : segment.radius * Math.abs(segment.sweepRad);
}

/** The point a share of the way along, 0 to 1. */
export function getSegmentPoint(segment: Segment, share: number): Point {
  if (share <= 0) return segment.from;
  if (share >= 1) return segment.to;
  if (segment.kind === 'line') {
    const { from, to } = segment;
    return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
  }
  return getOnCircle(segment.centre, segment.radius, segment.startAngleRad + segment.sweepRad * share);
}

/** Twice the area between the segment and the origin, anticlockwise positive; summed around a loop it is twice its area. */
export function getSegmentDoubleArea(segment: Segment): number {
  const { from, to } = segment;
  const triangle = from.x * to.y - to.x * from.y;
  if (segment.kind === 'line') return triangle;
  return triangle + segment.radius ** 2 * (segment.sweepRad - Math.sin(segment.sweepRad));
}

/**
 * Points from the segment's start to its end so that straight lines between them stay within `tolerance` of it.
 *
 * @param tolerance mm, above zero
 */
export function getSegmentPoints(segment: Segment, tolerance: number): Point[] {
  if (segment.kind === 'line') return [segment.from, segment.to];
  const steps = getArcSteps(segment.radius, segment.sweepRad, tolerance);
  return Array.from({ length: steps + 1 }, (_unused, step) => getSegmentPoint(segment, step / steps));
}

const MOST_STEPS = 2000;

/** Fewest equal steps whose sagitta `r (1 - cos(step / 2))` is within the tolerance. */
export function getArcSteps(radius: number, sweepRad: number, tolerance: number): number {
  const share = Math.min(1, tolerance / Math.max(radius, tolerance));
  const largestStep = Math.min(2 * Math.acos(1 - share), Math.PI / 4);
  return Math.min(MOST_STEPS, Math.max(1, Math.ceil(Math.abs(sweepRad) / largestStep - 1e-9)));
}
