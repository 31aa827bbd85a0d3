import type { ResolvedTheme } from '../ui/theme';
import { type Ink, readInk } from './draw/ink';
import { createHatchTiles, type HatchTiles } from './draw/konva-sink';

/** Colours, hatches and sizes that the Bench is drawn with. */
export interface Pens {
  readonly ink: Ink;
  readonly tiles: HatchTiles;
  readonly pxPerPaperMm: number;
  readonly dpr: number;
}

/** px of the screen to a mm of paper, over the size of the page's text: figures of 2.5 mm come to the size of its small text. */
const PX_PER_PAPER_MM = 3.1;

export function getPxPerPaperMm(remPx: number): number {
  return (PX_PER_PAPER_MM * remPx) / 16;
}

export function getDpr(): number {
  return window.devicePixelRatio || 1;
}

export function createPens(theme: ResolvedTheme, remPx: number, dpr: number): Pens {
  const ink = readInk(theme);
  const pxPerPaperMm = getPxPerPaperMm(remPx);
  return { ink, pxPerPaperMm, dpr, tiles: createHatchTiles(ink, pxPerPaperMm, dpr) };
}

/** Px of the page's text size. */
export function readRemPx(): number {
  return Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
}

/** Whole px of an element on the page. */
export function readRoom(element: Element): { width: number; height: number } {
  const { width, height } = element.getBoundingClientRect();
  return { width: Math.floor(width), height: Math.floor(height) };
}

const FACES = ['400 12px "IBM Plex Sans"', '600 12px "IBM Plex Sans"'];

/** True when the drawing can be lettered at once. */
export function areFacesLoaded(): boolean {
  return FACES.every((face) => document.fonts.check(face));
}

/** Fetches what the drawing is lettered in; a canvas does not wait for a font by itself. */
export async function loadFaces(): Promise<void> {
  await Promise.all(FACES.map((face) => document.fonts.load(face)));
}
