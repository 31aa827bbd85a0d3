import type { Mark, Point, View } from '../marks';
import { getRuns, type Run } from '../paths';
import { getTextBox } from './bounds';

/**
 * The topmost mark with a feature under a point.
 *
 * @param point in the view's mm
 * @param tolerance how far beside a line still counts, in the view's mm
 * @returns the mark, or null over furniture and empty paper
 */
export function hitTest(view: View, point: Point, tolerance: number): Mark | null {
  return view.marks.findLast((mark) => mark.feature !== null && isHit(mark, point, tolerance)) ?? null;
}

function isHit(mark: Mark, point: Point, tolerance: number): boolean {
  if (mark.kind === 'text') {
    return isInside([{ points: getTextBox(mark), closed: true }], point);
  }
  const runs = getRuns(mark.segments);
  return (
    (mark.fill !== 'none' && isInside(runs, point)) ||
    (mark.pen !== 'none' && runs.some((run) => getDistance(run, point) <= tolerance))
  );
}

function isInside(runs: readonly Run[], point: Point): boolean {
  let inside = false;
  for (const { points } of runs) {
    for (const [index, a] of points.entries()) {
      const b = points[(index + 1) % points.length] ?? a;
      if (a.y <= point.y !== b.y <= point.y && point.x < a.x + ((point.y - a.y) / (b.y - a.y)) * (b.x - a.x)) {
        inside = !inside;
      }
    }
  }
  return inside;
}

function getDistance(run: Run, point: Point): number {
  const ends = run.closed ? [...run.points, run.points[0] ?? point] : run.points;
  let least = Number.POSITIVE_INFINITY;
  for (let index = 0; index + 1 < ends.length; index += 1) {
    least = Math.min(least, getSegmentDistance(ends[index] ?? point, ends[index + 1] ?? point, point));
  }
  return least;
}

function getSegmentDistance(a: Point, b: Point, point: Point): number {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const square = dx * dx + dy * dy;
  const along = square === 0 ? 0 : ((point.x - a.x) * dx + (point.y - a.y) * dy) / square;
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(point.x - a.x - t * dx, point.y - a.y - t * dy);
}
