import type { Point } from './point';
import type { OutlineShape } from './shapes';

/** A change of place: `x' = a x + c y + e`, `y' = b x + d y + f`. */
export interface Affine {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

export const IDENTITY: Affine = { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 };

/** How far the two axes may differ in length, and from square, for circles to stay circles. */
const SIMILAR_WITHIN = 1e-9;

/** First `inner`, then `outer`. */
export function composeAffine(outer: Affine, inner: Affine): Affine {
  return {
    a: outer.a * inner.a + outer.c * inner.b,
    b: outer.b * inner.a + outer.d * inner.b,
    c: outer.a * inner.c + outer.c * inner.d,
    d: outer.b * inner.c + outer.d * inner.d,
    e: outer.a * inner.e + outer.c * inner.f + outer.e,
    f: outer.b * inner.e + outer.d * inner.f + outer.f,
  };
}

export function getMove(x: number, y: number): Affine {
  return { ...IDENTITY, e: x, f: y };
}

export function getScale(x: number, y: number): Affine {
  return { ...IDENTITY, a: x, d: y };
}

/** @param angleRad anticlockwise */
export function getTurn(angleRad: number): Affine {
  const cos = Math.cos(angleRad);
  const sin = Math.sin(angleRad);
  return { a: cos, b: sin, c: -sin, d: cos, e: 0, f: 0 };
}

export function applyAffine(by: Affine, { x, y }: Point): Point {
  return { x: by.a * x + by.c * y + by.e, y: by.b * x + by.d * y + by.f };
}

/** Turns and stretches a direction, without the move. */
function applyToDirection(by: Affine, { x, y }: Point): Point {
  return { x: by.a * x + by.c * y, y: by.b * x + by.d * y };
}

/** How much areas grow; negative when left and right change places. */
export function getDeterminant({ a, b, c, d }: Affine): number {
  return a * d - b * c;
}

/** True when circles stay circles. */
function isSimilarity({ a, b, c, d }: Affine): boolean {
  const first = Math.hypot(a, b);
  const second = Math.hypot(c, d);
  const largest = Math.max(first, second);
  return (
    Math.abs(first - second) <= SIMILAR_WITHIN * largest && Math.abs(a * c + b * d) <= SIMILAR_WITHIN * largest ** 2
  );
}

/** The shape put elsewhere; exact: an arc that is stretched unevenly becomes an arc of an ellipse. */
export function transformShape(by: Affine, shape: OutlineShape): OutlineShape {
  switch (shape.kind) {
    case 'line':
      return { kind: 'line', from: applyAffine(by, shape.from), to: applyAffine(by, shape.to) };
    case 'spline':
      return { ...shape, controls: shape.controls.map((control) => applyAffine(by, control)) };
    case 'ellipse':
      return {
        ...shape,
        centre: applyAffine(by, shape.centre),
        axisA: applyToDirection(by, shape.axisA),
        axisB: applyToDirection(by, shape.axisB),
      };
    case 'arc': {
      if (!isSimilarity(by)) {
        const { centre, radius, startAngleRad, sweepRad } = shape;
        const ellipse = { axisA: { x: radius, y: 0 }, axisB: { x: 0, y: radius }, startRad: startAngleRad, sweepRad };
        return transformShape(by, { kind: 'ellipse', centre, ...ellipse });
      }
      const start = applyToDirection(by, { x: Math.cos(shape.startAngleRad), y: Math.sin(shape.startAngleRad) });
      return {
        kind: 'arc',
        centre: applyAffine(by, shape.centre),
        radius: shape.radius * Math.hypot(by.a, by.b),
        startAngleRad: Math.atan2(start.y, start.x),
        sweepRad: getDeterminant(by) < 0 ? -shape.sweepRad : shape.sweepRad,
      };
    }
    default:
      return shape satisfies never;
  }
}
