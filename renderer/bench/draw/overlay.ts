import { getCutterPieces, type Scene } from '../../../shared/drawing/scene';
import type { FeatureRef } from '../../../shared/findings/finding';
import type { Drag } from '../bench-store';
import type { Camera, Size } from '../camera';
import { getBenchFeature, isShownBy } from '../feature-match';
import { getPlace } from '../gestures/mover';
import { PANE_AXES } from '../pane-axes';
import type { PaneName, Rect } from '../panes';
import type { Ink } from './ink';
import type { Picture, PictureItem } from './picture';

/** What lies over a view: what is selected, pointed at and in the hand. */
export interface Overlay {
  readonly pane: PaneName;
  readonly camera: Camera;
  readonly size: Size;
  readonly scene: Scene;
  /** Where the section is taken, which is where the cutter is shown at its work. */
  readonly sectionX: number;
  readonly picture: Picture;
  readonly ink: Ink;
  readonly hover: FeatureRef | null;
  readonly selection: readonly FeatureRef[];
  readonly pointedAt: readonly FeatureRef[];
  readonly drag: Drag | null;
  /** Shift of what is in the hand, mm of the view. */
  readonly shift: { readonly x: number; readonly y: number };
  readonly marquee: Rect | null;
}

const SELECTED_PX = 2;
const OUTLINE_LAYERS = new Set(['dimension', 'note', 'centre', 'hidden', 'frame']);

export function drawOverlay(context: CanvasRenderingContext2D, overlay: Overlay): void {
  const { selection, pointedAt, hover, drag } = overlay;
  const accent = overlay.ink.tokens['--accent'];
  for (const feature of pointedAt) drawOutline(context, overlay, feature, { colour: accent, px: 1.5, dash: [4, 3] });
  for (const feature of selection)
    drawOutline(context, overlay, feature, { colour: accent, px: SELECTED_PX, dash: [] });
  if (hover !== null && drag === null) {
    context.globalAlpha = 0.65;
    drawOutline(context, overlay, hover, { colour: accent, px: 1.25, dash: [] });
    context.globalAlpha = 1;
  }
  if ([...selection, ...pointedAt, ...(hover === null ? [] : [hover])].some(isOfCutOff)) drawCutter(context, overlay);
  if (drag !== null) drawGuide(context, overlay, drag);
  if (overlay.marquee !== null) drawMarquee(context, overlay.marquee, overlay.ink);
}

interface OutlineStyle {
  readonly colour: string;
  readonly px: number;
  readonly dash: readonly number[];
}

function drawOutline(
  context: CanvasRenderingContext2D,
  overlay: Overlay,
  feature: FeatureRef,
  { colour, px, dash }: OutlineStyle,
): void {
  const { camera, scene, picture } = overlay;
  const scale = camera.pxPerMm;
  context.save();
  context.transform(scale, 0, 0, -scale, -camera.left * scale, camera.top * scale);
  context.lineJoin = 'round';
  context.strokeStyle = colour;
  context.lineWidth = px / scale;
  context.setLineDash(dash.map((length) => length / scale));
  for (const item of picture.items) {
    if (!isOutlined(item, feature, scene)) continue;
    const isHeld = item.mark.feature !== null && overlay.drag?.mover.isMoved(item.mark.feature) === true;
    context.save();
    if (isHeld) context.translate(overlay.shift.x, overlay.shift.y);
    context.stroke(item.path);
    context.restore();
  }
  context.restore();
}

function isOfCutOff({ kind }: FeatureRef): boolean {
  return kind === 'cutter' || kind === 'cut';
}

/** The cutter at the cut-off as an adjacent thing is drawn, in outline: the elevation would hide the part behind it. */
function drawCutter(context: CanvasRenderingContext2D, { pane, camera, scene, sectionX, ink }: Overlay): void {
  if (pane !== 'elevation') return;
  const scale = camera.pxPerMm;
  context.save();
  context.strokeStyle = ink.tokens['--accent'];
  context.setLineDash([9, 2, 2, 2, 2, 2]);
  for (const { diameter, bottom, top } of getCutterPieces(scene)) {
    const left = (sectionX - diameter / 2 - camera.left) * scale;
    context.strokeRect(left, (camera.top - top) * scale, diameter * scale, (top - bottom) * scale);
  }
  context.restore();
}

function isOutlined(item: PictureItem, feature: FeatureRef, scene: Scene): item is PictureItem & { kind: 'path' } {
  const shown = item.mark.feature;
  if (item.kind !== 'path' || shown === null || OUTLINE_LAYERS.has(item.mark.layer)) return false;
  if (isShownBy(feature, shown, scene)) return true;
  const own = getBenchFeature(shown, scene);
  return own !== null && own.kind === feature.kind && own.id === feature.id;
}

/** The line a thing has come to rest on, across the whole view. */
function drawGuide(context: CanvasRenderingContext2D, overlay: Overlay, { mover, line, value }: Drag): void {
  const axes = PANE_AXES[overlay.pane];
  const isUpright = axes.x === mover.axis;
  if (!isUpright && axes.y !== mover.axis) return;
  const { camera, size, ink } = overlay;
  const at = line?.at ?? getPlace(mover, value);
  const px = isUpright ? (at - camera.left) * camera.pxPerMm : (camera.top - at) * camera.pxPerMm;
  context.save();
  context.strokeStyle = ink.tokens['--draw-guide'];
  context.lineWidth = line === null ? 1 : 1.5;
  context.globalAlpha = line === null ? 0.35 : 1;
  context.setLineDash(line === null ? [2, 4] : [7, 4]);
  context.beginPath();
  if (isUpright) {
    context.moveTo(px, 0);
    context.lineTo(px, size.height);
  } else {
    context.moveTo(0, px);
    context.lineTo(size.width, px);
  }
  context.stroke();
  context.restore();
}

function drawMarquee(context: CanvasRenderingContext2D, rect: Rect, ink: Ink): void {
  context.save();
  context.fillStyle = ink.tokens['--accent'];
  context.globalAlpha = 0.1;
  context.fillRect(rect.left, rect.top, rect.width, rect.height);
  context.globalAlpha = 1;
  context.strokeStyle = ink.tokens['--accent'];
  context.setLineDash([4, 3]);
  context.strokeRect(rect.left + 0.5, rect.top + 0.5, rect.width, rect.height);
  context.restore();
}
