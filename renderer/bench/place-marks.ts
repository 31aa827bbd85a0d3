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
const HALF_PX = 9.5;
const COUNT_PX = { edge: 7, digit: 7 };
const OFF_EDGE_PX = 2;
const USUAL_REM_PX = 16;
/** No further than this from its own place does a mark go to lie over no text, px at the usual text size. */
const NEAR_PX = 90;

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

/**
 * Marks beside what they are about: over no text where there is such a place near by, and over none of each other nor out
 * of the pane where it has room for one more at all.
 */
export function placeMarks(
  anchors: readonly FindingAnchor[],
  { view, camera, pane, remPx }: MarkRoom,
): readonly PlacedMark[] {
  const scale = remPx / USUAL_REM_PX;
  const labels = getTexts(view).map((bounds) => toBox(bounds, camera));
  const taken: Box[] = [];
  return anchors.flatMap((anchor): PlacedMark[] => {
    const corner = toScreen(camera, anchor);
    if (isOutside(corner, pane)) return [];
    const own = getOwnBox(anchor, scale);
    const inside = getInside(own, pane);
    const places = OFFSETS.map(({ x, y }) => keepIn({ x: corner.x + x * scale, y: corner.y + y * scale }, inside));
    const [usual = keepIn(corner, inside)] = places;
    const near = getAround(usual, NEAR_PX * scale, inside);
    const at =
      places.find((place) => isFree(own, place, labels) && isFree(own, place, taken)) ??
      findFree(own, usual, near, [...labels.filter((box) => overlaps(box, getCovered(near, own))), ...taken]) ??
      findFree(own, usual, inside, taken) ??
      usual;
    taken.push(moveBox(own, at));
    return [{ anchor, at }];
  });
}

/** A mark about the middle of its sign. */
function getOwnBox({ findings }: FindingAnchor, scale: number): Box {
  const half = HALF_PX * scale;
  const count = COUNT_PX.edge + COUNT_PX.digit * String(findings.length).length;
  return { left: -half, right: half + (findings.length > 1 ? count * scale : 0), top: -half, bottom: half };
}

/** Where the middle of a mark's sign may lie for all of the mark to be in the pane. */
function getInside(own: Box, { width, height }: Size): Box {
  return {
    left: OFF_EDGE_PX - own.left,
    right: width - OFF_EDGE_PX - own.right,
    top: OFF_EDGE_PX - own.top,
    bottom: height - OFF_EDGE_PX - own.bottom,
  };
}

/**
 * The free place nearest to the one wanted. Where there is any, there is one that touches what is taken or the limits on
 * two sides, so that no other place needs to be tried.
 */
function findFree(own: Box, wanted: Point, limits: Box, taken: readonly Box[]): Point | null {
  const isWithin = (value: number, from: number, to: number): boolean => value >= from && value <= to;
  const xs = [
    wanted.x,
    limits.left,
    limits.right,
    ...taken.flatMap((box) => [box.left - own.right, box.right - own.left]),
  ];
  const ys = [
    wanted.y,
    limits.top,
    limits.bottom,
    ...taken.flatMap((box) => [box.top - own.bottom, box.bottom - own.top]),
  ];
  const rows = ys.filter((y) => isWithin(y, limits.top, limits.bottom));
  const getDistance = ({ x, y }: Point): number => Math.hypot(x - wanted.x, y - wanted.y);
  return (
    xs
      .filter((x) => isWithin(x, limits.left, limits.right))
      .flatMap((x) => rows.map((y) => ({ x, y })))
      .toSorted((a, b) => getDistance(a) - getDistance(b))
      .find((place) => isFree(own, place, taken)) ?? null
  );
}

function isFree(own: Box, at: Point, taken: readonly Box[]): boolean {
  const box = moveBox(own, at);
  return !taken.some((other) => overlaps(other, box));
}

/** All that a mark may cover whose sign lies within limits. */
function getCovered(limits: Box, own: Box): Box {
  return {
    left: limits.left + own.left,
    right: limits.right + own.right,
    top: limits.top + own.top,
    bottom: limits.bottom + own.bottom,
  };
}

function moveBox({ left, right, top, bottom }: Box, { x, y }: Point): Box {
  return { left: left + x, right: right + x, top: top + y, bottom: bottom + y };
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

/** Less than this is touching, px: sums of fractions do not come out exactly. */
const TOUCHING_PX = 1e-6;

function overlaps(one: Box, other: Box): boolean {
  return (
    one.left < other.right - TOUCHING_PX &&
    one.right > other.left + TOUCHING_PX &&
    one.top < other.bottom - TOUCHING_PX &&
    one.bottom > other.top + TOUCHING_PX
  );
}

function isOutside({ x, y }: Point, { width, height }: Size): boolean {
  return x < -OFF_EDGE_PX || y < -OFF_EDGE_PX || x > width + OFF_EDGE_PX || y > height + OFF_EDGE_PX;
}

function keepIn({ x, y }: Point, limits: Box): Point {
  return {
    x: Math.max(limits.left, Math.min(x, limits.right)),
    y: Math.max(limits.top, Math.min(y, limits.bottom)),
  };
}

/** What lies within a distance of a place and within the limits. */
function getAround({ x, y }: Point, distance: number, limits: Box): Box {
  return {
    left: Math.max(limits.left, x - distance),
    right: Math.min(limits.right, x + distance),
    top: Math.max(limits.top, y - distance),
    bottom: Math.min(limits.bottom, y + distance),
  };
}
