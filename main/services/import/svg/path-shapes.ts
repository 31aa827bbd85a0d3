import svgpath from 'svgpath';
import { getDistance, type Point } from '../../../../shared/outline/point';
import type { OutlineShape } from '../../../../shared/outline/shapes';
import { computeArcShape } from './svg-arc';

export interface PathShapes {
  shapes: OutlineShape[];
  /** True when the path breaks off at a fault; what stands before it is given, as the standard asks. */
  isBroken: boolean;
}

const MOST_COMMANDS = 200_000;

/**
 * The shapes of a path's data, in its own coordinates, y down. Curves become splines that are exactly the same.
 *
 * Source: W3C, SVG 2, chapter 9, path data.
 */
export function parsePathShapes(data: string): PathShapes {
  const path = svgpath(data.slice(0, LONGEST_DATA)).abs().unshort();
  const isBroken = data.length > LONGEST_DATA || Boolean((path as { err?: string }).err);
  const shapes: OutlineShape[] = [];
  let at: Point = { x: 0, y: 0 };
  let start = at;
  let count = 0;
  path.iterate((segment) => {
    count += 1;
    if (count > MOST_COMMANDS) return;
    const [command, ...figures] = segment as readonly [string, ...number[]];
    const to = getEnd(command, figures, at, start);
    if (command === 'M') start = to;
    else shapes.push(...buildShape(command, figures, at, to));
    at = to;
  });
  return { shapes, isBroken: isBroken || count > MOST_COMMANDS };
}

const LONGEST_DATA = 8_000_000;

function getEnd(command: string, figures: readonly number[], at: Point, start: Point): Point {
  if (command === 'Z' || command === 'z') return start;
  const [x = 0, y = 0] = figures.slice(-2);
  if (command === 'H') return { x: figures[0] ?? 0, y: at.y };
  if (command === 'V') return { x: at.x, y: figures[0] ?? 0 };
  return { x, y };
}

function buildShape(command: string, figures: readonly number[], from: Point, to: Point): OutlineShape[] {
  const [a = 0, b = 0, c = 0, d = 0, e = 0] = figures;
  switch (command) {
    case 'C':
      return [buildBezier([from, { x: a, y: b }, { x: c, y: d }, to])];
    case 'Q':
      return [buildBezier([from, { x: a, y: b }, to])];
    case 'A': {
      if (getDistance(from, to) === 0) return [];
      const rotationRad = (c * Math.PI) / 180;
      return [computeArcShape({ from, to, radiusX: a, radiusY: b, rotationRad, isLarge: d !== 0, isSweep: e !== 0 })];
    }
    default:
      return getDistance(from, to) === 0 ? [] : [{ kind: 'line', from, to }];
  }
}

/** A Bézier curve is the B-spline whose only knots are its two ends. */
function buildBezier(controls: readonly Point[]): OutlineShape {
  const degree = controls.length - 1;
  const knots = [...controls.map(() => 0), ...controls.map(() => 1)];
  return { kind: 'spline', degree, knots, controls, weights: controls.map(() => 1) };
}
