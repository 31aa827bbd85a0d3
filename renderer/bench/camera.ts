import type { Point } from '../../shared/drawing/marks';
import type { Bounds } from '../../shared/drawing/sinks/bounds';

/** How a view is looked at: the drawing's mm to the pane's px, Y up in the drawing and down on the screen. */
export interface Camera {
  readonly pxPerMm: number;
  /** The drawing's X and Y at the pane's left and upper edge, mm. */
  readonly left: number;
  readonly top: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** A CSS pixel is 1/96 in on paper; a screen is near enough for a scale that is read, not measured. */
export const PX_PER_SCREEN_MM = 96 / 25.4;

const LEAST_PX_PER_MM = 0.02;
const MOST_PX_PER_MM = 400;

export function toScreen(camera: Camera, point: Point): Point {
  return { x: (point.x - camera.left) * camera.pxPerMm, y: (camera.top - point.y) * camera.pxPerMm };
}

export function toDrawing(camera: Camera, point: Point): Point {
  return { x: camera.left + point.x / camera.pxPerMm, y: camera.top - point.y / camera.pxPerMm };
}

/** The part of the drawing that a pane shows. */
export function getShown(camera: Camera, pane: Size): Bounds {
  return {
    left: camera.left,
    right: camera.left + pane.width / camera.pxPerMm,
    top: camera.top,
    bottom: camera.top - pane.height / camera.pxPerMm,
  };
}

export function limitScale(pxPerMm: number): number {
  return Math.min(MOST_PX_PER_MM, Math.max(LEAST_PX_PER_MM, pxPerMm));
}

/** Zooms about a point of the pane, which keeps its place in the drawing. */
export function zoomAt(camera: Camera, factor: number, at: Point): Camera {
  const pxPerMm = limitScale(camera.pxPerMm * factor);
  const held = toDrawing(camera, at);
  return { pxPerMm, left: held.x - at.x / pxPerMm, top: held.y + at.y / pxPerMm };
}

/** Moves the drawing by px of the screen. */
export function pan(camera: Camera, dx: number, dy: number): Camera {
  return { ...camera, left: camera.left - dx / camera.pxPerMm, top: camera.top + dy / camera.pxPerMm };
}

/** Puts the middle of the bounds at the middle of the pane, at a scale given. */
export function centreOn(bounds: Bounds, pane: Size, pxPerMm: number): Camera {
  return {
    pxPerMm,
    left: (bounds.left + bounds.right) / 2 - pane.width / pxPerMm / 2,
    top: (bounds.bottom + bounds.top) / 2 + pane.height / pxPerMm / 2,
  };
}

/** The largest scale at which the bounds go into the pane, less a margin in px. */
export function getFitScale(bounds: Bounds, pane: Size, margin: number): number {
  const width = Math.max(1e-6, bounds.right - bounds.left);
  const height = Math.max(1e-6, bounds.top - bounds.bottom);
  return limitScale(Math.min((pane.width - 2 * margin) / width, (pane.height - 2 * margin) / height));
}

/** The screen scale in words: "1 : 2.2", "2 : 1". */
export function getScaleText(pxPerMm: number): string {
  const scale = pxPerMm / PX_PER_SCREEN_MM;
  const ratio = scale >= 1 ? scale : 1 / scale;
  const digits = ratio < 10 ? 1 : 0;
  const rounded = Number(ratio.toFixed(digits));
  const text = rounded === 1 ? '1' : ratio.toFixed(Number.isInteger(rounded) ? 0 : digits);
  return scale >= 1 ? `${text} : 1` : `1 : ${text}`;
}
