import type { FeatureRef } from '../findings/finding';
import { addArrow } from './dimensions';
import { addLine, addPath, addText, type Draft, TEXT_SIZES, toDrawing } from './draft';
import type { Point } from './marks';
import { getCircle, getPolygon } from './paths';

/** Zigzag that shows where a thing was cut short, as ISO 128 draws long breaks. */
export function addBreakLine(draft: Draft, from: Point, to: Point): void {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length <= 0) {
    return;
  }
  const u = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  const zig = Math.min(toDrawing(draft, 1.2), length / 6);
  const at = (along: number, aside: number): Point => ({
    x: from.x + u.x * along - u.y * aside,
    y: from.y + u.y * along + u.x * aside,
  });
  const middle = length / 2;
  addLine(
    draft,
    'note',
    [
      at(-zig, 0),
      at(middle - zig, 0),
      at(middle - zig / 2, zig * 1.4),
      at(middle + zig / 2, -zig * 1.4),
      at(middle + zig, 0),
      at(length + zig, 0),
    ],
    { pen: 'narrow' },
  );
}

/**
 * Symbol of the work zero: a circle with two opposite quarters filled, and the axes it sets.
 *
 * @param clear room kept free between symbol and label, mm of paper
 */
export function addZeroSymbol(draft: Draft, at: Point, label: string, clear = 1): void {
  const radius = toDrawing(draft, 1.5);
  const feature: FeatureRef = { kind: 'field', id: 'zero' };
  addPath(draft, 'note', getCircle(at.x, at.y, radius), { pen: 'narrow', fill: 'paper', feature });
  for (const start of [0, Math.PI]) {
    addPath(
      draft,
      'note',
      [
        { op: 'move', x: at.x, y: at.y },
        { op: 'line', x: at.x + radius * Math.cos(start), y: at.y + radius * Math.sin(start) },
        { op: 'arc', cx: at.x, cy: at.y, radius, start, end: start + Math.PI / 2 },
        { op: 'close' },
      ],
      { pen: 'none', fill: 'ink', feature },
    );
  }
  addText(draft, { x: at.x - radius - toDrawing(draft, clear), y: at.y - toDrawing(draft, 3.4) }, label, {
    anchor: 'end',
    size: TEXT_SIZES.small,
    weight: 'semibold',
    feature,
  });
}

/** Cutting-plane line across a view, arrows in the direction of sight (toward −X), and its letter at both ends. */
export function addSectionLine(draft: Draft, x: number, bottom: number, top: number, letter: string): void {
  const feature: FeatureRef = { kind: 'field', id: 'sectionX' };
  const thick = toDrawing(draft, 3);
  const arrow = toDrawing(draft, 4);
  addLine(
    draft,
    'section',
    [
      { x, y: bottom },
      { x, y: top },
    ],
    { pen: 'chain', feature },
  );
  for (const [end, inward] of [
    [bottom, 1],
    [top, -1],
  ] as const) {
    addLine(
      draft,
      'section',
      [
        { x, y: end },
        { x, y: end + inward * thick },
      ],
      { pen: 'wide', feature },
    );
    addLine(
      draft,
      'section',
      [
        { x, y: end },
        { x: x - arrow, y: end },
      ],
      { pen: 'narrow', feature },
    );
    addArrow(draft, { x: x - arrow, y: end }, { x: 1, y: 0 });
    addText(
      draft,
      { x: x + toDrawing(draft, 1.2), y: end - (inward < 0 ? toDrawing(draft, TEXT_SIZES.title) : 0) },
      letter,
      {
        layer: 'section',
        size: TEXT_SIZES.title,
        weight: 'semibold',
        feature,
      },
    );
  }
}

/** A short note with a leader that ends in a dot on the thing meant. */
export function addLeader(
  draft: Draft,
  target: Point,
  at: Point,
  text: string,
  feature: FeatureRef | null = null,
): void {
  const right = at.x >= target.x;
  const shelf = toDrawing(draft, right ? 2 : -2);
  addLine(draft, 'note', [target, { x: at.x - shelf, y: at.y }, at], { pen: 'narrow', feature });
  addPath(draft, 'note', getCircle(target.x, target.y, toDrawing(draft, 0.45)), { pen: 'none', fill: 'ink', feature });
  addText(
    draft,
    { x: at.x + toDrawing(draft, right ? 0.8 : -0.8), y: at.y - toDrawing(draft, TEXT_SIZES.text / 2) },
    text,
    { anchor: right ? 'start' : 'end', feature },
  );
}

/** Marks that show a severity by shape first: octagon stop, triangle check, ring note. */
export function addSeverityMark(
  draft: Draft,
  at: Point,
  severity: 'stop' | 'check' | 'note',
  size: number,
  feature: FeatureRef | null,
): void {
  const radius = toDrawing(draft, size / 2);
  if (severity === 'note') {
    addPath(draft, 'finding', getCircle(at.x, at.y, radius * 0.8), { pen: 'narrow', fill: 'paper', feature });
    return;
  }
  const corners = severity === 'stop' ? 8 : 3;
  const first = severity === 'stop' ? Math.PI / 8 : Math.PI / 2;
  const points = Array.from({ length: corners }, (_unused, index) => ({
    x: at.x + radius * Math.cos(first + (index * 2 * Math.PI) / corners),
    y: at.y + radius * Math.sin(first + (index * 2 * Math.PI) / corners),
  }));
  addPath(draft, 'finding', getPolygon(points), {
    pen: 'narrow',
    fill: severity === 'stop' ? 'ink' : 'paper',
    feature,
  });
}
