import type { Mark, View } from './marks';
import { getPlaced } from './paths';

/**
 * A view's marks as marks in mm of paper.
 *
 * @param left where the left edge of the view's bounds comes to lie, mm of paper
 * @param bottom where the lower edge of the view's bounds comes to lie, mm of paper
 */
export function placeView(view: View, left: number, bottom: number): Mark[] {
  const scale = 1 / view.mmPerPaperMm;
  return placeMarks(view.marks, scale, left - view.bounds.left * scale, bottom - view.bounds.bottom * scale);
}

/** Marks scaled about the drawing's origin, then shifted. */
export function placeMarks(marks: readonly Mark[], scale: number, dx: number, dy: number): Mark[] {
  return marks.map((mark) =>
    mark.kind === 'text'
      ? { ...mark, at: { x: mark.at.x * scale + dx, y: mark.at.y * scale + dy }, size: mark.size * scale }
      : { ...mark, segments: getPlaced(mark.segments, scale, dx, dy) },
  );
}

/** Size of a view on paper, mm. */
export function getPaperSize(view: View): { width: number; height: number } {
  return {
    width: (view.bounds.right - view.bounds.left) / view.mmPerPaperMm,
    height: (view.bounds.top - view.bounds.bottom) / view.mmPerPaperMm,
  };
}
