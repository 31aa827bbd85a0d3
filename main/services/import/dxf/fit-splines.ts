import { computeFitSpline } from '../../../../shared/outline/fit-spline';
import type { Point } from '../../../../shared/outline/point';
import type { DxfPair } from './dxf-fields';

/** Group codes of a SPLINE. Source: DXF reference, SPLINE. */
const CODES = { control: 10, fit: 11, startTangent: 12, endTangent: 13, knot: 40, flags: 70, degree: 71 } as const;
const CLOSED = 1;

/** More points than anyone fits a curve through by hand. */
const MOST_FIT_POINTS = 5000;

/**
 * The pairs of a SPLINE that is given by the points it passes through alone, with the knots and control points of the
 * curve through them; null for any other entity, and where there are too few points or figures that are none.
 */
export function completeFitSpline(entity: readonly DxfPair[]): DxfPair[] | null {
  if (entity[0]?.value !== 'SPLINE' || entity.some(({ code }) => code === CODES.control)) return null;
  const points = readPoints(entity, CODES.fit);
  const flags = Number.parseInt(entity.find(({ code }) => code === CODES.flags)?.value ?? '0', 10);
  const ends = {
    start: readPoints(entity, CODES.startTangent)[0] ?? null,
    end: readPoints(entity, CODES.endTangent)[0] ?? null,
  };
  const figures = [...points, ends.start, ends.end].flatMap((point) => (point === null ? [] : [point.x, point.y]));
  if (points.length > MOST_FIT_POINTS || !figures.every(Number.isFinite)) return null;
  const spline = computeFitSpline(points, ends, (flags & CLOSED) !== 0);
  if (spline === null) return null;
  const kept = entity.filter(({ code }) => code !== CODES.knot && code !== CODES.degree);
  const added: [number, number][] = [
    [CODES.degree, spline.degree],
    ...spline.knots.map((knot): [number, number] => [CODES.knot, knot]),
    ...spline.controls.flatMap(({ x, y }): [number, number][] => [
      [CODES.control, x],
      [CODES.control + 10, y],
    ]),
  ];
  return [...kept, ...added.map(([code, value]) => ({ code, value: String(value) }))];
}

/** Points whose x has this code and whose y, ten higher, follows it. */
function readPoints(entity: readonly DxfPair[], code: number): Point[] {
  const points: { x: number; y: number }[] = [];
  for (const pair of entity) {
    const last = points.at(-1);
    if (pair.code === code) points.push({ x: Number(pair.value), y: 0 });
    else if (pair.code === code + 10 && last !== undefined) last.y = Number(pair.value);
  }
  return points;
}
