import type { Point } from './point';

/** What outlines are read into, in the file's units, y up. Every kind stays its kind under a change of place (`transformShape`). */
export type OutlineShape = LineShape | ArcShape | EllipseShape | SplineShape;

export interface LineShape {
  readonly kind: 'line';
  readonly from: Point;
  readonly to: Point;
}

export interface ArcShape {
  readonly kind: 'arc';
  readonly centre: Point;
  readonly radius: number;
  readonly startAngleRad: number;
  /** Anticlockwise when positive; 2π either way is a whole circle. */
  readonly sweepRad: number;
}

/** Points `centre + axisA cos t + axisB sin t` for t from `startRad` over `sweepRad`; the axes need not be square to each other. */
export interface EllipseShape {
  readonly kind: 'ellipse';
  readonly centre: Point;
  readonly axisA: Point;
  readonly axisB: Point;
  readonly startRad: number;
  readonly sweepRad: number;
}

/** A rational B-spline. `knots` has `controls + degree + 1` values that never fall. */
export interface SplineShape {
  readonly kind: 'spline';
  readonly degree: number;
  readonly knots: readonly number[];
  readonly controls: readonly Point[];
  /** One for each control point, all above zero. */
  readonly weights: readonly number[];
}

/** One shape of a drawing and the layer it stands on. */
export interface OutlineEntity {
  readonly shape: OutlineShape;
  /** '' where the file has no layers. */
  readonly layer: string;
}

/** Full turn, with room for rounding. */
const FULL_TURN = 2 * Math.PI - 1e-9;

export function isFullCircle(shape: OutlineShape): shape is ArcShape {
  return shape.kind === 'arc' && Math.abs(shape.sweepRad) >= FULL_TURN;
}
