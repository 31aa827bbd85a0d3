import type { FeatureRef } from '../findings/finding';

export interface Point {
  x: number;
  y: number;
}

/** A straight, circular or cubic piece of a path, in mm. Arcs are centre form, angles in radians, counter-clockwise when `end > start`. */
export type Segment =
  | { op: 'move'; x: number; y: number }
  | { op: 'line'; x: number; y: number }
  | { op: 'arc'; cx: number; cy: number; radius: number; start: number; end: number }
  | { op: 'curve'; x1: number; y1: number; x2: number; y2: number; x: number; y: number }
  | { op: 'close' };

/** What a mark stands for: decides its layer in DXF, its pen on paper and its colour on screen. */
export type Layer =
  | 'table'
  | 'vise'
  | 'jaw'
  | 'seat'
  | 'bar'
  | 'cleanup'
  | 'allowance'
  | 'part'
  | 'bore'
  | 'kerf'
  | 'clearance'
  | 'rib'
  | 'tab'
  | 'cutter'
  | 'holder'
  | 'drop'
  | 'stop'
  | 'dimension'
  | 'centre'
  | 'section'
  | 'hidden'
  | 'note'
  | 'frame'
  | 'finding'
  | 'guide';

/** Pen: `wide` and `narrow` lines stand 2:1 (ISO 128), `hair` rules tables, `dashed` hidden, `chain` centre and section lines. */
export type Pen = 'none' | 'wide' | 'narrow' | 'hair' | 'dashed' | 'chain';

/** Surface treatment; each material and state reads in black and white. */
export type Fill =
  | 'none'
  | 'paper'
  | 'ink'
  | 'tint'
  | 'accent'
  | 'bar'
  | 'cleanup'
  | 'allowance'
  | 'part'
  | 'kerf'
  | 'jaw'
  | 'vise'
  | 'table'
  | 'cutter'
  | 'holder'
  | 'rib'
  | 'drop'
  | 'seat'
  // The same things seen from outside, where nothing is cut and so nothing is hatched.
  | 'barFace'
  | 'jawFace'
  | 'viseFace'
  | 'tableFace';

interface MarkCommon {
  layer: Layer;
  /** The thing it shows, for selection, findings and hit test; null for drawing furniture. */
  feature: FeatureRef | null;
}

export interface PathMark extends MarkCommon {
  kind: 'path';
  segments: Segment[];
  pen: Pen;
  fill: Fill;
}

/** Text; `size` is the height of capitals in the view's mm, `at` the anchor point on the baseline. */
export interface TextMark extends MarkCommon {
  kind: 'text';
  at: Point;
  text: string;
  size: number;
  anchor: 'start' | 'middle' | 'end';
  /** Radians, counter-clockwise. */
  angle: number;
  weight: 'regular' | 'semibold';
}

export type Mark = PathMark | TextMark;

/** A drawing in mm: X right, Y up. Furniture (text, arrows) is sized for one scale: `mmPerPaperMm` model mm to a mm on paper or screen. */
export interface View {
  name: 'elevation' | 'section' | 'plan' | 'stack' | 'shelf' | 'bar' | 'part';
  title: string;
  bounds: { left: number; right: number; bottom: number; top: number };
  mmPerPaperMm: number;
  marks: Mark[];
}
