import type { LengthUnits } from '../../../shared/units/length-units';
import { getPlace, getValueAt, type Mover } from './mover';
import { cleanPlace, computeSnap, getDragStep, getFinestStep, type Snapped } from './snap';

export interface DragInput {
  /** Place on the mover's axis where the pointer took hold, and where it is, mm of the drawing. */
  readonly from: number;
  readonly to: number;
  readonly units: LengthUnits;
  readonly pxPerMm: number;
  /** Alt is held: no snapping. */
  readonly suspended: boolean;
}

/** How near a snap line counts, px. */
const REACH_PX = 7;

/** The value a drag comes to: the thing keeps its distance to the pointer, then rests on what is near. */
export function computeDrag(mover: Mover, input: DragInput): Snapped {
  const value = getValueAt(mover, getPlace(mover, mover.value) + input.to - input.from);
  return computeSnap(mover, value, {
    reach: REACH_PX / input.pxPerMm,
    step: getDragStep(input.units, input.pxPerMm),
    finest: getFinestStep(input.units),
    suspended: input.suspended,
  });
}

/** The value after an arrow key: along the axis of the drawing, so that the thing goes where the arrow points. */
export function computeNudge(mover: Mover, direction: 1 | -1, step: number): number {
  return Math.max(mover.least, cleanPlace(mover.value + direction * mover.sign * step));
}

/** How much the marks in the hand stand off from where they were drawn last, mm along the axis. */
export function computeShift(mover: Mover, shownValue: number, value: number): number {
  return mover.sign * (value - shownValue);
}
