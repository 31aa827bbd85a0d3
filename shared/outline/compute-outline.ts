import { type Affine, composeAffine, getMove, getScale, transformShape } from './affine';
import { closeGaps, findOpenGaps, type Gap } from './close-gaps';
import { FILE_UNIT_SIZES } from './file-units';
import { findCrossings } from './find-crossings';
import { computeSegments, getShapePoint, isFiniteShape } from './flatten';
import type { Found } from './found';
import { type Box, buildLoop, getBox, getRoundHole, getSlotHole, isBoxWithin, isInside, type Loop } from './loop';
import type { Outline, OutlineOptions } from './outline';
import type { OutlineDrawing } from './outline-drawing';
import { buildRemarks } from './outline-remarks';
import { getMiddle, type Point } from './point';
import { removeDuplicates } from './remove-duplicates';
import type { Segment } from './segment';
import { buildSegmentGraph, JOIN_WITHIN } from './segment-graph';
import { isFullCircle, type OutlineShape } from './shapes';
import { findJunctions, traceLoops } from './trace-loops';

/** Most segments that are traced; curves are read into many. */
const MOST_SEGMENTS = 60_000;

/** Circles are recognised within this, mm: a curve read into lines stands off by its tolerance. */
const ROUND_WITHIN = 0.01;

/** How far around a loose end the nearest other one is looked for, as a share of the drawing's size. */
const OPEN_GAP_SHARE = 0.02;

/**
 * The outline in a drawing: duplicates taken out, ends joined, the outer loop with the loops inside it, holes recognised,
 * and all that was changed or left told. The same drawing and options give the same outline.
 *
 * @param drawing as a reader found it
 * @param options unit, tolerances and how the drawing is turned
 * @returns the outline in mm with its lower left corner at the origin; `outer` is null when nothing closes
 */
export function computeOutline(drawing: OutlineDrawing, options: OutlineOptions): Outline {
  const place = getPlacement(options);
  const hidden = new Set(options.hiddenLayers);
  const shown = drawing.entities.filter(({ layer }) => !hidden.has(layer)).map(({ shape }) => shape);
  const placed = shown.map((shape) => transformShape(place, shape)).filter(isFiniteShape);
  const single = removeDuplicates(placed, JOIN_WITHIN);
  const circles = single.shapes.filter(isFullCircle);
  const others = single.shapes.filter((shape) => !isFullCircle(shape));
  const segments = getSegments(others, options.curveTolerance);
  const loopGraph = buildSegmentGraph(segments);
  const { graph, closed } = closeGaps(loopGraph, options.gapTolerance);
  const traced = traceLoops(graph);
  // What is traced comes first: the outline is seldom a circle, and its points count.
  const runs = [...traced.loops, ...circles.map((circle) => computeSegments(circle, options.curveTolerance))];
  const loops = buildLoops(runs, options.curveTolerance).filter(({ areaMm2 }) => areaMm2 > 0);
  const sorted = sortLoops(loops);
  const found = {
    ...sorted,
    loose: traced.loose,
    gapsClosed: closed,
    gapsOpen: findOpenGaps(graph, Math.max(2 * options.gapTolerance, OPEN_GAP_SHARE * getSize(loops, segments))),
    duplicates: single.duplicates,
    duplicatePlaces: single.places,
    tooShort: single.tooShort,
    notNumbers: shown.length - placed.length,
    junctions: findJunctions(graph),
    crossings: findCrossings([sorted.outer, ...sorted.inner].flatMap((loop) => (loop === null ? [] : [loop.points]))),
    isCut: segments.length >= MOST_SEGMENTS,
  };
  return moveToOrigin(found, options);
}

/** A quarter turn in whole numbers leaves no rounding behind. */
const QUARTER: Affine = { a: 0, b: 1, c: -1, d: 0, e: 0, f: 0 };

function getPlacement({ unit, quarterTurns, isMirrored }: OutlineOptions): Affine {
  const size = FILE_UNIT_SIZES[unit];
  let turned = getScale(size, size);
  for (let turn = 0; turn < quarterTurns; turn += 1) turned = composeAffine(QUARTER, turned);
  return isMirrored ? composeAffine(getScale(-1, 1), turned) : turned;
}

function getSegments(shapes: readonly OutlineShape[], tolerance: number): Segment[] {
  const segments: Segment[] = [];
  for (const shape of shapes) {
    if (segments.length >= MOST_SEGMENTS) break;
    for (const segment of computeSegments(shape, tolerance)) segments.push(segment);
  }
  return segments;
}

function getSize(loops: readonly Loop[], segments: readonly Segment[]): number {
  let size = 1;
  for (const { box } of loops) size = Math.max(size, box.right - box.left, box.top - box.bottom);
  const first = segments[0];
  for (const { to } of segments) {
    if (first !== undefined) size = Math.max(size, Math.abs(to.x - first.from.x), Math.abs(to.y - first.from.y));
  }
  return size;
}

/** Points kept of all loops; those beyond are only there to be counted, and roughly will do. */
const MOST_POINTS = 200_000;

function buildLoops(runs: readonly (readonly Segment[])[], tolerance: number): Loop[] {
  let points = 0;
  return runs.map((run) => {
    const loop = buildLoop(run, points > MOST_POINTS ? Number.MAX_VALUE : tolerance);
    points += loop.points.length;
    return loop;
  });
}

/** The largest loop is the outline; the others are inside it or not. */
function sortLoops(loops: readonly Loop[]): Pick<Found, 'outer' | 'inner' | 'outside'> {
  const [outer = null, ...others] = loops.toSorted((a, b) => b.areaMm2 - a.areaMm2);
  const inner: Loop[] = [];
  const outside: Loop[] = [];
  for (const loop of others) (outer !== null && isLoopInside(loop, outer) ? inner : outside).push(loop);
  return { outer, inner, outside };
}

function isLoopInside(loop: Loop, outer: Loop): boolean {
  const [first, second] = loop.points;
  if (first === undefined || second === undefined || !isBoxWithin(loop.box, outer.box)) return false;
  return isInside(outer.points, getMiddle(first, second));
}

/** Puts the outer loop's lower left corner at the origin, and everything else with it. */
function moveToOrigin(found: Found, options: OutlineOptions): Outline {
  const box: Box = found.outer?.box ?? { left: 0, bottom: 0, right: 0, top: 0 };
  const move = getMove(-box.left, -box.bottom);
  const toPoint = ({ x, y }: Point): Point => ({ x: x + move.e, y: y + move.f });
  const toGap = (gap: Gap): Gap => ({ ...gap, from: toPoint(gap.from), to: toPoint(gap.to) });
  const toSegment = (segment: Segment): Segment =>
    segment.kind === 'line'
      ? { kind: 'line', from: toPoint(segment.from), to: toPoint(segment.to) }
      : { ...segment, from: toPoint(segment.from), to: toPoint(segment.to), centre: toPoint(segment.centre) };
  const toLoop = (loop: Loop): Loop => ({
    ...loop,
    segments: loop.segments.map(toSegment),
    points: loop.points.map(toPoint),
    box: {
      left: loop.box.left + move.e,
      right: loop.box.right + move.e,
      bottom: loop.box.bottom + move.f,
      top: loop.box.top + move.f,
    },
  });
  const inner = found.inner.map(toLoop);
  const moved: Found = {
    ...found,
    outer: found.outer === null ? null : toLoop(found.outer),
    inner,
    outside: found.outside.map(toLoop),
    loose: found.loose.map(toSegment),
    gapsClosed: found.gapsClosed.map(toGap),
    gapsOpen: found.gapsOpen.map(toGap),
    duplicatePlaces: found.duplicatePlaces.map(toPoint),
    junctions: found.junctions.map(toPoint),
    crossings: found.crossings.map(toPoint),
  };
  const holes = sortHoles(inner);
  const { outer, outside, loose, gapsClosed, gapsOpen, duplicates } = moved;
  return {
    outer,
    width: box.right - box.left,
    height: box.top - box.bottom,
    areaMm2: outer?.areaMm2 ?? 0,
    ...holes,
    outside,
    loose,
    gapsClosed,
    gapsOpen,
    duplicates,
    remarks: buildRemarks(moved, holes.windows, options.units),
  };
}

function sortHoles(inner: readonly Loop[]): Pick<Outline, 'bores' | 'slots' | 'windows'> {
  const holes: Pick<Outline, 'bores' | 'slots' | 'windows'> = { bores: [], slots: [], windows: [] };
  for (const loop of inner) {
    const round = getRoundHole(loop, ROUND_WITHIN);
    const slot = round === null ? getSlotHole(loop, ROUND_WITHIN) : null;
    if (round !== null) holes.bores.push(round);
    else if (slot !== null) holes.slots.push(slot);
    else holes.windows.push(loop);
  }
  const byX = (a: { centre: Point }, b: { centre: Point }): number =>
    a.centre.x - b.centre.x || a.centre.y - b.centre.y;
  holes.bores.sort(byX);
  holes.slots.sort(byX);
  return holes;
}

/** Shares along a shape at which its place is looked at for the size of a drawing. */
const LOOKS = 16;

/**
 * Size of a drawing in its own units, by which its unit is proposed: that of its outline, or of all that is in it when
 * nothing closes.
 */
export function computeDrawingSize(drawing: OutlineDrawing): { width: number; height: number } {
  const points = drawing.entities.flatMap(({ shape }) =>
    Array.from({ length: LOOKS + 1 }, (_unused, look) => getShapePoint(shape, look / LOOKS)),
  );
  const whole = getBox([], points);
  if (points.length === 0) return { width: 0, height: 0 };
  const size = Math.max(whole.right - whole.left, whole.top - whole.bottom);
  // Gaps and curves are judged against the size there is, since the unit is not known yet.
  const { outer, width, height } = computeOutline(drawing, {
    unit: 'mm',
    gapTolerance: size / 200,
    curveTolerance: size / 2000,
    quarterTurns: 0,
    isMirrored: false,
    hiddenLayers: [],
    units: 'mm',
  });
  return outer === null ? { width: whole.right - whole.left, height: whole.top - whole.bottom } : { width, height };
}
