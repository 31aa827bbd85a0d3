import type { Point, View } from '../../shared/drawing/marks';
import { type Bounds, measureBounds } from '../../shared/drawing/sinks/bounds';
import { type Camera, type Size, toScreen } from './camera';
import type { FindingAnchor } from './finding-anchors';

/** A mark of findings in its pane, px of the middle of its sign. */
export interface PlacedMark {
  readonly anchor: FindingAnchor;
  readonly at: Point;
}

/** Half a mark's sign, and room for the count behind it, px at the usual text size. */
const HALF_PX = 9;
const COUNT_PX = 16;
const OFF_EDGE_PX = 2;
const USUAL_REM_PX = 16;

/** From the corner of the thing to its mark, px at the usual text size: off the thing, then further and further round it. */
const OFFSETS: readonly Point[] = [
  { x: 8, y: -8 },
  { x: 8, y: -16 },
  { x: 14, y: 2 },
  { x: -6, y: -14 },
  { x: 14, y: 14 },
  { x: 8, y: -28 },
  { x: -22, y: -14 },
  { x: 28, y: -8 },
  { x: -22, y: 14 },
  { x: 8, y: 28 },
  { x: -40, y: -12 },
  { x: 44, y: -4 },
  { x: 8, y: -44 },
  { x: -24, y: -34 },
  { x: 32, y: -30 },
  { x: 32, y: 26 },
  { x: -24, y: 34 },
  { x: 8, y: 46 },
];

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const texts = new WeakMap<View, readonly Bounds[]>();

export interface MarkRoom {
  readonly view: View;
  readonly camera: Camera;
  readonly pane: Size;
  /** Size of the page's text: marks grow with it. */
  readonly remPx: number;
}

/** Marks beside what they are about, where they lie over no text and over none of each other if there is such a place. */
export function placeMarks(
  anchors: readonly FindingAnchor[],
  { view, camera, pane, remPx }: MarkRoom,
): readonly PlacedMark[] {
  const scale = remPx / USUAL_REM_PX;
  const half = HALF_PX * scale;
  const count = COUNT_PX * scale;
  const taken: Box[] = getTexts(view).map((bounds) => toBox(bounds, camera));
  return anchors.flatMap((anchor): PlacedMark[] => {
    const corner = toScreen(camera, anchor);
    if (isOutside(corner, pane)) return [];
    const places = OFFSETS.map(({ x, y }) =>
      keepInside({ x: corner.x + x * scale, y: corner.y + y * scale }, pane, half + OFF_EDGE_PX),
    );
    const getOwn = ({ x, y }: Point): Box => ({
      left: x - half,
      right: x + half + (anchor.findings.length > 1 ? count : 0),
      top: y - half,
      bottom: y + half,
    });
    const free = places.find((at) => !taken.some((box) => overlaps(box, getOwn(at))));
    const at = free ?? places[0] ?? corner;
    taken.push(getOwn(at));
    return [{ anchor, at }];
  });
}

function getTexts(view: View): readonly Bounds[] {
  const known = texts.get(view);
  if (known !== undefined) return known;
  const found = view.marks.filter((mark) => mark.kind === 'text').map((mark) => measureBounds([mark]));
  texts.set(view, found);
  return found;
}

function toBox(bounds: Bounds, camera: Camera): Box {
  const upper = toScreen(camera, { x: bounds.left, y: bounds.top });
  const lower = toScreen(camera, { x: bounds.right, y: bounds.bottom });
  return { left: upper.x, top: upper.y, right: lower.x, bottom: lower.y };
}

function overlaps(one: Box, other: Box): boolean {
  return one.left < other.right && one.right > other.left && one.top < other.bottom && one.bottom > other.top;
}

function isOutside({ x, y }: Point, { width, height }: Size): boolean {
  return x < -OFF_EDGE_PX || y < -OFF_EDGE_PX || x > width + OFF_EDGE_PX || y > height + OFF_EDGE_PX;
}

function keepInside({ x, y }: Point, { width, height }: Size, margin: number): Point {
  return {
    x: Math.max(margin, Math.min(x, width - margin)),
    y: Math.max(margin, Math.min(y, height - margin)),
  };
}
