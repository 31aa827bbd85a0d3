import type { FeatureRef } from '../findings/finding';
import { addLine, addPath, addText, type Draft, TEXT_SIZES, toDrawing } from './draft';
import type { Point } from './marks';
import { getCircle } from './paths';
import { spreadLabels } from './spread-labels';

export interface Callout {
  /** What is meant. */
  target: Point;
  text: string;
  feature: FeatureRef | null;
}

const SHELF = 2;
const GAP = 1.4;

/**
 * A column of notes beside a drawing, each with a leader to what it means, spread so that none touches another.
 *
 * @param x where the notes begin (`right`) or end (`left`)
 */
export function addCallouts(draft: Draft, callouts: readonly Callout[], x: number, side: 'left' | 'right'): void {
  const sorted = callouts.toSorted((a, b) => a.target.y - b.target.y);
  const size = toDrawing(draft, TEXT_SIZES.text);
  const heights = spreadLabels(
    sorted.map((callout) => ({ at: callout.target.y, size })),
    toDrawing(draft, GAP),
  );
  const inward = side === 'left' ? 1 : -1;
  for (const [index, { target, text, feature }] of sorted.entries()) {
    const y = heights[index] ?? target.y;
    const elbow = { x: x + inward * toDrawing(draft, SHELF), y };
    addLine(draft, 'note', [target, elbow, { x: x + inward * toDrawing(draft, 0.6), y }], { pen: 'narrow', feature });
    addPath(draft, 'note', getCircle(target.x, target.y, toDrawing(draft, 0.5)), { pen: 'none', fill: 'ink', feature });
    addText(draft, { x, y: y - size / 2 }, text, { anchor: side === 'left' ? 'end' : 'start', feature });
  }
}
