import { type Affine, getMove, transformShape } from '../../../../shared/outline/affine';
import type { Point } from '../../../../shared/outline/point';
import type { OutlineShape } from '../../../../shared/outline/shapes';
import { parsePathShapes } from './path-shapes';
import { parseSvgLength, parseSvgNumbers } from './svg-lengths';
import type { XmlElement } from './xml-tree';

/** Shapes of an element in its own coordinates, y down; `fault` says what of it could not be read. */
export interface ElementShapes {
  shapes: OutlineShape[];
  fault: string | null;
}

type Attributes = XmlElement['attributes'];

const READERS: Readonly<Record<string, (attributes: Attributes) => ElementShapes>> = {
  path: readPath,
  line: ({ x1, y1, x2, y2 }) => {
    const [from, to] = [getPoint(x1, y1), getPoint(x2, y2)];
    return { shapes: [{ kind: 'line', from, to }], fault: null };
  },
  polyline: ({ points }) => readPoints(points, false),
  polygon: ({ points }) => readPoints(points, true),
  rect: readRect,
  circle: ({ cx, cy, r }) => readEllipse(cx, cy, r, r),
  ellipse: ({ cx, cy, rx, ry }) => readEllipse(cx, cy, rx, ry),
};

export const SHAPE_NAMES: ReadonlySet<string> = new Set(Object.keys(READERS));

export function readElementShapes({ name, attributes }: XmlElement): ElementShapes {
  return READERS[name]?.(attributes) ?? { shapes: [], fault: 'not a kind that outlines are drawn with' };
}

function getLength(text: string | undefined, fallback = 0): number {
  return parseSvgLength(text)?.value ?? fallback;
}

function getPoint(x: string | undefined, y: string | undefined): Point {
  return { x: getLength(x), y: getLength(y) };
}

function readPath({ d = '' }: Attributes): ElementShapes {
  const { shapes, isBroken } = parsePathShapes(d);
  if (shapes.length === 0) return { shapes, fault: 'its path draws nothing' };
  return { shapes, fault: isBroken ? 'its path is faulty; what stands before the fault was read' : null };
}

function readPoints(text: string | undefined, isClosed: boolean): ElementShapes {
  const numbers = parseSvgNumbers(text);
  const points: Point[] = [];
  for (let index = 0; index + 1 < numbers.length; index += 2) {
    points.push({ x: numbers[index] ?? 0, y: numbers[index + 1] ?? 0 });
  }
  const shapes = points.slice(1).map((to, index) => ({ kind: 'line' as const, from: points[index] ?? to, to }));
  const [first, last] = [points[0], points.at(-1)];
  if (isClosed && first !== undefined && last !== undefined) shapes.push({ kind: 'line', from: last, to: first });
  return { shapes, fault: points.length < 2 ? 'it has fewer than two points' : null };
}

/** Source: W3C, SVG 2, section 10.2: a missing corner radius takes the other's, and neither passes half a side. */
function readRect({ x, y, width, height, rx, ry }: Attributes): ElementShapes {
  const [w, h] = [getLength(width), getLength(height)];
  if (!(w > 0 && h > 0)) return { shapes: [], fault: 'a side of it has no length' };
  const radiusX = Math.min(getLength(rx, getLength(ry)), w / 2);
  const radiusY = Math.min(getLength(ry, getLength(rx)), h / 2);
  const data =
    radiusX > 0 && radiusY > 0
      ? `M${radiusX} 0H${w - radiusX}A${radiusX} ${radiusY} 0 0 1 ${w} ${radiusY}V${h - radiusY}` +
        `A${radiusX} ${radiusY} 0 0 1 ${w - radiusX} ${h}H${radiusX}A${radiusX} ${radiusY} 0 0 1 0 ${h - radiusY}` +
        `V${radiusY}A${radiusX} ${radiusY} 0 0 1 ${radiusX} 0Z`
      : `M0 0H${w}V${h}H0Z`;
  const corner: Affine = getMove(getLength(x), getLength(y));
  return { shapes: parsePathShapes(data).shapes.map((shape) => transformShape(corner, shape)), fault: null };
}

function readEllipse(
  cx: string | undefined,
  cy: string | undefined,
  rx: string | undefined,
  ry: string | undefined,
): ElementShapes {
  const [radiusX, radiusY] = [getLength(rx, getLength(ry)), getLength(ry, getLength(rx))];
  if (!(radiusX > 0 && radiusY > 0)) return { shapes: [], fault: 'a radius of it is not above zero' };
  const centre = getPoint(cx, cy);
  const turn = { startRad: 0, sweepRad: 2 * Math.PI };
  if (radiusX === radiusY) {
    return {
      shapes: [{ kind: 'arc', centre, radius: radiusX, startAngleRad: 0, sweepRad: 2 * Math.PI }],
      fault: null,
    };
  }
  const axes = { axisA: { x: radiusX, y: 0 }, axisB: { x: 0, y: radiusY } };
  return { shapes: [{ kind: 'ellipse', centre, ...axes, ...turn }], fault: null };
}
