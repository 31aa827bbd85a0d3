import type { Station } from '../model/plan';
import { fromNanometres, toNanometres } from '../units/exact';
import { getOffset } from './flatten';
import type { Point } from './point';
import type { WidthStretch } from './width-along';

/** Steps in width under this are none, and a level stretch may wander this much, mm. */
export const STATION_TOLERANCE = 0.05;

/** Farthest that the edge of the stations may stand from the outline's, as a share of the thickness: 0.1 mm for 20 mm. */
const EDGE_SHARE = 0.005;

interface Knot {
  x: number;
  width: number;
}

/** A run of widths without a step, as corners of a line. */
type Run = Knot[];

/**
 * Few stations that follow the edge of an outline within a tolerance, measured square to the edge, so that a round end
 * takes no more of them where it is steep. Stretches of full thickness are left out, as the model has it.
 *
 * @param stretches from `computeWidthAlong`
 * @param thickness the part's, which is its greatest width, mm
 */
export function sampleStations(stretches: readonly WidthStretch[], thickness: number): Station[] {
  const tolerance = STATION_TOLERANCE;
  const runs = getRuns(stretches, tolerance).map(thinRun);
  let edgeTolerance = Math.max(tolerance, EDGE_SHARE * thickness);
  let pieces = getAllPieces(runs, edgeTolerance);
  while (pieces.length > MOST_STATIONS && edgeTolerance < thickness) {
    edgeTolerance *= 2;
    pieces = getAllPieces(runs, edgeTolerance);
  }
  return getStations(pieces.slice(0, MOST_STATIONS), thickness);
}

/** More than anyone would look through; a finer outline is followed more roughly. */
const MOST_STATIONS = 200;

/** Corners of a run that are looked at; an outline of arcs and lines has some hundreds. */
const MOST_CORNERS = 2000;

/** A run with more corners than are looked at keeps the least and the greatest width of each short stretch. */
function thinRun(run: Run): Run {
  if (run.length <= MOST_CORNERS) return run;
  const size = Math.ceil((2 * run.length) / MOST_CORNERS);
  const kept = new Set<Knot>([run[0], run.at(-1)].filter((knot) => knot !== undefined));
  for (let start = 0; start < run.length; start += size) {
    const stretch = run.slice(start, start + size).sort((a, b) => a.width - b.width);
    for (const knot of [stretch[0], stretch.at(-1)]) if (knot !== undefined) kept.add(knot);
  }
  return run.filter((knot) => kept.has(knot));
}

function getAllPieces(runs: readonly Run[], edgeTolerance: number): Piece[] {
  return runs.flatMap((run) => joinLevel(getPieces(run, edgeTolerance), STATION_TOLERANCE));
}

function getStations(pieces: readonly Piece[], thickness: number): Station[] {
  const tolerance = STATION_TOLERANCE;
  return pieces
    .map((piece, index) => getStation(piece, pieces[index - 1], pieces[index + 1], tolerance))
    .filter(({ from, to, width, widthEnd }) => {
      const isFull = Math.min(width, widthEnd) >= thickness - tolerance;
      return to > from && !isFull;
    });
}

function getRuns(stretches: readonly WidthStretch[], tolerance: number): Run[] {
  const runs: Run[] = [];
  let run: Run = [];
  for (const { from, to, width, widthEnd } of stretches) {
    const last = run.at(-1);
    if (last === undefined || Math.abs(last.width - width) > tolerance || from - last.x > tolerance) {
      run = [{ x: from, width }];
      runs.push(run);
    }
    run.push({ x: to, width: widthEnd });
  }
  return runs;
}

interface Piece {
  from: Knot;
  to: Knot;
  /** Corners of the outline that the piece stands for. */
  corners: number;
}

/** Fewest corners, each of them a corner of the run, so that no corner between is off by more than the tolerance. */
function getPieces(run: Run, tolerance: number): Piece[] {
  const pieces: Piece[] = [];
  const waiting: [number, number][] = [[0, run.length - 1]];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const [first, last] = next;
    const [from, to] = [run[first], run[last]];
    if (from === undefined || to === undefined) continue;
    const worst = findWorst(run, first, last);
    if (worst.off <= tolerance) {
      pieces.push({ from, to, corners: last - first });
    } else {
      // The left one is taken up first, so that the pieces come in order.
      waiting.push([worst.index, last], [first, worst.index]);
    }
  }
  return pieces;
}

function findWorst(run: Run, first: number, last: number): { index: number; off: number } {
  const [from, to] = [run[first], run[last]];
  let worst = { index: first, off: 0 };
  if (from === undefined || to === undefined) return worst;
  for (let index = first + 1; index < last; index += 1) {
    const knot = run[index];
    if (knot === undefined) continue;
    const off = getOffset(getEdge(from), getEdge(to), getEdge(knot));
    if (off > worst.off) worst = { index, off };
  }
  return worst;
}

/** The outline's upper edge, were it the same on both sides. */
function getEdge({ x, width }: Knot): Point {
  return { x, y: width / 2 };
}

/** Level pieces that follow each other at one width become one. */
function joinLevel(pieces: readonly Piece[], tolerance: number): Piece[] {
  const joined: Piece[] = [];
  for (const piece of pieces) {
    const last = joined.at(-1);
    const areLevel =
      last !== undefined &&
      [last.to, piece.from, piece.to].every(({ width }) => Math.abs(width - last.from.width) <= tolerance / 2);
    if (last !== undefined && areLevel) {
      joined[joined.length - 1] = { from: last.from, to: piece.to, corners: last.corners + piece.corners };
    } else {
      joined.push(piece);
    }
  }
  return joined;
}

function getStation(piece: Piece, before: Piece | undefined, after: Piece | undefined, tolerance: number): Station {
  const isLevel = Math.abs(piece.to.width - piece.from.width) <= tolerance;
  const neighbours = [before?.to.width, after?.from.width].filter((width) => width !== undefined);
  const isWider = neighbours.length > 0 && neighbours.every((width) => width < piece.from.width - tolerance);
  const width = round(isLevel ? Math.max(piece.from.width, piece.to.width) : piece.from.width);
  return {
    kind: isLevel ? (isWider ? 'boss' : 'shank') : 'taper',
    from: round(piece.from.x),
    to: round(piece.to.x),
    width,
    widthEnd: isLevel ? width : round(piece.to.width),
  };
}

/** To a nanometre, which takes rounding noise out of the last digits. */
export function round(mm: number): number {
  return fromNanometres(toNanometres(mm));
}
