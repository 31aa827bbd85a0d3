import type { FileUnit } from './file-units';
import type { OutlineEntity } from './shapes';

/** What a reader found in a drawing file. Sizes are in the file's own units, y up. */
export interface OutlineDrawing {
  format: 'dxf' | 'svg';
  entities: OutlineEntity[];
  /** Every kind of thing in the file, with how many were read and how many were not, and why. */
  counts: EntityCount[];
  /** What the file says its unit is, or null. */
  declaredUnit: FileUnit | null;
  /** Sentences on the file as a whole. */
  remarks: string[];
}

export interface EntityCount {
  /** Name in the file, such as `LWPOLYLINE` or `path`. */
  type: string;
  read: number;
  skipped: number;
  /** Why some were skipped, each once; empty when none was. */
  reasons: string[];
}

/** Most shapes that are taken from one file; an outline of ten thousand short lines is the longest met. */
export const MOST_SHAPES = 10_000;
