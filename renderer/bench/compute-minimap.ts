import type { Point } from '../../shared/drawing/marks';
import type { Bounds } from '../../shared/drawing/sinks/bounds';
import { type Camera, centreOn, getShown, type Size } from './camera';
import type { Rect } from './panes';

/** The whole of a view as a small strip, with the part of it that is in sight. */
export interface MinimapLayout {
  readonly size: Size;
  /** How the strip looks at the drawing. */
  readonly camera: Camera;
  /** What is in sight, px of the strip. */
  readonly sight: Rect;
  /** What the strip shows, mm of the drawing. */
  readonly bounds: Bounds;
}

/** Of the pane: a strip that tells where one is must not take the room one works in. */
const WIDTH_SHARE = 0.42;
const HEIGHT_SHARE = 0.22;
const MARGIN_PX = 5;
/** Below this the window in the strip could not be taken hold of. */
const LEAST_SIGHT_PX = 8;
/** Out of sight by less than this share is not worth a strip. */
const SLACK = 0.02;

/**
 * @param content bounds of the things themselves, without dimensions and notes, mm
 * @param camera how the pane looks at them
 * @returns null while everything is in sight
 */
export function computeMinimap(content: Bounds, camera: Camera, pane: Size): MinimapLayout | null {
  const width = content.right - content.left;
  const height = content.top - content.bottom;
  if (!(width > 0 && height > 0)) return null;
  const shown = getShown(camera, pane);
  const isAllSeen =
    shown.left <= content.left + SLACK * width &&
    shown.right >= content.right - SLACK * width &&
    shown.bottom <= content.bottom + SLACK * height &&
    shown.top >= content.top - SLACK * height;
  if (isAllSeen) return null;
  const most = { width: pane.width * WIDTH_SHARE - 2 * MARGIN_PX, height: pane.height * HEIGHT_SHARE - 2 * MARGIN_PX };
  const pxPerMm = Math.min(most.width / width, most.height / height);
  if (!(pxPerMm > 0)) return null;
  const size = {
    width: Math.round(width * pxPerMm) + 2 * MARGIN_PX,
    height: Math.round(height * pxPerMm) + 2 * MARGIN_PX,
  };
  const strip = centreOn(content, size, pxPerMm);
  const across = clip((shown.left - strip.left) * pxPerMm, (shown.right - strip.left) * pxPerMm, size.width);
  const down = clip((strip.top - shown.top) * pxPerMm, (strip.top - shown.bottom) * pxPerMm, size.height);
  const sight = { left: across.from, width: across.size, top: down.from, height: down.size };
  return { size, camera: strip, sight, bounds: content };
}

/** A stretch kept on the strip, and wide enough to be seen even where nothing of the drawing is in sight. */
function clip(from: number, to: number, room: number): { from: number; size: number } {
  const start = Math.min(Math.max(0, from), room - LEAST_SIGHT_PX);
  return { from: start, size: Math.max(LEAST_SIGHT_PX, Math.min(to, room) - start) };
}

/** The camera that looks at a point in the middle of the pane, as far as there is something to see there. */
export function lookAt(camera: Camera, pane: Size, at: Point, content: Bounds): Camera {
  const width = pane.width / camera.pxPerMm;
  const height = pane.height / camera.pxPerMm;
  return {
    ...camera,
    left: keepOver(at.x - width / 2, width, content.left, content.right),
    top: keepOver(at.y - height / 2, height, content.bottom, content.top) + height,
  };
}

/** Start of a stretch that stays over another: inside it when it is shorter, round it when it is longer. */
function keepOver(start: number, length: number, from: number, to: number): number {
  const [least, most] = length < to - from ? [from, to - length] : [to - length, from];
  return Math.min(most, Math.max(least, start));
}
