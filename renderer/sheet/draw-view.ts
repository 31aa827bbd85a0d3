import { FILL_STYLES } from '../../shared/drawing/fills';
import { computeHatch } from '../../shared/drawing/hatch';
import { getInk, HATCH_INK, HATCH_WIDTH } from '../../shared/drawing/inks';
import type { PathMark, TextMark, View } from '../../shared/drawing/marks';
import { PEN_STYLES } from '../../shared/drawing/pens';
import { getPaperSize } from '../../shared/drawing/place-view';
import { getPathData } from '../../shared/drawing/sinks/svg';
import { getEmSize } from '../../shared/drawing/text-width';

const FONT = '"IBM Plex Sans", "DejaVu Sans", sans-serif';
const PAPER = '#ffffff';
/** White around the drawing, mm of paper. */
const MARGIN = 6;
/** Fine enough to read the smallest letters of a message enlarged: 9 px a mm is about 230 to the inch. */
export const PICTURE_PX_PER_MM = 9;

/** Size of a view's picture, px. */
export function getPictureSize(view: View, pxPerPaperMm: number): { width: number; height: number } {
  const { width, height } = getPaperSize(view);
  return {
    width: Math.ceil((width + 2 * MARGIN) * pxPerPaperMm),
    height: Math.ceil((height + 2 * MARGIN) * pxPerPaperMm),
  };
}

/** Draws a view in its printed colours onto white, to the size that `getPictureSize` gives. */
export function drawView(context: CanvasRenderingContext2D, view: View, pxPerPaperMm: number): void {
  const { width, height } = getPictureSize(view, pxPerPaperMm);
  const scale = pxPerPaperMm / view.mmPerPaperMm;
  const margin = MARGIN * pxPerPaperMm;
  context.save();
  context.fillStyle = PAPER;
  context.fillRect(0, 0, width, height);
  context.translate(margin, margin);
  context.scale(scale, scale);
  context.translate(-view.bounds.left, 0);
  context.lineJoin = 'round';
  context.textBaseline = 'alphabetic';
  for (const mark of view.marks) {
    if (mark.kind === 'text') drawText(context, mark, view.bounds.top, scale);
    else drawPath(context, mark, view);
  }
  context.restore();
}

function drawPath(context: CanvasRenderingContext2D, mark: PathMark, { bounds, mmPerPaperMm }: View): void {
  const path = new Path2D(getPathData(mark.segments, bounds.top));
  const { ground, hatch } = FILL_STYLES[mark.fill];
  if (ground !== null) {
    context.fillStyle = ground;
    context.fill(path, 'evenodd');
  }
  context.setLineDash([]);
  context.strokeStyle = HATCH_INK;
  context.lineWidth = HATCH_WIDTH * mmPerPaperMm;
  context.beginPath();
  for (const { from, to } of hatch.flatMap((lines) => computeHatch(mark.segments, lines, mmPerPaperMm))) {
    context.moveTo(from.x, bounds.top - from.y);
    context.lineTo(to.x, bounds.top - to.y);
  }
  context.stroke();
  const { width, dashes } = PEN_STYLES[mark.pen];
  if (width <= 0) return;
  context.strokeStyle = getInk(mark.layer);
  context.lineWidth = width * mmPerPaperMm;
  context.setLineDash(dashes.map((dash) => dash * mmPerPaperMm));
  context.stroke(path);
}

function drawText(context: CanvasRenderingContext2D, mark: TextMark, top: number, scale: number): void {
  context.save();
  context.translate(mark.at.x, top - mark.at.y);
  context.rotate(-mark.angle);
  // Letters are set in px: a browser rounds what is smaller.
  context.scale(1 / scale, 1 / scale);
  context.font = `${mark.weight === 'semibold' ? 600 : 400} ${(getEmSize(mark.size) * scale).toFixed(2)}px ${FONT}`;
  context.textAlign = mark.anchor === 'middle' ? 'center' : mark.anchor;
  context.fillStyle = getInk(mark.layer);
  context.fillText(mark.text, 0, 0);
  context.restore();
}
