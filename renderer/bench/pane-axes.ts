import type { Point } from '../../shared/drawing/marks';
import type { Mover } from './gestures/mover';
import type { PaneName } from './panes';

/** Which axis of the plan's frame runs to the right and up in each view; null where none does. */
export const PANE_AXES: Readonly<Record<PaneName, { readonly x: 'X' | 'Y' | null; readonly y: 'Y' | 'Z' }>> = {
  elevation: { x: 'X', y: 'Z' },
  plan: { x: 'X', y: 'Y' },
  section: { x: 'Y', y: 'Z' },
  stack: { x: null, y: 'Z' },
};

/** The coordinate of a point of a view along the mover's axis; null where the view does not show that axis. */
export function getCoordinate(pane: PaneName, axis: Mover['axis'], point: Point): number | null {
  if (PANE_AXES[pane].x === axis) return point.x;
  return PANE_AXES[pane].y === axis ? point.y : null;
}

/** A shift along the mover's axis as a shift of a view's marks. */
export function getPaneShift(pane: PaneName, axis: Mover['axis'], by: number): Point {
  return { x: PANE_AXES[pane].x === axis ? by : 0, y: PANE_AXES[pane].y === axis ? by : 0 };
}
