import type { LengthUnits } from '../units/length-units';
import type { Gap } from './close-gaps';
import type { FileUnit } from './file-units';
import type { Loop, RoundHole, SlotHole } from './loop';
import type { Point } from './point';
import type { Segment } from './segment';

/** How a drawing is taken. */
export interface OutlineOptions {
  unit: FileUnit;
  /** Loose ends this near are joined, mm. */
  gapTolerance: number;
  /** Farthest that lines may stand from the curves they are read into, mm. */
  curveTolerance: number;
  /** Quarter turns anticlockwise. */
  quarterTurns: 0 | 1 | 2 | 3;
  /** Turned end for end after the quarter turns: the other hand. */
  isMirrored: boolean;
  /** Layers left out. */
  hiddenLayers: readonly string[];
  /** Units of the sentences. */
  units: LengthUnits;
}

export const OUTLINE_DEFAULTS = {
  gapTolerance: 0.1,
  curveTolerance: 0.005,
  quarterTurns: 0,
  isMirrored: false,
  hiddenLayers: [],
} as const satisfies Partial<OutlineOptions>;

/** An outline in mm, its lower left corner at the origin. */
export interface Outline {
  outer: Loop | null;
  /** Size of the outer loop. */
  width: number;
  height: number;
  areaMm2: number;
  bores: RoundHole[];
  slots: SlotHole[];
  /** Loops inside that are no round hole and no slot. */
  windows: Loop[];
  /** Loops that are not inside the outer one. */
  outside: Loop[];
  /** Segments that are part of no loop. */
  loose: Segment[];
  gapsClosed: Gap[];
  /** Loose ends left, each with the nearest other one. */
  gapsOpen: Gap[];
  duplicates: number;
  remarks: OutlineRemark[];
}

/** One thing the user should know before the outline is taken. */
export interface OutlineRemark {
  code:
    | 'no-outline'
    | 'gaps-closed'
    | 'gaps-open'
    | 'duplicates'
    | 'too-short'
    | 'junctions'
    | 'crossings'
    | 'outside'
    | 'windows'
    | 'loose'
    | 'not-numbers'
    | 'too-many';
  /** `block`: the outline cannot be trusted until this is settled. */
  severity: 'block' | 'look' | 'note';
  sentence: string;
  count: number;
  /** Where, up to a hundred places. */
  places: Point[];
}
