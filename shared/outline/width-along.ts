import type { Point } from './point';

/** Width of an outline between two places along x; it runs straight from `width` to `widthEnd`. Lengths are mm. */
export interface WidthStretch {
  from: number;
  to: number;
  width: number;
  widthEnd: number;
  /** Middle of the outline, above its bottom, at each end. */
  middle: number;
  middleEnd: number;
  /** True where the outline stands apart in two or more pieces, as in a fork. */
  isForked: boolean;
}

interface Side {
  left: Point;
  right: Point;
}

/** Places along x nearer than this are one, mm. */
const SAME_PLACE = 1e-6;

/**
 * Width across y of a closed outline at each place along x, from its lowest edge to its highest.
 *
 * @param points corners of the outline, in order
 * @returns stretches from left to right without gaps; a step in width is where one ends and the next begins
 */
export function computeWidthAlong(points: readonly Point[]): WidthStretch[] {
  const places = getPlaces(points);
  const sides = getSides(points);
  const stretches: WidthStretch[] = [];
  let first = 0;
  let active: Side[] = [];
  for (let index = 0; index + 1 < places.length; index += 1) {
    const [from, to] = [places[index] ?? 0, places[index + 1] ?? 0];
    const middle = (from + to) / 2;
    while (first < sides.length && (sides[first]?.left.x ?? Infinity) <= middle) {
      const side = sides[first];
      if (side !== undefined) active.push(side);
      first += 1;
    }
    active = active.filter((side) => side.right.x > middle);
    const stretch = measureStretch(active, from, to);
    if (stretch !== null) stretches.push(stretch);
  }
  return stretches;
}

function getPlaces(points: readonly Point[]): number[] {
  const places: number[] = [];
  for (const x of points.map((point) => point.x).sort((a, b) => a - b)) {
    if (x - (places.at(-1) ?? -Infinity) > SAME_PLACE) places.push(x);
  }
  return places;
}

/** Sides that are not upright, by their left ends. */
function getSides(points: readonly Point[]): Side[] {
  return points
    .flatMap((from, index): Side[] => {
      const to = points[(index + 1) % points.length] ?? from;
      if (Math.abs(to.x - from.x) <= SAME_PLACE) return [];
      return [from.x < to.x ? { left: from, right: to } : { left: to, right: from }];
    })
    .sort((a, b) => a.left.x - b.left.x);
}

function measureStretch(active: readonly Side[], from: number, to: number): WidthStretch | null {
  const middle = (from + to) / 2;
  let [lowest, highest] = [active[0], active[0]];
  for (const side of active) {
    if (lowest === undefined || getHeight(side, middle) < getHeight(lowest, middle)) lowest = side;
    if (highest === undefined || getHeight(side, middle) > getHeight(highest, middle)) highest = side;
  }
  if (lowest === undefined || highest === undefined || lowest === highest) return null;
  const measure = (x: number): { width: number; middle: number } => {
    const [low, high] = [getHeight(lowest, x), getHeight(highest, x)];
    return { width: Math.max(0, high - low), middle: (low + high) / 2 };
  };
  const [start, end] = [measure(from), measure(to)];
  const isForked = active.length > 2;
  return { from, to, width: start.width, widthEnd: end.width, middle: start.middle, middleEnd: end.middle, isForked };
}

function getHeight({ left, right }: Side, x: number): number {
  return left.y + ((right.y - left.y) * (x - left.x)) / (right.x - left.x);
}
