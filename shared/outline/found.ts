import type { Gap } from './close-gaps';
import type { Loop } from './loop';
import type { Point } from './point';
import type { Segment } from './segment';

/** Everything found on the way from a drawing to its outline, mm. */
export interface Found {
  outer: Loop | null;
  inner: Loop[];
  outside: Loop[];
  loose: Segment[];
  gapsClosed: Gap[];
  gapsOpen: Gap[];
  duplicates: number;
  duplicatePlaces: Point[];
  tooShort: number;
  notNumbers: number;
  junctions: Point[];
  crossings: Point[];
  /** True when there were more segments than are traced. */
  isCut: boolean;
}
