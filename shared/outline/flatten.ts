import { getDistance, getOnCircle, isFinitePoint, type Point } from './point';
import type { Segment } from './segment';
import type { EllipseShape, OutlineShape, SplineShape } from './shapes';
import { getSplinePoint, getSplineSpans } from './spline';

/** A smooth stretch is halved at most this often. */
const DEEPEST = 12;

const MOST_ELLIPSE_STEPS = 2000;

/**
 * A shape as segments. Lines and arcs of circles are exact; ellipses and splines become lines within the tolerance.
 *
 * @param shape in mm
 * @param tolerance farthest that a line may stand from the curve, mm, above zero
 */
export function computeSegments(shape: OutlineShape, tolerance: number): Segment[] {
  switch (shape.kind) {
    case 'line':
      return [shape];
    case 'arc': {
      const { centre, radius, startAngleRad, sweepRad } = shape;
      const from = getOnCircle(centre, radius, startAngleRad);
      const to = getOnCircle(centre, radius, startAngleRad + sweepRad);
      return [{ ...shape, from, to }];
    }
    case 'ellipse':
      return joinPoints(getEllipsePoints(shape, tolerance));
    case 'spline':
      return joinPoints(getSplinePoints(shape, tolerance));
    default:
      return shape satisfies never;
  }
}

/** True when every number in the shape is one. */
export function isFiniteShape(shape: OutlineShape): boolean {
  switch (shape.kind) {
    case 'line':
      return isFinitePoint(shape.from) && isFinitePoint(shape.to);
    case 'arc':
      return isFinitePoint(shape.centre) && [shape.radius, shape.startAngleRad, shape.sweepRad].every(Number.isFinite);
    case 'ellipse':
      return (
        [shape.centre, shape.axisA, shape.axisB].every(isFinitePoint) &&
        [shape.startRad, shape.sweepRad].every(Number.isFinite)
      );
    case 'spline':
      return shape.controls.every(isFinitePoint) && [...shape.knots, ...shape.weights].every(Number.isFinite);
    default:
      return shape satisfies never;
  }
}

/** The point a share of the way along a shape's own measure (angle or knots), 0 to 1. */
export function getShapePoint(shape: OutlineShape, share: number): Point {
  switch (shape.kind) {
    case 'line':
      return {
        x: shape.from.x + (shape.to.x - shape.from.x) * share,
        y: shape.from.y + (shape.to.y - shape.from.y) * share,
      };
    case 'arc':
      return getOnCircle(shape.centre, shape.radius, shape.startAngleRad + shape.sweepRad * share);
    case 'ellipse':
      return getEllipsePoint(shape, shape.startRad + shape.sweepRad * share);
    case 'spline': {
      const spans = getSplineSpans(shape);
      const [start, end] = [spans[0] ?? 0, spans.at(-1) ?? 0];
      return getSplinePoint(shape, start + (end - start) * share);
    }
    default:
      return shape satisfies never;
  }
}

function joinPoints(points: readonly Point[]): Segment[] {
  return points.slice(1).flatMap((to, index): Segment[] => {
    const from = points[index];
    return from === undefined || getDistance(from, to) === 0 ? [] : [{ kind: 'line', from, to }];
  });
}

function getEllipsePoint({ centre, axisA, axisB }: EllipseShape, t: number): Point {
  const cos = Math.cos(t);
  const sin = Math.sin(t);
  return { x: centre.x + axisA.x * cos + axisB.x * sin, y: centre.y + axisA.y * cos + axisB.y * sin };
}

/** Between points a step of `t` apart a curve bends away by at most `step² / 8` of its second derivative, here an axis. */
function getEllipsePoints(shape: EllipseShape, tolerance: number): Point[] {
  const longest = Math.hypot(shape.axisA.x, shape.axisA.y, shape.axisB.x, shape.axisB.y);
  const largestStep = Math.min(Math.sqrt((8 * tolerance) / Math.max(longest, tolerance)), Math.PI / 8);
  const steps = Math.min(MOST_ELLIPSE_STEPS, Math.max(1, Math.ceil(Math.abs(shape.sweepRad) / largestStep)));
  const evenly = Array.from({ length: steps + 1 }, (_unused, step) => step / steps);
  const shares = [...new Set([...evenly, ...getFarthestShares(shape)])].sort((a, b) => a - b);
  return shares.map((share) => getEllipsePoint(shape, shape.startRad + shape.sweepRad * share));
}

/** Where the curve is farthest along x and y, so that the size of what it bounds is exact. */
function getFarthestShares({ axisA, axisB, startRad, sweepRad }: EllipseShape): number[] {
  const turns = [Math.atan2(axisB.x, axisA.x), Math.atan2(axisB.y, axisA.y)];
  return turns
    .flatMap((turn) => [turn, turn + Math.PI])
    .map((angle) => {
      const along = Math.sign(sweepRad) * (angle - startRad);
      return (((along % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI)) / Math.abs(sweepRad);
    })
    .filter((share) => share > 1e-9 && share < 1 - 1e-9);
}

function getSplinePoints(shape: SplineShape, tolerance: number): Point[] {
  const spans = getSplineSpans(shape);
  const points = [getSplinePoint(shape, spans[0] ?? 0)];
  for (let index = 0; index + 1 < spans.length; index += 1) {
    const [start, end] = [spans[index] ?? 0, spans[index + 1] ?? 0];
    const to = getSplinePoint(shape, end);
    addHalves(shape, tolerance, { start, end, from: points.at(-1) ?? to, to, depth: 0 }, points);
  }
  return points;
}

interface Stretch {
  start: number;
  end: number;
  from: Point;
  to: Point;
  depth: number;
}

/**
 * Adds the points after a stretch's start. The curve is held against a point that runs evenly along the line: more lines than
 * the distance alone would ask for, but a curve that turns back on itself is not missed, nor an S that crosses the line.
 */
function addHalves(shape: SplineShape, tolerance: number, stretch: Stretch, points: Point[]): void {
  const { start, end, from, to, depth } = stretch;
  const at = (share: number): Point => getSplinePoint(shape, start + (end - start) * share);
  const isNear = (point: Point, share: number): boolean =>
    getDistance(point, { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share }) <= tolerance / 2;
  const middle = at(0.5);
  const isFlat = isNear(middle, 0.5) && isNear(at(0.25), 0.25) && isNear(at(0.75), 0.75);
  if (isFlat || depth >= DEEPEST) {
    points.push(to);
    return;
  }
  const half = start + (end - start) / 2;
  addHalves(shape, tolerance, { start, end: half, from, to: middle, depth: depth + 1 }, points);
  addHalves(shape, tolerance, { start: half, end, from: middle, to, depth: depth + 1 }, points);
}

/** Distance of a point from the line between two, or from the nearer of them where it lies beyond. */
export function getOffset(from: Point, to: Point, point: Point): number {
  const length = getDistance(from, to);
  if (length === 0) return getDistance(from, point);
  const along = ((point.x - from.x) * (to.x - from.x) + (point.y - from.y) * (to.y - from.y)) / length;
  if (along < 0) return getDistance(from, point);
  if (along > length) return getDistance(to, point);
  return Math.abs((to.x - from.x) * (point.y - from.y) - (to.y - from.y) * (point.x - from.x)) / length;
}
