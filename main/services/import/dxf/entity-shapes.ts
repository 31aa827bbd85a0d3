import { type Affine, getScale, IDENTITY } from '../../../../shared/outline/affine';
import { buildPolylineShapes } from '../../../../shared/outline/bulge';
import { isFiniteShape } from '../../../../shared/outline/flatten';
import type { Point } from '../../../../shared/outline/point';
import type { OutlineShape } from '../../../../shared/outline/shapes';
import { getSplineFault } from '../../../../shared/outline/spline';
import { type DxfRecord, getNumber, getNumbers, getRecords } from './dxf-fields';

/** Shapes of an entity in the coordinates of its drawing or block, or why there are none (words after "skipped:"). */
export type EntityShapes = { shapes: OutlineShape[] } | { reason: string };

/** A normal that stands this near to straight up or down counts as such. */
const UPRIGHT_WITHIN = 1e-6;

/**
 * How an entity's own plane lies in the drawing. A normal that points away from the viewer mirrors x.
 *
 * Source: DXF reference, object coordinate systems and the arbitrary axis algorithm: for the normal (0, 0, -1) the axes are
 * (-1, 0, 0) and (0, 1, 0).
 *
 * @returns null when the plane is tilted
 */
export function getEntityPlane(entity: DxfRecord): Affine | null {
  const [x, y, z] = [
    getNumber(entity, 'extrusionX', 0),
    getNumber(entity, 'extrusionY', 0),
    getNumber(entity, 'extrusionZ', 1),
  ];
  const size = Math.hypot(x, y, z);
  if (!(Math.hypot(x, y) <= UPRIGHT_WITHIN * size) || size === 0) return null;
  return z < 0 ? getScale(-1, 1) : IDENTITY;
}

/** A line whose ends differ more than this in z is none of an outline, file units. */
const FLAT_WITHIN = 1e-6;

type ShapeReader = (entity: DxfRecord) => EntityShapes;

const READERS: Readonly<Record<string, ShapeReader>> = {
  LINE: readLine,
  ARC: (entity) => readArc(entity, false),
  CIRCLE: (entity) => readArc(entity, true),
  ELLIPSE: readEllipse,
  SPLINE: readSpline,
  LWPOLYLINE: readPolyline,
  POLYLINE: readPolyline,
};

/** The kinds of entity that shapes are read from. */
export const READ_TYPES: ReadonlySet<string> = new Set(Object.keys(READERS));

/** Kinds whose points are in drawing coordinates whatever their normal; the others are in their own plane. */
export const WORLD_TYPES: ReadonlySet<string> = new Set(['LINE', 'ELLIPSE', 'SPLINE']);

/** Shapes of one entity, in its own plane's coordinates for the kinds that have one. */
export function readEntityShapes(type: string, entity: DxfRecord): EntityShapes {
  const read = READERS[type];
  if (read === undefined) return { reason: 'not a kind that outlines are drawn with' };
  const result = read(entity);
  if ('shapes' in result && !result.shapes.every(isFiniteShape)) return { reason: 'a figure in it is no number' };
  return result;
}

function getPoint(record: DxfRecord, x = 'x', y = 'y'): Point {
  return { x: getNumber(record, x, 0), y: getNumber(record, y, 0) };
}

function readLine(entity: DxfRecord): EntityShapes {
  const [start, end] = [entity.start, entity.end] as [DxfRecord, DxfRecord];
  const rise = getNumber(end, 'z', 0) - getNumber(start, 'z', 0);
  if (Math.abs(rise) > FLAT_WITHIN) return { reason: 'it rises out of the plane of the drawing' };
  return { shapes: [{ kind: 'line', from: getPoint(start), to: getPoint(end) }] };
}

function readArc(entity: DxfRecord, isWhole: boolean): EntityShapes {
  const radius = getNumber(entity, 'r');
  if (!(radius > 0)) return { reason: 'a radius in it is not above zero' };
  const startAngleRad = isWhole ? 0 : getNumber(entity, 'startAngle', 0);
  const sweepRad = isWhole ? 2 * Math.PI : getAnticlockwise(startAngleRad, getNumber(entity, 'endAngle', 0));
  return { shapes: [{ kind: 'arc', centre: getPoint(entity), radius, startAngleRad, sweepRad }] };
}

/** From one angle round to another, over 0 and up to a full turn: equal angles are a whole circle. */
function getAnticlockwise(fromRad: number, toRad: number): number {
  const turn = (toRad - fromRad) % (2 * Math.PI);
  return turn <= 1e-12 ? turn + 2 * Math.PI : turn;
}

/** The minor axis is the normal crossed with the major one, times the ratio. Source: DXF reference, ELLIPSE. */
function readEllipse(entity: DxfRecord): EntityShapes {
  const axisA = getPoint(entity, 'majorX', 'majorY');
  const ratio = getNumber(entity, 'axisRatio', 1);
  if (!(Math.hypot(axisA.x, axisA.y) > 0) || !(Math.abs(ratio) > 0)) return { reason: 'an axis of it has no length' };
  const side = getNumber(entity, 'extrusionZ', 1) < 0 ? -1 : 1;
  const startRad = getNumber(entity, 'startAngle', 0);
  const sweepRad = getAnticlockwise(startRad, getNumber(entity, 'endAngle', 2 * Math.PI));
  const axisB = { x: -axisA.y * ratio * side, y: axisA.x * ratio * side };
  return { shapes: [{ kind: 'ellipse', centre: getPoint(entity), axisA, axisB, startRad, sweepRad }] };
}

function readSpline(entity: DxfRecord): EntityShapes {
  const controls = getRecords(entity, 'controlPoints').map((point) => getPoint(point));
  const written = getNumbers(entity, 'weights');
  const weights = written.length === 0 ? controls.map(() => 1) : written;
  const shape = {
    kind: 'spline' as const,
    degree: getNumber(entity, 'degree', 3),
    knots: getNumbers(entity, 'knots'),
    controls,
    weights,
  };
  const fault = getSplineFault(shape);
  return fault === null ? { shapes: [shape] } : { reason: `a spline ${fault}` };
}

function readPolyline(entity: DxfRecord): EntityShapes {
  if (entity.polygonMesh === true || entity.polyfaceMesh === true) return { reason: 'a mesh' };
  const corners = getRecords(entity, 'vertices').map((vertex) => ({
    ...getPoint(vertex),
    bulge: getNumber(vertex, 'bulge', 0),
  }));
  if (corners.length < 2) return { reason: 'a polyline with fewer than two points' };
  return { shapes: buildPolylineShapes(corners, entity.closed === true) };
}
