/** A place in the plane of an outline; x to the right, y up. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

export function getDistance(a: Point, b: Point): number {
  return Math.hypot(b.x - a.x, b.y - a.y);
}

export function getMiddle(a: Point, b: Point): Point {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}

/** The place on a circle at an angle from +x, anticlockwise. */
export function getOnCircle(centre: Point, radius: number, angleRad: number): Point {
  return { x: centre.x + radius * Math.cos(angleRad), y: centre.y + radius * Math.sin(angleRad) };
}

export function isFinitePoint(point: Point): boolean {
  return Number.isFinite(point.x) && Number.isFinite(point.y);
}
