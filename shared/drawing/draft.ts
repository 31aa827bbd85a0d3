import type { FeatureRef } from '../findings/finding';
import type { LengthUnits } from '../units/length-units';
import type { Fill, Layer, Mark, Pen, Point, Segment, TextMark, View } from './marks';
import { getPolyline } from './paths';
import { measureBounds } from './sinks/bounds';

/** A view in the making. */
export interface Draft {
  readonly units: LengthUnits;
  readonly mmPerPaperMm: number;
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
export function createDraft(units: LengthUnits, mmPerPaperMm: number): Draft {
  return { units, mmPerPaperMm, marks: [] };
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
