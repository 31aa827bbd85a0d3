import { getDistance, type Point } from './point';
import { getSegmentDoubleArea, getSegmentPoints, reverseSegment, type Segment } from './segment';

/** A closed run of segments, anticlockwise. Lengths are mm. */
export interface Loop {
  readonly segments: readonly Segment[];
  readonly areaMm2: number;
  readonly box: Box;
  /** Points along it, straight lines between which stay within the curve tolerance; the first is not repeated. */
  readonly points: readonly Point[];
}

export interface Box {
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly top: number;
}

/** @param tolerance farthest that the points' lines may stand from an arc, mm */
export function buildLoop(segments: readonly Segment[], tolerance: number): Loop {
  const doubleArea = segments.reduce((sum, segment) => sum + getSegmentDoubleArea(segment), 0);
  const turned = doubleArea < 0 ? segments.toReversed().map(reverseSegment) : segments;
  const points = turned.flatMap((segment) => getSegmentPoints(segment, tolerance).slice(0, -1));
  return { segments: turned, areaMm2: Math.abs(doubleArea) / 2, box: getBox(turned, points), points };
}

/** The box around segments: the points between may miss an arc's farthest place, so that is looked up. */
export function getBox(segments: readonly Segment[], points: readonly Point[]): Box {
  const all = [...points, ...segments.flatMap(getFarthestPlaces)];
  let [left, bottom, right, top] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of all) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    bottom = Math.min(bottom, y);
    top = Math.max(top, y);
  }
  return { left, bottom, right, top };
}

/** Where an arc is farthest to the right, up, left and down, as far as it gets there. */
function getFarthestPlaces(segment: Segment): Point[] {
  if (segment.kind === 'line') return [segment.from, segment.to];
  const { centre, radius, startAngleRad, sweepRad } = segment;
  const places = [
    { angleRad: 0, x: 1, y: 0 },
    { angleRad: Math.PI / 2, x: 0, y: 1 },
    { angleRad: Math.PI, x: -1, y: 0 },
    { angleRad: -Math.PI / 2, x: 0, y: -1 },
  ];
  const isReached = (angleRad: number): boolean => {
    const along = Math.sign(sweepRad) * (angleRad - startAngleRad);
    const turn = ((along % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
    return turn <= Math.abs(sweepRad);
  };
  const reached = places.filter(({ angleRad }) => isReached(angleRad));
  return [
    segment.from,
    segment.to,
    ...reached.map(({ x, y }) => ({ x: centre.x + radius * x, y: centre.y + radius * y })),
  ];
}

/** True when a place is inside a loop, by counting the crossings of a ray to the right. */
export function isInside(points: readonly Point[], { x, y }: Point): boolean {
  let inside = false;
  let previous = points.at(-1);
  for (const point of points) {
    if (previous !== undefined && point.y > y !== previous.y > y) {
      const crossing = point.x + ((previous.x - point.x) * (y - point.y)) / (previous.y - point.y);
      if (x < crossing) inside = !inside;
    }
    previous = point;
  }
  return inside;
}

/** True when a box lies within another. */
export function isBoxWithin(inner: Box, outer: Box): boolean {
  return (
    inner.left >= outer.left && inner.right <= outer.right && inner.bottom >= outer.bottom && inner.top <= outer.top
  );
}

export interface RoundHole {
  readonly centre: Point;
  readonly diameter: number;
}

/** A loop that is a circle: one or more arcs about one centre, or a curve whose points all lie on a circle. */
export function getRoundHole(loop: Loop, within: number): RoundHole | null {
  const { left, right, bottom, top } = loop.box;
  const diameter = (right - left + (top - bottom)) / 2;
  const centre = { x: (left + right) / 2, y: (bottom + top) / 2 };
  const first = loop.segments[0];
  const areArcs =
    first?.kind === 'arc' &&
    loop.segments.every(
      (segment) =>
        segment.kind === 'arc' &&
        getDistance(segment.centre, first.centre) <= within &&
        Math.abs(segment.radius - first.radius) <= within,
    );
  if (areArcs) return { centre: first.centre, diameter: 2 * first.radius };
  // A curve read as lines has many corners; a square or a hexagon is no hole for a drill.
  if (loop.points.length < FEWEST_CORNERS_OF_A_CIRCLE) return null;
  const isOn = (point: Point): boolean => Math.abs(getDistance(point, centre) - diameter / 2) <= within;
  const isRound = loop.points.every(isOn) && Math.abs(right - left - (top - bottom)) <= 2 * within;
  return isRound ? { centre, diameter } : null;
}

const FEWEST_CORNERS_OF_A_CIRCLE = 12;

export interface SlotHole extends RoundHole {
  /** Distance between the centres of the two round ends. */
  readonly length: number;
  /** True when it lies along x, false along y. */
  readonly isAlongX: boolean;
}

/** A loop of two half circles of one size joined by two lines, along x or y. */
export function getSlotHole(loop: Loop, within: number): SlotHole | null {
  const segments = joinArcs(loop.segments, within);
  const arcs = segments.filter((segment) => segment.kind === 'arc');
  const [a, b] = arcs;
  if (arcs.length !== 2 || segments.length !== 4 || a === undefined || b === undefined) return null;
  const areHalves = arcs.every(({ sweepRad }) => Math.abs(Math.abs(sweepRad) - Math.PI) < 1e-3);
  if (!areHalves || Math.abs(a.radius - b.radius) > within) return null;
  const [dx, dy] = [Math.abs(b.centre.x - a.centre.x), Math.abs(b.centre.y - a.centre.y)];
  if (Math.min(dx, dy) > within) return null;
  const centre = { x: (a.centre.x + b.centre.x) / 2, y: (a.centre.y + b.centre.y) / 2 };
  return { centre, diameter: 2 * a.radius, length: Math.hypot(dx, dy), isAlongX: dx >= dy };
}

/** Arcs of one circle that follow each other become one. */
function joinArcs(segments: readonly Segment[], within: number): Segment[] {
  const joined: Segment[] = [];
  const isOnSame = (segment: Segment, onto: Segment | undefined): boolean => {
    if (segment.kind !== 'arc' || onto?.kind !== 'arc' || segment === onto) return false;
    return getDistance(segment.centre, onto.centre) <= within && Math.abs(segment.radius - onto.radius) <= within;
  };
  const join = (first: Segment, second: Segment): Segment =>
    first.kind === 'arc' && second.kind === 'arc'
      ? { ...first, to: second.to, sweepRad: first.sweepRad + second.sweepRad }
      : first;
  for (const segment of segments) {
    const last = joined.at(-1);
    if (last !== undefined && isOnSame(segment, last)) joined[joined.length - 1] = join(last, segment);
    else joined.push(segment);
  }
  const [first, last] = [joined[0], joined.at(-1)];
  if (first === undefined || last === undefined || !isOnSame(first, last)) return joined;
  return [join(last, first), ...joined.slice(1, -1)];
}
