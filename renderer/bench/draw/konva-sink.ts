import { FILL_STYLES } from '../../../shared/drawing/fills';
import type { Fill } from '../../../shared/drawing/marks';
import { PEN_STYLES } from '../../../shared/drawing/pens';
import type { Bounds } from '../../../shared/drawing/sinks/bounds';
import { getEmSize } from '../../../shared/drawing/text-width';
import type { FeatureRef } from '../../../shared/findings/finding';
import { type Camera, getShown, type Size } from '../camera';
import { computeHatchTile } from './hatch-tile';
import type { Ink } from './ink';
import type { Picture, PictureItem } from './picture';

/** What is drawn away from where the evaluation has it: the thing in the hand, until its figures arrive. */
export interface Shift {
  readonly isMoved: (feature: FeatureRef) => boolean;
  /** mm of the drawing. */
  readonly dx: number;
  readonly dy: number;
}

export interface DrawOptions {
  readonly camera: Camera;
  readonly pane: Size;
  readonly ink: Ink;
  readonly tiles: HatchTiles;
  readonly pxPerPaperMm: number;
  readonly dpr: number;
  readonly shift: Shift | null;
}

const FONT = '"IBM Plex Sans", "DejaVu Sans", sans-serif';

/**
 * Draws a picture into a Konva shape: the same marks in mm that the sheet prints, with this theme's colours.
 *
 * @param context the 2D context that Konva has scaled to CSS px
 */
export function drawPicture(context: CanvasRenderingContext2D, picture: Picture, options: DrawOptions): void {
  const { camera, pane, dpr } = options;
  const scale = camera.pxPerMm;
  const shown = getShown(camera, pane);
  context.save();
  // On whole pixels of the screen, so that the hatch tiles are not resampled while the drawing is moved.
  const dx = Math.round(-camera.left * scale * dpr) / dpr;
  const dy = Math.round(camera.top * scale * dpr) / dpr;
  context.transform(scale, 0, 0, -scale, dx, dy);
  context.lineJoin = 'round';
  for (const item of picture.items) {
    const shift = getShift(item, options.shift);
    if (shift === null) {
      if (isOutside(item.bounds, shown)) continue;
      drawItem(context, item, options);
      continue;
    }
    context.save();
    context.translate(shift.dx, shift.dy);
    drawItem(context, item, options);
    context.restore();
  }
  context.restore();
}

function getShift(item: PictureItem, shift: Shift | null): Shift | null {
  const { feature } = item.mark;
  return shift !== null && feature !== null && shift.isMoved(feature) ? shift : null;
}

function isOutside(bounds: Bounds, shown: Bounds): boolean {
  return (
    bounds.right < shown.left || bounds.left > shown.right || bounds.top < shown.bottom || bounds.bottom > shown.top
  );
}

function drawItem(context: CanvasRenderingContext2D, item: PictureItem, options: DrawOptions): void {
  if (item.kind === 'text') drawText(context, item, options);
  else drawPath(context, item, options);
}

function drawPath(
  context: CanvasRenderingContext2D,
  item: PictureItem & { kind: 'path' },
  { ink, camera, tiles, pxPerPaperMm }: DrawOptions,
): void {
  const { mark, path } = item;
  const ground = ink.grounds[mark.fill];
  if (ground !== null) {
    context.fillStyle = ground;
    context.fill(path, 'evenodd');
    for (const pattern of tiles.get(mark.fill, camera.pxPerMm)) {
      context.fillStyle = pattern;
      context.fill(path, 'evenodd');
    }
  }
  const { width, dashes } = PEN_STYLES[mark.pen];
  if (width <= 0) return;
  const mmPerPaperMm = pxPerPaperMm / camera.pxPerMm;
  context.lineWidth = width * mmPerPaperMm;
  context.strokeStyle = ink.getLayerInk(mark.layer);
  context.setLineDash(dashes.map((dash) => dash * mmPerPaperMm));
  context.stroke(path);
}

function drawText(
  context: CanvasRenderingContext2D,
  item: PictureItem & { kind: 'text' },
  { ink, camera }: DrawOptions,
): void {
  const { mark, ground } = item;
  const scale = camera.pxPerMm;
  const sizePx = getEmSize(mark.size) * scale;
  if (sizePx < 3) return;
  context.save();
  context.translate(mark.at.x, mark.at.y);
  context.rotate(mark.angle);
  context.scale(1 / scale, -1 / scale);
  context.font = `${mark.weight === 'semibold' ? 600 : 400} ${sizePx.toFixed(2)}px ${FONT}`;
  context.textAlign = mark.anchor === 'middle' ? 'center' : mark.anchor;
  context.textBaseline = 'alphabetic';
  context.fillStyle = ground === null && mark.layer !== 'section' ? ink.getLayerInk(mark.layer) : getTextInk(ink, item);
  context.fillText(mark.text, 0, 0);
  context.restore();
}

function getTextInk(ink: Ink, { mark, ground }: PictureItem & { kind: 'text' }): string {
  if (mark.layer === 'section') return ink.getLayerInk('section');
  return ink.getInkOn(ground === null ? null : ink.grounds[ground.fill]);
}

/** Pattern fills of the hatches at one resolution and theme. */
export interface HatchTiles {
  /** Patterns to lay over a fill's ground, set to the scale of a drawing. */
  get(fill: Fill, pxPerMm: number): readonly CanvasPattern[];
}

/** Makes each fill's tiles when they are first asked for. */
export function createHatchTiles(ink: Ink, pxPerPaperMm: number, dpr: number): HatchTiles {
  const made = new Map<Fill, readonly CanvasPattern[]>();
  return {
    get(fill, pxPerMm) {
      const patterns = made.get(fill) ?? makePatterns(fill, ink, pxPerPaperMm * dpr, dpr);
      made.set(fill, patterns);
      const scale = 1 / (pxPerMm * dpr);
      for (const pattern of patterns) pattern.setTransform({ a: scale, d: -scale });
      return patterns;
    },
  };
}

const LINE_WIDTH_PAPER_MM = 0.16;

function makePatterns(fill: Fill, ink: Ink, tilePxPerPaperMm: number, dpr: number): CanvasPattern[] {
  return FILL_STYLES[fill].hatch.flatMap((lines) => {
    const { side, strokes } = computeHatchTile(lines, tilePxPerPaperMm);
    const canvas = document.createElement('canvas');
    canvas.width = side;
    canvas.height = side;
    const context = canvas.getContext('2d');
    if (context === null) return [];
    context.strokeStyle = ink.hatches[fill];
    // Dots of a dash no longer than the pen would vanish in a hairline.
    const isDotted = lines.dashes.length > 0 && (lines.dashes[0] ?? 0) < 0.3;
    context.lineWidth = Math.max(isDotted ? 1.3 * dpr : 0.75 * dpr, LINE_WIDTH_PAPER_MM * tilePxPerPaperMm);
    context.beginPath();
    for (const { x1, y1, x2, y2 } of strokes) {
      context.moveTo(x1, y1);
      context.lineTo(x2, y2);
    }
    context.stroke();
    const pattern = context.createPattern(canvas, 'repeat');
    return pattern === null ? [] : [pattern];
  });
}
