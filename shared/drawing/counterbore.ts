import type { FeatureRef } from '../findings/finding';
import { addLine, type Draft } from './draft';

/** A counterbore across the drawing: from its mouth into the jaw to its floor, its axis going on to the jaw's back. */
export interface Counterbore {
  mouth: number;
  floor: number;
  back: number;
  /** Height of the axis in the drawing. */
  middle: number;
  diameter: number;
}

/** The counterbore of a jaw's screw as hidden lines, open at its mouth, with its axis. */
export function addCounterbore(draft: Draft, bore: Counterbore, feature: FeatureRef | null = null): void {
  const { mouth, floor, back, middle } = bore;
  const half = bore.diameter / 2;
  addLine(
    draft,
    'hidden',
    [
      { x: mouth, y: middle - half },
      { x: floor, y: middle - half },
      { x: floor, y: middle + half },
      { x: mouth, y: middle + half },
    ],
    { pen: 'dashed', feature },
  );
  addLine(
    draft,
    'centre',
    [
      { x: mouth, y: middle },
      { x: back, y: middle },
    ],
    { pen: 'chain' },
  );
}
