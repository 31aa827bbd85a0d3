import { getOffset, getShapePoint } from './flatten';
import { getDistance, getMiddle, type Point } from './point';
import { PointGrid } from './point-grid';
import { type ArcShape, isFullCircle, type LineShape, type OutlineShape } from './shapes';

export interface WithoutDuplicates {
  shapes: OutlineShape[];
  /** How many were drawn twice, or lie wholly on a longer line. */
  duplicates: number;
  /** Middle of each duplicate, up to a hundred. */
  places: Point[];
  /** How many had no length. */
  tooShort: number;
}

/** Shares of a shape's own measure at which two shapes are held against each other. */
const SHARES = [0, 0.25, 0.5, 0.75, 1] as const;

const MOST_PLACES = 100;

/**
 * The shapes without those that lie on another: the same line, arc or curve drawn twice, in either direction, and a line
 * that is wholly covered by a longer one.
 *
 * @param shapes in mm
 * @param within how near counts as the same place, mm, above zero
 */
export function removeDuplicates(shapes: readonly OutlineShape[], within: number): WithoutDuplicates {
  const long = shapes.filter((shape) => getReach(shape) > within);
  const once = removeSame(long, within);
  const uncovered = removeCovered(once.shapes, within);
  const places = [...once.places, ...uncovered.places];
  return {
    shapes: uncovered.shapes,
    duplicates: places.length,
    places: places.slice(0, MOST_PLACES),
    tooShort: shapes.length - long.length,
  };
}

/** Farthest that a shape gets from its own start, roughly; near zero for a shape without length. */
function getReach(shape: OutlineShape): number {
  if (shape.kind === 'arc') return shape.radius * Math.abs(shape.sweepRad);
  const start = getShapePoint(shape, 0);
  return Math.max(...SHARES.map((share) => getDistance(start, getShapePoint(shape, share))));
}

interface Kept {
  shapes: OutlineShape[];
  places: Point[];
}

function removeSame(shapes: readonly OutlineShape[], within: number): Kept {
  const grid = new PointGrid<OutlineShape>(within);
  const kept: Kept = { shapes: [], places: [] };
  for (const shape of shapes) {
    const anchor = getAnchor(shape);
    if (grid.findNear(anchor).some(({ value }) => isSame(value, shape, within))) {
      kept.places.push(anchor);
    } else {
      grid.add(anchor, shape);
      kept.shapes.push(shape);
    }
  }
  return kept;
}

/** A place that is the same whichever way the shape runs. */
function getAnchor(shape: OutlineShape): Point {
  return isFullCircle(shape) ? shape.centre : getShapePoint(shape, 0.5);
}

function isSame(a: OutlineShape, b: OutlineShape, within: number): boolean {
  if (a.kind !== b.kind || isFullCircle(a) !== isFullCircle(b)) return false;
  if (isFullCircle(a)) return isSameCircle(a, b as ArcShape, within);
  const near = (reversed: boolean): boolean =>
    SHARES.every(
      (share) => getDistance(getShapePoint(a, share), getShapePoint(b, reversed ? 1 - share : share)) <= within,
    );
  return near(false) || near(true);
}

function isSameCircle(a: ArcShape, b: ArcShape, within: number): boolean {
  return getDistance(a.centre, b.centre) <= within && Math.abs(a.radius - b.radius) <= within;
}

/** How finely lines are sorted by direction and by distance from the origin, before they are held against each other. */
const ANGLE_STEP_RAD = 1e-4;

function removeCovered(shapes: readonly OutlineShape[], within: number): Kept {
  const lines = shapes.filter((shape): shape is LineShape => shape.kind === 'line');
  const covered = new Set<LineShape>();
  const byCarrier = groupByCarrier(lines, within);
  const longestFirst = lines.toSorted((a, b) => getDistance(b.from, b.to) - getDistance(a.from, a.to));
  for (const line of longestFirst) {
    if (covered.has(line)) continue;
    for (const other of findOnCarrier(byCarrier, line, within)) {
      if (
        other === line ||
        covered.has(other) ||
        getDistance(other.from, other.to) >= getDistance(line.from, line.to)
      ) {
        continue;
      }
      const isOn = (point: Point): boolean => getOffset(line.from, line.to, point) <= within;
      if (isOn(other.from) && isOn(other.to)) covered.add(other);
    }
  }
  return {
    shapes: shapes.filter((shape) => shape.kind !== 'line' || !covered.has(shape)),
    places: [...covered].map(({ from, to }) => getMiddle(from, to)),
  };
}

/** Direction from 0 to π and signed distance from the origin of the endless line that carries a line. */
function getCarrier({ from, to }: LineShape): { angleRad: number; distance: number } {
  const turned = Math.atan2(to.y - from.y, to.x - from.x);
  const angleRad = turned < 0 ? turned + Math.PI : turned >= Math.PI ? turned - Math.PI : turned;
  return { angleRad, distance: from.y * Math.cos(angleRad) - from.x * Math.sin(angleRad) };
}

function getCarrierCell(line: LineShape, within: number): [number, number] {
  const { angleRad, distance } = getCarrier(line);
  return [Math.round(angleRad / ANGLE_STEP_RAD), Math.round(distance / (within * 20))];
}

function groupByCarrier(lines: readonly LineShape[], within: number): Map<string, LineShape[]> {
  const groups = new Map<string, LineShape[]>();
  for (const line of lines) {
    const key = getCarrierCell(line, within).join();
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [line]);
    else group.push(line);
  }
  return groups;
}

function findOnCarrier(groups: Map<string, LineShape[]>, line: LineShape, within: number): LineShape[] {
  const [angle, distance] = getCarrierCell(line, within);
  const halfTurn = Math.round(Math.PI / ANGLE_STEP_RAD);
  const found: LineShape[] = [];
  for (const a of [angle - 1, angle, angle + 1]) {
    // Just past half a turn the direction starts anew and the distance changes its sign.
    const [folded, sign] = a < 0 ? [a + halfTurn, -1] : a >= halfTurn ? [a - halfTurn, -1] : [a, 1];
    for (const d of [-1, 0, 1]) {
      found.push(...(groups.get([folded, sign * distance + d].join()) ?? []));
      if (a === halfTurn || a === 0) found.push(...(groups.get([a === 0 ? halfTurn : 0, -distance + d].join()) ?? []));
    }
  }
  return found;
}
