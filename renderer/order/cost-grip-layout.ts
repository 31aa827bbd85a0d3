import type { SectionRow } from '../../shared/engine/results';

export interface CostGripPoint {
  readonly row: SectionRow;
  readonly x: number;
  readonly y: number;
  /** Where its name stands: right of the point, or left of it near the right edge. */
  readonly anchor: 'start' | 'end';
  /** Moved down so that names do not lie over one another; the point itself stays. */
  readonly labelY: number;
  readonly hasLabel: boolean;
}

export interface CostGripLayout {
  readonly points: readonly CostGripPoint[];
  readonly xTicks: readonly { readonly at: number; readonly value: number }[];
  readonly yTicks: readonly { readonly at: number; readonly value: number }[];
  /** Where a grip stands across the picture. */
  readonly getX: (grip: number) => number;
}

export interface Frame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** Least distance between two names. */
  readonly lineHeight: number;
}

/**
 * Places every bar that fits by the grip it leaves (across) and what the order costs (up).
 *
 * @param marks grips in mm that must lie within the picture
 * @param step grip of a tick is a multiple of this, mm
 */
export function computeCostGrip(
  rows: readonly SectionRow[],
  marks: readonly number[],
  step: number,
  frame: Frame,
): CostGripLayout {
  const shown = rows.filter((row) => row.fitsWorst && row.cost !== null);
  const mostGrip = Math.max(step, ...shown.map((row) => row.grip), ...marks) * 1.08;
  const mostCost = Math.max(1, ...shown.map((row) => row.cost ?? 0)) * 1.1;
  const getX = (grip: number): number => frame.left + ((frame.right - frame.left) * grip) / mostGrip;
  const getY = (cost: number): number => frame.bottom - ((frame.bottom - frame.top) * cost) / mostCost;
  const placed = shown.map((row) => ({ row, x: getX(row.grip), y: getY(row.cost ?? 0) })).toSorted((a, b) => a.y - b.y);
  return {
    points: spreadLabels(placed, frame),
    xTicks: getTicks(mostGrip, step).map((value) => ({ at: getX(value), value })),
    yTicks: getTicks(mostCost, 1).map((value) => ({ at: getY(value), value })),
    getX,
  };
}

function spreadLabels(placed: readonly { row: SectionRow; x: number; y: number }[], frame: Frame): CostGripPoint[] {
  let lastLabelY = Number.NEGATIVE_INFINITY;
  return placed.map((point) => {
    const hasLabel = point.row.chosen || !point.row.dominated;
    const labelY = hasLabel ? Math.max(point.y, lastLabelY + frame.lineHeight) : point.y;
    if (hasLabel) lastLabelY = labelY;
    const anchor = point.x > frame.left + (frame.right - frame.left) * 0.6 ? 'end' : 'start';
    return { ...point, anchor, labelY, hasLabel };
  });
}

/** Round values from 0 up, four to eight of them. */
function getTicks(most: number, unit: number): number[] {
  const steps = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000, 100_000];
  const step = (steps.find((candidate) => most / (candidate * unit) <= 6) ?? most / unit) * unit;
  return Array.from({ length: Math.floor(most / step) + 1 }, (_unused, index) => index * step);
}
