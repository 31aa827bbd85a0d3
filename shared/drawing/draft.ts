import type { FeatureRef } from '../findings/finding';
import type { LengthUnits } from '../units/length-units';
import type { Fill, Layer, Mark, Pen, Point, Segment, TextMark, View } from './marks';
import { getPolyline, getRectangle } from './paths';
import { getTextBox, measureBounds } from './sinks/bounds';

/** A view in the making. */
export interface Draft {
  readonly units: LengthUnits;
  readonly mmPerPaperMm: number;
  /** The main dimensions show the other unit as well. */
  readonly bothUnits: boolean;
  readonly marks: Mark[];
}

export interface Look {
  pen: Pen;
  fill?: Fill;
  feature?: FeatureRef | null;
}

export interface TextLook {
  /** Height of capitals, mm of paper. */
  size?: number;
  anchor?: TextMark['anchor'];
  weight?: TextMark['weight'];
  layer?: Layer;
  feature?: FeatureRef | null;
}

/** Heights of capitals on paper, mm: from the lettering series 2.5, 3.5, 5 and a small one for second values. */
export const TEXT_SIZES = { small: 2, text: 2.5, title: 3.5, large: 5 } as const;

/** Starts an empty view. */
export function createDraft(units: LengthUnits, mmPerPaperMm: number, bothUnits = true): Draft {
  return { units, mmPerPaperMm, bothUnits, marks: [] };
}

/** A length on paper as a length in the drawing. */
export function toDrawing(draft: Draft, paperMm: number): number {
  return paperMm * draft.mmPerPaperMm;
}

export function addPath(draft: Draft, layer: Layer, segments: Segment[], look: Look): void {
  draft.marks.push({
    kind: 'path',
    layer,
    segments,
    pen: look.pen,
    fill: look.fill ?? 'none',
    feature: look.feature ?? null,
  });
}

export function addLine(draft: Draft, layer: Layer, points: readonly Point[], look: Look): void {
  addPath(draft, layer, getPolyline(points), look);
}

export function addText(draft: Draft, at: Point, text: string, look: TextLook = {}): void {
  if (text === '') {
    return;
  }
  draft.marks.push({
    kind: 'text',
    layer: look.layer ?? 'note',
    at,
    text,
    size: toDrawing(draft, look.size ?? TEXT_SIZES.text),
    anchor: look.anchor ?? 'start',
    angle: 0,
    weight: look.weight ?? 'regular',
    feature: look.feature ?? null,
  });
}

/** Room of clear ground around letters that stand on a hatch, mm of paper. */
const CLEAR_GROUND = 0.5;

/** Text on a patch of bare paper, for places where lines would run through the letters. */
export function addTextOnGround(draft: Draft, at: Point, text: string, look: TextLook = {}): void {
  const before = draft.marks.length;
  addText(draft, at, text, look);
  const mark = draft.marks[before];
  if (mark?.kind !== 'text') {
    return;
  }
  const [low, , high] = getTextBox(mark);
  const edge = toDrawing(draft, CLEAR_GROUND);
  draft.marks.splice(before, 0, {
    kind: 'path',
    layer: mark.layer,
    segments: getRectangle(low.x - edge, low.y - edge * 0.2, high.x + edge, high.y),
    pen: 'none',
    fill: 'paper',
    feature: mark.feature,
  });
}

/** Thinner than this on paper, an outline and its neighbour would run into one thick line, mm. */
const LEAST_OUTLINED = 0.8;

/** Pen of a thin layer's outline: none where the layer is too thin on paper to be outlined by itself. */
export function getThinLayerPen(draft: Draft, thicknesses: readonly number[]): Pen {
  return Math.max(0, ...thicknesses) >= toDrawing(draft, LEAST_OUTLINED) ? 'narrow' : 'none';
}

/** Room left around the marks of a finished view, mm of paper. */
const EDGE = 2;

/** Closes a view: its bounds are those of all its marks. */
export function buildView(draft: Draft, name: View['name'], title: string): View {
  const bounds = measureBounds(draft.marks, draft.mmPerPaperMm);
  const edge = toDrawing(draft, EDGE);
  return {
    name,
    title,
    bounds: {
      left: bounds.left - edge,
      right: bounds.right + edge,
      bottom: bounds.bottom - edge,
      top: bounds.top + edge,
    },
    mmPerPaperMm: draft.mmPerPaperMm,
    marks: draft.marks,
  };
}
