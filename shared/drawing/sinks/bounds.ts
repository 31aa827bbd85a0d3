import type { Mark, PathMark, Point, TextMark, View } from '../marks';
import { getRuns } from '../paths';
import { PEN_STYLES } from '../pens';
import { getTextWidth } from '../text-width';

export type Bounds = View['bounds'];

/** How far letters hang below the baseline and stand above it, over the height of capitals. */
const DESCENT = 0.32;
const ASCENT = 1.12;

/**
 * The smallest upright rectangle around some marks.
 *
 * @param mmPerPaperMm drawing mm to a mm of paper; pens have their width on paper. 0 leaves pens out
 * @returns mm; a rectangle of no size at the origin when there is no mark
 */
export function measureBounds(marks: readonly Mark[], mmPerPaperMm = 0): Bounds {
  const bounds = { left: Infinity, right: -Infinity, bottom: Infinity, top: -Infinity };
  for (const mark of marks) {
    const half = mark.kind === 'path' ? (PEN_STYLES[mark.pen].width * mmPerPaperMm) / 2 : 0;
    for (const point of getOutlinePoints(mark)) {
      bounds.left = Math.min(bounds.left, point.x - half);
      bounds.right = Math.max(bounds.right, point.x + half);
      bounds.bottom = Math.min(bounds.bottom, point.y - half);
      bounds.top = Math.max(bounds.top, point.y + half);
    }
  }
  return bounds.left > bounds.right ? { left: 0, right: 0, bottom: 0, top: 0 } : bounds;
}

/** The four corners of a text's box, from its lower left, counter-clockwise. */
export function getTextBox(mark: TextMark): [Point, Point, Point, Point] {
  const width = getTextWidth(mark.text, mark.size, mark.weight);
  const start = mark.anchor === 'start' ? 0 : mark.anchor === 'middle' ? -width / 2 : -width;
  const corner = (along: number, up: number): Point => ({
    x: mark.at.x + along * Math.cos(mark.angle) - up * Math.sin(mark.angle),
    y: mark.at.y + along * Math.sin(mark.angle) + up * Math.cos(mark.angle),
  });
  const bottom = -DESCENT * mark.size;
  const top = ASCENT * mark.size;
  return [corner(start, bottom), corner(start + width, bottom), corner(start + width, top), corner(start, top)];
}

function getOutlinePoints(mark: Mark): Point[] {
  return mark.kind === 'text' ? getTextBox(mark) : getPathPoints(mark);
}

function getPathPoints(mark: PathMark): Point[] {
  return getRuns(mark.segments).flatMap((run) => run.points);
}
