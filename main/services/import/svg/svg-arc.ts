import type { Point } from '../../../../shared/outline/point';
import type { OutlineShape } from '../../../../shared/outline/shapes';

/** An elliptical arc as a path gives it, y down. */
export interface EndpointArc {
  from: Point;
  to: Point;
  radiusX: number;
  radiusY: number;
  rotationRad: number;
  isLarge: boolean;
  isSweep: boolean;
}

/**
 * An arc given by its ends, by its centre. Radii too small to span the ends are grown; a radius of 0 makes a line.
 *
 * Source: W3C, SVG 2, appendix B.2, elliptical arc implementation notes (equations B.2.4).
 */
export function computeArcShape(arc: EndpointArc): OutlineShape {
  const { from, to, rotationRad } = arc;
  if (arc.radiusX === 0 || arc.radiusY === 0) return { kind: 'line', from, to };
  const [cos, sin] = [Math.cos(rotationRad), Math.sin(rotationRad)];
  const [halfX, halfY] = [(from.x - to.x) / 2, (from.y - to.y) / 2];
  const x = cos * halfX + sin * halfY;
  const y = -sin * halfX + cos * halfY;
  let [radiusX, radiusY] = [Math.abs(arc.radiusX), Math.abs(arc.radiusY)];
  const reach = (x / radiusX) ** 2 + (y / radiusY) ** 2;
  if (reach > 1) {
    radiusX *= Math.sqrt(reach);
    radiusY *= Math.sqrt(reach);
  }
  const below = (radiusX * y) ** 2 + (radiusY * x) ** 2;
  const above = Math.max(0, (radiusX * radiusY) ** 2 - below);
  const factor = (arc.isLarge === arc.isSweep ? -1 : 1) * Math.sqrt(above / below);
  const [centreX, centreY] = [(factor * radiusX * y) / radiusY, (-factor * radiusY * x) / radiusX];
  const centre = {
    x: cos * centreX - sin * centreY + (from.x + to.x) / 2,
    y: sin * centreX + cos * centreY + (from.y + to.y) / 2,
  };
  const startRad = Math.atan2((y - centreY) / radiusY, (x - centreX) / radiusX);
  const endRad = Math.atan2((-y - centreY) / radiusY, (-x - centreX) / radiusX);
  const sweepRad = getSweep(endRad - startRad, arc.isSweep);
  if (Math.abs(radiusX - radiusY) <= 1e-12 * radiusX) {
    return { kind: 'arc', centre, radius: radiusX, startAngleRad: startRad + rotationRad, sweepRad };
  }
  const axisA = { x: radiusX * cos, y: radiusX * sin };
  const axisB = { x: -radiusY * sin, y: radiusY * cos };
  return { kind: 'ellipse', centre, axisA, axisB, startRad, sweepRad };
}

function getSweep(differenceRad: number, isSweep: boolean): number {
  if (isSweep && differenceRad < 0) return differenceRad + 2 * Math.PI;
  if (!isSweep && differenceRad > 0) return differenceRad - 2 * Math.PI;
  return differenceRad;
}
