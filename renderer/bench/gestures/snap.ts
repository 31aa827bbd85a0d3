import type { LengthUnits } from '../../../shared/units/length-units';
import { getPlace, getValueAt, type Mover, type SnapLine } from './mover';

export interface Snapped {
  readonly value: number;
  /** The line the thing came to rest on. */
  readonly line: SnapLine | null;
  /** What of the thing rests on it. */
  readonly anchorLabel: string;
}

export interface SnapOptions {
  /** How near counts, mm. */
  readonly reach: number;
  /** Values between snap lines are multiples of this, mm. */
  readonly step: number;
  /** No snapping: only the finest step. */
  readonly suspended: boolean;
  readonly finest: number;
}

/** Rests the mover on the nearest snap line in reach, else on a whole step. */
export function computeSnap(mover: Mover, value: number, options: SnapOptions): Snapped {
  if (options.suspended) return { value: limit(mover, roundTo(value, options.finest)), line: null, anchorLabel: '' };
  const best = findNearest(mover, value, options.reach);
  if (best !== null) return best;
  return { value: limit(mover, roundTo(value, options.step)), line: null, anchorLabel: '' };
}

function findNearest(mover: Mover, value: number, reach: number): Snapped | null {
  let nearest = reach;
  let found: Snapped | null = null;
  for (const anchor of mover.anchors) {
    const place = getPlace(mover, value) + anchor.offset;
    for (const line of mover.snapLines) {
      if (line.meets !== anchor.meets) continue;
      const away = Math.abs(line.at - place);
      const rested = getValueAt(mover, line.at - anchor.offset);
      // The first of equals stays: movers list what matters most first.
      if (away < nearest - 1e-9 && rested >= mover.least - 1e-9) {
        nearest = away;
        found = { value: cleanPlace(rested), line, anchorLabel: anchor.label };
      }
    }
  }
  return found;
}

function limit(mover: Mover, value: number): number {
  return Math.max(mover.least, value);
}

/** Whole steps, without the noise of binary fractions. */
export function roundTo(value: number, step: number): number {
  return step > 0 ? cleanPlace(Math.round(value / step) * step) : value;
}

/** A place to the picometre: without the noise of binary fractions, and never -0. */
export function cleanPlace(value: number): number {
  const rounded = Math.round(value * 1e9) / 1e9;
  return rounded === 0 ? 0 : rounded;
}

const INCH = 25.4;
const STEPS: Readonly<Record<LengthUnits, readonly number[]>> = {
  in: [0.001, 0.005, 0.01, 0.05, 0.1, 0.25, 0.5, 1].map((inches) => inches * INCH),
  mm: [0.02, 0.1, 0.25, 0.5, 1, 2.5, 5, 10],
};

/** The finest step that a pixel of the screen can pick, as a number a person would write. */
export function getDragStep(units: LengthUnits, pxPerMm: number): number {
  const steps = STEPS[units];
  return steps.find((step) => step * pxPerMm >= 0.8) ?? steps.at(-1) ?? 1;
}

export function getFinestStep(units: LengthUnits): number {
  return STEPS[units][0] ?? 0.02;
}
