import type { HatchLines } from './fills';
import type { Point, Segment } from './marks';
import { getRuns, type Run } from './paths';

export interface HatchStroke {
  from: Point;
  to: Point;
}

/** More strokes than this in one area would be a grey smear: the lines are then set wider apart. */
const MOST_LINES = 400;

/**
 * Hatch lines clipped to a path by the even-odd rule. Lines are anchored to the drawing's origin, so neighbouring
 * areas of one fill run on.
 *
 * @param segments closed path in mm; open runs are closed
 * @param hatch one set of lines, in mm of paper
 * @param mmPerPaperMm drawing mm to a mm of paper
 * @returns strokes in drawing mm, dashes already cut
 */
export function computeHatch(segments: readonly Segment[], hatch: HatchLines, mmPerPaperMm: number): HatchStroke[] {
  const angleRad = (hatch.angleDeg * Math.PI) / 180;
  const turned = getRuns(segments, 0.05 * mmPerPaperMm).map((run) => turnRun(run, -angleRad));
  const heights = turned.flatMap((run) => run.points.map((point) => point.y));
  if (heights.length === 0) {
    return [];
  }
  const least = Math.min(...heights);
  const most = Math.max(...heights);
  const spacing = Math.max(hatch.spacing * mmPerPaperMm, (most - least) / MOST_LINES);
  const strokes: HatchStroke[] = [];
  for (let index = Math.ceil(least / spacing + 1e-9); index * spacing < most; index += 1) {
    for (const [from, to] of getSpans(turned, index * spacing)) {
      for (const [start, end] of cutDashes(from, to, hatch, mmPerPaperMm, index)) {
        strokes.push({
          from: turn({ x: start, y: index * spacing }, angleRad),
          to: turn({ x: end, y: index * spacing }, angleRad),
        });
      }
    }
  }
  return strokes;
}

/** Where a level line is inside the runs. */
function getSpans(runs: readonly Run[], height: number): [number, number][] {
  const crossings: number[] = [];
  for (const { points } of runs) {
    for (const [index, a] of points.entries()) {
      const b = points[(index + 1) % points.length] ?? a;
      // Half open, so that a line through a corner crosses once.
      if (a.y <= height !== b.y <= height) {
        crossings.push(a.x + ((height - a.y) / (b.y - a.y)) * (b.x - a.x));
      }
    }
  }
  crossings.sort((a, b) => a - b);
  const spans: [number, number][] = [];
  for (let index = 0; index + 1 < crossings.length; index += 2) {
    spans.push([crossings[index] ?? 0, crossings[index + 1] ?? 0]);
  }
  return spans;
}

function cutDashes(
  from: number,
  to: number,
  hatch: HatchLines,
  mmPerPaperMm: number,
  lineIndex: number,
): [number, number][] {
  const [stroke = 0, gap = 0] = hatch.dashes;
  const period = (stroke + gap) * mmPerPaperMm;
  if (period <= 0 || (to - from) / period > MOST_LINES) {
    return [[from, to]];
  }
  const shift = lineIndex % 2 === 0 ? 0 : period / 2;
  const pieces: [number, number][] = [];
  for (let at = Math.floor((from - shift) / period) * period + shift; at < to; at += period) {
    const start = Math.max(from, at);
    const end = Math.min(to, at + stroke * mmPerPaperMm);
    if (end - start > 1e-6) {
      pieces.push([start, end]);
    }
  }
  return pieces;
}

function turnRun(run: Run, angleRad: number): Run {
  return { ...run, points: run.points.map((point) => turn(point, angleRad)) };
}

function turn(point: Point, angleRad: number): Point {
  const cos = Math.cos(angleRad);
  const sin = Math.sin(angleRad);
  return { x: point.x * cos - point.y * sin, y: point.x * sin + point.y * cos };
}
