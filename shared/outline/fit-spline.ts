import { getDistance, type Point } from './point';
import type { SplineShape } from './shapes';

export interface FitEnds {
  /** Direction in which the curve leaves its first point, and in which it reaches its last; null where free. */
  start: Point | null;
  end: Point | null;
}

const DEGREE = 3;

/**
 * The smooth cubic that passes through points: chord-length parameters, second derivatives that agree at every point, and
 * none at a free end (a natural end). Closed, it comes back to its first point as smoothly.
 *
 * Source: C. de Boor, A Practical Guide to Splines (rev. ed. 2001), chapter IV, for the slopes; L. Piegl and W. Tiller, The
 * NURBS Book (2nd ed. 1997), section 9.2.1, for chord-length parameters. A DXF file does not say how its points are joined,
 * so a program may have drawn a curve that is a little different between them.
 *
 * @param points two at least that differ, three for a closed curve; those that stand on the one before them count once
 * @returns a B-spline without weights; null when there are too few points
 */
export function computeFitSpline(
  points: readonly Point[],
  ends: FitEnds,
  isClosed: boolean,
): Pick<SplineShape, 'degree' | 'knots' | 'controls'> | null {
  const { passed, same } = getApart(points);
  const [first, last] = [passed[0], passed.at(-1)];
  if (first === undefined || last === undefined) return null;
  if (isClosed && getDistance(first, last) > same) passed.push(first);
  if (isClosed) passed[passed.length - 1] = first;
  if (passed.length < (isClosed ? 4 : 2)) return null;
  const steps = passed.slice(1).map((point, index) => getDistance(point, passed[index] ?? point));
  const slopes = isClosed ? getClosedSlopes(passed, steps) : getOpenSlopes(passed, steps, ends);
  return joinPieces(passed, steps, slopes);
}

/** Points this near to each other are one, as a share of how far all of them reach. */
const SAME_SHARE = 1e-9;

/** The points without those that stand on the one before them. */
function getApart(points: readonly Point[]): { passed: Point[]; same: number } {
  const reach = points.reduce((most, point) => Math.max(most, getDistance(point, points[0] ?? point)), 0);
  const same = SAME_SHARE * reach;
  const passed: Point[] = [];
  for (const point of points) {
    const last = passed.at(-1);
    if (last === undefined || getDistance(point, last) > same) passed.push(point);
  }
  return { passed, same };
}

/** Each stretch as a Bézier curve; as one B-spline, with three equal knots at every point. */
function joinPieces(points: readonly Point[], steps: readonly number[], slopes: readonly Point[]) {
  const controls: Point[] = [];
  const knots: number[] = [0];
  let at = 0;
  for (const [index, step] of steps.entries()) {
    const [from, to] = [getAt(points, index), getAt(points, index + 1)];
    controls.push(from, shift(from, getAt(slopes, index), step / 3), shift(to, getAt(slopes, index + 1), -step / 3));
    knots.push(at, at, at);
    at += step;
  }
  controls.push(getAt(points, points.length - 1));
  knots.push(at, at, at, at);
  return { degree: DEGREE, knots, controls };
}

/** A row of the system for the slopes: `before`, `own` and `after` times those of three points in a row give `right`. */
interface Row {
  before: number;
  own: number;
  after: number;
  right: Point;
}

/** Second derivatives on both sides of a point are one: the steps and chords before and after it. */
function getRow(before: Chord, after: Chord): Row {
  const weigh = ({ step, chord }: Chord): Point => scale(chord, 3 / step ** 2);
  return {
    before: 1 / before.step,
    own: 2 / before.step + 2 / after.step,
    after: 1 / after.step,
    right: shift(weigh(before), weigh(after), 1),
  };
}

interface Chord {
  step: number;
  chord: Point;
}

function getChords(points: readonly Point[], steps: readonly number[]): Chord[] {
  return steps.map((step, index) => ({
    step,
    chord: shift(getAt(points, index + 1), getAt(points, index), -1),
  }));
}

function getOpenSlopes(points: readonly Point[], steps: readonly number[], ends: FitEnds): Point[] {
  const chords = getChords(points, steps);
  const [first, last] = [chords[0], chords.at(-1)];
  if (first === undefined || last === undefined) return [];
  const rows = chords.slice(1).map((after, index) => getRow(chords[index] ?? after, after));
  return solve([getEndRow(first, ends.start, 'after'), ...rows, getEndRow(last, ends.end, 'before')]);
}

/** With a direction the slope is known, at unit speed as chord-length parameters have it; free, the curve ends straight. */
function getEndRow({ step, chord }: Chord, direction: Point | null, inner: 'before' | 'after'): Row {
  const length = direction === null ? 0 : Math.hypot(direction.x, direction.y);
  const open = { before: 0, after: 0 };
  if (direction !== null && length > 0) return { ...open, own: 1, right: scale(direction, 1 / length) };
  return { ...open, own: 2, [inner]: 1, right: scale(chord, 3 / step) };
}

/** The last point is the first again, so the rows go round: solved as an open system and one correction (Sherman-Morrison). */
function getClosedSlopes(points: readonly Point[], steps: readonly number[]): Point[] {
  const chords = getChords(points, steps);
  const rows = chords.map((after, index) => getRow(chords.at(index - 1) ?? after, after));
  const count = rows.length;
  const corner = { top: rows[0]?.before ?? 0, bottom: rows[count - 1]?.after ?? 0 };
  const pivot = -(rows[0]?.own ?? 1);
  const open = rows.map((row, index) => ({
    ...row,
    own: row.own - (index === 0 ? pivot : 0) - (index === count - 1 ? (corner.top * corner.bottom) / pivot : 0),
  }));
  const plain = solve(open);
  const unit = solve(
    open.map((row, index) => ({
      ...row,
      right: { x: index === 0 ? pivot : index === count - 1 ? corner.bottom : 0, y: 0 },
    })),
  ).map(({ x }) => x);
  const weigh = (values: readonly number[]): number =>
    (values[0] ?? 0) + (corner.top / pivot) * (values[count - 1] ?? 0);
  const share = 1 + weigh(unit);
  const factor = { x: weigh(plain.map(({ x }) => x)) / share, y: weigh(plain.map(({ y }) => y)) / share };
  const slopes = plain.map((slope, index) => shift(slope, factor, -(unit[index] ?? 0)));
  return [...slopes, getAt(slopes, 0)];
}

/** The tridiagonal system, by elimination from the top; its own terms outweigh the others, so that it always has an answer. */
function solve(rows: readonly Row[]): Point[] {
  const after: number[] = [];
  const right: Point[] = [];
  for (const [index, row] of rows.entries()) {
    const own = row.own - row.before * (after[index - 1] ?? 0);
    after.push(row.after / own);
    right.push(scale(shift(row.right, right[index - 1] ?? ORIGIN, -row.before), 1 / own));
  }
  for (let index = rows.length - 2; index >= 0; index -= 1) {
    right[index] = shift(getAt(right, index), getAt(right, index + 1), -(after[index] ?? 0));
  }
  return right;
}

const ORIGIN: Point = { x: 0, y: 0 };

function getAt(points: readonly Point[], index: number): Point {
  return points[index] ?? ORIGIN;
}

function scale({ x, y }: Point, factor: number): Point {
  return { x: x * factor, y: y * factor };
}

function shift(from: Point, by: Point, factor: number): Point {
  return { x: from.x + by.x * factor, y: from.y + by.y * factor };
}
