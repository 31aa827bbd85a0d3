import type { FeatureRef } from '../findings/finding';
import type { Hole } from '../model/plan';
import { addLine, addPath, type Draft, toDrawing } from './draft';
import type { Point, Segment } from './marks';
import { getCircle, getPolygon, getRuns, getSlot } from './paths';

/** Where there is metal, mm of the view. */
export interface Metal {
  left: number;
  right: number;
  bottom: number;
  top: number;
}

/** What a hole belongs to, and how far its centre lines stand out, mm of paper. */
export interface HoleLook {
  feature: FeatureRef;
  beyond: number;
}

const LEAST = 1e-6;

/** A hole seen along its axis, with its centre lines; nothing where there is no metal round it. */
export function addRoundHole(draft: Draft, centre: Point, hole: Hole, metal: Metal, look: HoleLook): void {
  const outline = getHoleOutline(centre, hole, metal);
  if (outline.length === 0) {
    return;
  }
  const { x, y } = centre;
  const beyond = toDrawing(draft, look.beyond);
  const radius = hole.diameter / 2;
  const reach = radius + hole.slotLength / 2 + beyond;
  addPath(draft, 'bore', outline, { pen: 'wide', fill: 'paper', feature: look.feature });
  addCentreLine(draft, { x: x - reach, y }, { x: x + reach, y });
  addCentreLine(draft, { x, y: y - radius - beyond }, { x, y: y + radius + beyond });
}

/** A hole seen across its axis, as hidden lines from the lower to the upper side of the metal. */
export function addHiddenHole(draft: Draft, x: number, hole: Hole, metal: Metal, look: HoleLook): void {
  const half = (hole.diameter + hole.slotLength) / 2;
  const { left, right, bottom, top } = metal;
  for (const side of [x - half, x + half]) {
    if (side > left - LEAST && side < right + LEAST) {
      const line = [
        { x: side, y: bottom },
        { x: side, y: top },
      ];
      addLine(draft, 'bore', line, { pen: 'dashed', feature: look.feature });
    }
  }
  if (x > left && x < right) {
    const beyond = toDrawing(draft, look.beyond);
    addCentreLine(draft, { x, y: bottom - beyond }, { x, y: top + beyond });
  }
}

function addCentreLine(draft: Draft, from: Point, to: Point): void {
  addLine(draft, 'centre', [from, to], { pen: 'chain' });
}

/** A hole seen along its axis, as far as there is metal round it; empty for one that lies wholly outside. */
export function getHoleOutline(centre: Point, { diameter, slotLength }: Hole, metal: Metal): Segment[] {
  const radius = diameter / 2;
  const whole =
    slotLength > 0 ? getSlot(centre.x, centre.y, slotLength, radius) : getCircle(centre.x, centre.y, radius);
  const reach = radius + slotLength / 2;
  const isInside =
    centre.x - reach >= metal.left - LEAST &&
    centre.x + reach <= metal.right + LEAST &&
    centre.y - radius >= metal.bottom - LEAST &&
    centre.y + radius <= metal.top + LEAST;
  if (isInside) {
    return whole;
  }
  const clipped = getRuns(whole).flatMap((run) => clip(run.points, metal));
  return clipped.length < 3 ? [] : getPolygon(clipped);
}

/** A convex outline inside a rectangle: cut along one side after the other (Sutherland and Hodgman, 1974). */
function clip(outline: readonly Point[], { left, right, bottom, top }: Metal): Point[] {
  const sides: readonly ((point: Point) => number)[] = [
    (point) => point.x - left,
    (point) => right - point.x,
    (point) => point.y - bottom,
    (point) => top - point.y,
  ];
  return sides.reduce<readonly Point[]>(cutAlong, outline).slice();
}

function cutAlong(outline: readonly Point[], getDepth: (point: Point) => number): Point[] {
  return outline.flatMap((point, index) => {
    const before = outline.at(index - 1) ?? point;
    const depth = getDepth(point);
    const depthBefore = getDepth(before);
    const kept = depth >= 0 ? [point] : [];
    if (depth >= 0 === depthBefore >= 0) {
      return kept;
    }
    const share = depthBefore / (depthBefore - depth);
    const crossing = { x: before.x + (point.x - before.x) * share, y: before.y + (point.y - before.y) * share };
    return [crossing, ...kept];
  });
}
