import { getMiddle, type Point } from './point';

/** Comparisons before looking gives up. */
const MOST_LOOKS = 3_000_000;

const MOST_FOUND = 20;

interface Side {
  from: Point;
  to: Point;
  loop: number;
  index: number;
}

/**
 * Where the lines between a loop's points cross, of one loop or of two. Loops are found by their ends alone, so an outline
 * can close and yet cross itself.
 *
 * @param loops points of each loop
 * @returns up to 20 places
 */
export function findCrossings(loops: readonly (readonly Point[])[]): Point[] {
  const sides = loops.flatMap((points, loop) =>
    points.map((from, index): Side => ({ from, to: points[(index + 1) % points.length] ?? from, loop, index })),
  );
  const sorted = sides.sort((a, b) => Math.min(a.from.x, a.to.x) - Math.min(b.from.x, b.to.x));
  const found: Point[] = [];
  let looks = 0;
  for (let index = 0; index < sorted.length; index += 1) {
    const side = sorted[index];
    if (side === undefined) break;
    const right = Math.max(side.from.x, side.to.x);
    for (let next = index + 1; next < sorted.length; next += 1) {
      const other = sorted[next];
      if (other === undefined || Math.min(other.from.x, other.to.x) > right) break;
      looks += 1;
      if (looks > MOST_LOOKS || found.length >= MOST_FOUND) return found;
      if (!isNextTo(side, other, loops) && doCross(side, other)) found.push(getMiddle(other.from, other.to));
    }
  }
  return found;
}

function isNextTo(a: Side, b: Side, loops: readonly (readonly Point[])[]): boolean {
  if (a.loop !== b.loop) return false;
  const count = loops[a.loop]?.length ?? 0;
  const apart = Math.abs(a.index - b.index);
  return apart <= 1 || apart === count - 1;
}

/** True when each line has the other's ends on both its sides; touching is no crossing. */
function doCross(a: Side, b: Side): boolean {
  return isBetween(a, b) && isBetween(b, a);
}

function isBetween(line: Side, other: Side): boolean {
  const [one, two] = [getSide(line, other.from), getSide(line, other.to)];
  return (one > TOUCH && two < -TOUCH) || (one < -TOUCH && two > TOUCH);
}

/** Distance from the line, times its length, mm²; under this a point lies on it. */
const TOUCH = 1e-7;

function getSide({ from, to }: Side, point: Point): number {
  return (to.x - from.x) * (point.y - from.y) - (to.y - from.y) * (point.x - from.x);
}
