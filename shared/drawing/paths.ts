import type { Point, Segment } from './marks';

/** A closed rectangle between two opposite corners. */
export function getRectangle(left: number, bottom: number, right: number, top: number): Segment[] {
  return getPolygon([
    { x: left, y: bottom },
    { x: right, y: bottom },
    { x: right, y: top },
    { x: left, y: top },
  ]);
}

/** An open line through the points. */
export function getPolyline(points: readonly Point[]): Segment[] {
  return points.map((point, index) => ({ op: index === 0 ? 'move' : 'line', x: point.x, y: point.y }));
}

/** A closed outline through the points. */
export function getPolygon(points: readonly Point[]): Segment[] {
  return points.length === 0 ? [] : [...getPolyline(points), { op: 'close' }];
}

/** A full circle, counter-clockwise from 3 o'clock. */
export function getCircle(cx: number, cy: number, radius: number): Segment[] {
  return [
    { op: 'move', x: cx + radius, y: cy },
    { op: 'arc', cx, cy, radius, start: 0, end: 2 * Math.PI },
    { op: 'close' },
  ];
}

/** A slot with round ends, its straight part `straight` long along X about the centre. */
export function getSlot(cx: number, cy: number, straight: number, radius: number): Segment[] {
  const half = straight / 2;
  return [
    { op: 'move', x: cx - half, y: cy - radius },
    { op: 'line', x: cx + half, y: cy - radius },
    { op: 'arc', cx: cx + half, cy, radius, start: -Math.PI / 2, end: Math.PI / 2 },
    { op: 'line', x: cx - half, y: cy + radius },
    { op: 'arc', cx: cx - half, cy, radius, start: Math.PI / 2, end: (3 * Math.PI) / 2 },
    { op: 'close' },
  ];
}

/** One continuous run of a path as points. */
export interface Run {
  points: Point[];
  closed: boolean;
}

/**
 * The path as straight runs; arcs and curves become chords.
 *
 * @param tolerance largest distance between a chord and its arc, mm
 */
export function getRuns(segments: readonly Segment[], tolerance = 0.02): Run[] {
  const runs: Run[] = [];
  let run: Run = { points: [], closed: false };
  const finish = (): void => {
    if (run.points.length > 1) {
      runs.push(run);
    }
    run = { points: [], closed: false };
  };
  for (const segment of segments) {
    switch (segment.op) {
      case 'move':
        finish();
        run.points.push({ x: segment.x, y: segment.y });
        break;
      case 'line':
        run.points.push({ x: segment.x, y: segment.y });
        break;
      case 'arc':
        run.points.push(...getArcPoints(segment, tolerance));
        break;
      case 'curve':
        run.points.push(...getCurvePoints(run.points.at(-1) ?? { x: segment.x1, y: segment.y1 }, segment));
        break;
      case 'close':
        run.closed = true;
        finish();
        break;
      default:
        segment satisfies never;
    }
  }
  finish();
  return runs;
}

/** Where an arc begins and ends. */
export function getArcEnd(arc: Segment & { op: 'arc' }, angleRad: number): Point {
  return { x: arc.cx + arc.radius * Math.cos(angleRad), y: arc.cy + arc.radius * Math.sin(angleRad) };
}

/**
 * An arc as cubic curves of at most a quarter turn each (error under 3 parts in 10,000 of the radius).
 *
 * @returns segments that continue from the arc's start
 */
export function getArcCurves(arc: Segment & { op: 'arc' }): (Segment & { op: 'curve' })[] {
  const turn = arc.end - arc.start;
  const count = Math.max(1, Math.ceil(Math.abs(turn) / (Math.PI / 2) - 1e-9));
  const step = turn / count;
  const handle = (4 / 3) * Math.tan(step / 4) * arc.radius;
  return Array.from({ length: count }, (_unused, index) => {
    const from = arc.start + index * step;
    const to = from + step;
    const start = getArcEnd(arc, from);
    const end = getArcEnd(arc, to);
    return {
      op: 'curve',
      x1: start.x - handle * Math.sin(from),
      y1: start.y + handle * Math.cos(from),
      x2: end.x + handle * Math.sin(to),
      y2: end.y - handle * Math.cos(to),
      x: end.x,
      y: end.y,
    };
  });
}

function getArcPoints(arc: Segment & { op: 'arc' }, tolerance: number): Point[] {
  const turn = arc.end - arc.start;
  const flat = Math.min(1, Math.max(1e-9, tolerance / Math.max(arc.radius, 1e-9)));
  const count = Math.min(360, Math.max(2, Math.ceil(Math.abs(turn) / (2 * Math.acos(1 - flat)))));
  return Array.from({ length: count + 1 }, (_unused, index) => getArcEnd(arc, arc.start + (turn * index) / count));
}

const CURVE_CHORDS = 24;

function getCurvePoints(from: Point, curve: Segment & { op: 'curve' }): Point[] {
  return Array.from({ length: CURVE_CHORDS }, (_unused, index) => {
    const t = (index + 1) / CURVE_CHORDS;
    const u = 1 - t;
    const [a, b, c, d] = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
    return {
      x: a * from.x + b * curve.x1 + c * curve.x2 + d * curve.x,
      y: a * from.y + b * curve.y1 + c * curve.y2 + d * curve.y,
    };
  });
}

/** The path moved and scaled: each coordinate times `scale`, then shifted. Angles are kept. */
export function getPlaced(segments: readonly Segment[], scale: number, dx: number, dy: number): Segment[] {
  const x = (value: number): number => value * scale + dx;
  const y = (value: number): number => value * scale + dy;
  return segments.map((segment) => {
    switch (segment.op) {
      case 'move':
      case 'line':
        return { ...segment, x: x(segment.x), y: y(segment.y) };
      case 'arc':
        return { ...segment, cx: x(segment.cx), cy: y(segment.cy), radius: segment.radius * scale };
      case 'curve':
        return {
          op: 'curve',
          x1: x(segment.x1),
          y1: y(segment.y1),
          x2: x(segment.x2),
          y2: y(segment.y2),
          x: x(segment.x),
          y: y(segment.y),
        };
      case 'close':
        return segment;
      default:
        return segment satisfies never;
    }
  });
}
