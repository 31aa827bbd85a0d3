import type { Point } from './point';
import type { SplineShape } from './shapes';

/** Higher ones are not met in drawings, and their cost grows with the square. */
const HIGHEST_DEGREE = 11;

interface Weighted {
  x: number;
  y: number;
  w: number;
}

/** Why a spline cannot be drawn, in words that follow "a spline", or null when it can. */
export function getSplineFault({ degree, knots, controls, weights }: SplineShape): string | null {
  if (controls.length === 0) return 'with too few points';
  if (!Number.isInteger(degree) || degree < 1 || degree > HIGHEST_DEGREE) return 'of a degree that is not read';
  if (controls.length <= degree) return 'with too few control points';
  if (knots.length !== controls.length + degree + 1) return 'whose knots do not fit its control points';
  if (knots.some((knot, index) => !Number.isFinite(knot) || knot < (knots[index - 1] ?? knot))) {
    return 'whose knots do not rise';
  }
  if (weights.length !== controls.length || weights.some((weight) => !Number.isFinite(weight) || weight <= 0)) {
    return 'whose weights are not above zero';
  }
  const [start, end] = getSplineDomain({ degree, knots, controls });
  return end > start ? null : 'without length';
}

/** The knots a spline runs between. */
export function getSplineDomain({ degree, knots, controls }: Pick<SplineShape, 'degree' | 'knots' | 'controls'>) {
  return [knots[degree] ?? 0, knots[controls.length] ?? 0] as const;
}

/** The knots inside the domain, each once, with both ends: between them the curve is smooth. */
export function getSplineSpans(shape: SplineShape): number[] {
  const [start, end] = getSplineDomain(shape);
  return [...new Set([start, ...shape.knots.filter((knot) => knot > start && knot < end), end])];
}

/**
 * A point of a rational B-spline, by de Boor's triangle on weighted points.
 *
 * Source: C. de Boor, A Practical Guide to Splines (rev. ed. 2001), chapter X; L. Piegl and W. Tiller, The NURBS
 * Book (2nd ed. 1997), section 4.1, for the weights.
 *
 * @param shape without a fault (`getSplineFault`)
 * @param at knot value; taken to the nearer end when outside the domain
 */
export function getSplinePoint(shape: SplineShape, at: number): Point {
  const { degree, knots, controls, weights } = shape;
  const [start, end] = getSplineDomain(shape);
  const t = Math.min(Math.max(at, start), end);
  const span = findSpan(shape, t);
  const row: Weighted[] = [];
  for (let index = span - degree; index <= span; index += 1) {
    const w = weights[index] ?? 1;
    row.push({ x: (controls[index]?.x ?? 0) * w, y: (controls[index]?.y ?? 0) * w, w });
  }
  for (let level = 1; level <= degree; level += 1) {
    for (let place = degree; place >= level; place -= 1) {
      const low = knots[span - degree + place] ?? 0;
      const high = knots[span + 1 + place - level] ?? 0;
      const share = high > low ? (t - low) / (high - low) : 0;
      row[place] = blend(row[place - 1], row[place], share);
    }
  }
  const { x, y, w } = row[degree] ?? { x: 0, y: 0, w: 1 };
  return { x: x / w, y: y / w };
}

function blend(a: Weighted | undefined, b: Weighted | undefined, share: number): Weighted {
  if (a === undefined || b === undefined) return a ?? b ?? { x: 0, y: 0, w: 1 };
  return { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share, w: a.w + (b.w - a.w) * share };
}

/** Index of the last knot at or before `t` that has a stretch after it. */
function findSpan({ degree, knots, controls }: SplineShape, t: number): number {
  let low = degree;
  let high = controls.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((knots[middle] ?? 0) <= t) low = middle;
    else high = middle - 1;
  }
  // At the domain's end the last stretches may be empty.
  while (low > degree && knots[low] === knots[low + 1]) low -= 1;
  return low;
}
