import type { FeatureRef } from '../findings/finding';
import { formatLength } from '../units/format';
import { addLine, addPath, addText, type Draft, TEXT_SIZES, toDrawing } from './draft';
import type { Point } from './marks';
import { getPolygon } from './paths';
import { spreadLabels } from './spread-labels';
import { getTextWidth } from './text-width';

/** Furniture sizes in mm of paper. */
const ARROW = { length: 2.4, half: 0.42 };
const EXTENSION = { gap: 0.8, beyond: 1.4 };
const ABOVE_LINE = 0.9;
const BESIDE_LINE = 1.8;
/** Distance from one row of dimensions to the next, and with figures raised above the line. */
const DIMENSION_PITCH = 7;
const RAISED_PITCH = 11;
/** From a dimension line to the foot of a raised figure, mm of paper, and how much higher where leaders run aslant. */
const RISE = { up: 4.6, slant: 1.8, down: -5.6 };
/** From the end of a leader to its figure. */
const LEADER_GAP = 0.7;

export interface Span {
  from: number;
  to: number;
  text: string;
  feature?: FeatureRef | null;
}

/** A length as a dimension figure in the plan's units. */
export function getDimensionText(draft: Draft, mm: number): string {
  return formatLength(mm, draft.units);
}

/** A length in the plan's units with the other unit in square brackets behind it, as drawings that show both do. */
export function getBothUnitsText(draft: Draft, mm: number): string {
  if (!draft.bothUnits) return formatLength(mm, draft.units);
  const other =
    draft.units === 'in' ? formatLength(mm, 'mm', { decimals: 2 }) : formatLength(mm, 'in', { decimals: 3 });
  return `${formatLength(mm, draft.units)} [${other}]`;
}

/**
 * A row of level dimensions on one line. Figures stand above the line; at either end of the row one that is wider than
 * its room stands outside, between the ends one line higher, spread so that none touches another, each with a leader. A
 * figure that repeats one already shown is left out where the room is short.
 *
 * @param spans ascending, not overlapping
 * @param y of the dimension line
 * @param featureY where the extension lines begin
 * @returns how far beyond `y` the next row has to stand, in drawing mm; 0 when there is nothing to dimension
 */
export function addDimensionRow(draft: Draft, spans: readonly Span[], y: number, featureY: number): number {
  const first = spans[0];
  const last = spans.at(-1);
  if (!(first && last)) {
    return 0;
  }
  for (const x of new Set(spans.flatMap((span) => [span.from, span.to]))) {
    addExtension(draft, { x, y: featureY }, { x, y });
  }
  const raised: Span[] = [];
  for (const span of spans) {
    addArrowLine(draft, { x: span.from, y }, { x: span.to, y }, span.feature ?? null);
    const above = y + toDrawing(draft, ABOVE_LINE);
    const room = span.to - span.from;
    if (getFigureWidth(draft, span.text) + toDrawing(draft, 1.5) <= room) {
      addFigure(draft, { x: (span.from + span.to) / 2, y: above }, span, 'middle');
    } else if (span === first && spans.length > 1) {
      addFigure(draft, { x: span.from - toDrawing(draft, BESIDE_LINE), y: above }, span, 'end');
    } else if (span === last && spans.length > 1) {
      addFigure(draft, { x: span.to + toDrawing(draft, BESIDE_LINE), y: above }, span, 'start');
    } else {
      raised.push(span);
    }
  }
  const clear = toDrawing(draft, 1);
  addRaisedFigures(draft, raised, y, y >= featureY ? 1 : -1, { from: first.from + clear, to: last.to - clear });
  return toDrawing(draft, raised.length > 0 ? RAISED_PITCH : DIMENSION_PITCH);
}

function addRaisedFigures(
  draft: Draft,
  spans: readonly Span[],
  y: number,
  up: 1 | -1,
  limits: { from: number; to: number },
): void {
  const shown = dropRepeats(draft, spans);
  const wanted = shown.map((span) => ({
    at: (span.from + span.to) / 2,
    size: getFigureWidth(draft, span.text),
  }));
  const middles = keepBetween(wanted, spreadLabels(wanted, toDrawing(draft, 1.5)), toDrawing(draft, 1.5), limits);
  const isMoved = wanted.some(({ at }, index) => Math.abs((middles[index] ?? at) - at) > toDrawing(draft, 0.5));
  const rise = toDrawing(draft, up > 0 ? RISE.up + (isMoved ? RISE.slant : 0) : RISE.down);
  const end = y + rise - toDrawing(draft, up > 0 ? LEADER_GAP : -TEXT_SIZES.text - LEADER_GAP);
  for (const [index, span] of shown.entries()) {
    const from = (span.from + span.to) / 2;
    const middle = middles[index] ?? from;
    // Past the figures of its neighbours a leader goes straight up: aslant it would run through them.
    const elbow = up > 0 && isMoved ? [{ x: from, y: y + toDrawing(draft, RISE.up - LEADER_GAP) }] : [];
    addLine(draft, 'dimension', [{ x: from, y }, ...elbow, { x: middle, y: end }], { pen: 'narrow' });
    addFigure(draft, { x: middle, y: y + rise }, span, 'middle');
  }
}

/** Moves labels inside the row's two ends, where the extension lines of the next row pass, if they fit there. */
function keepBetween(
  places: readonly { size: number }[],
  middles: readonly number[],
  gap: number,
  limits: { from: number; to: number },
): number[] {
  const needed = places.reduce((sum, place) => sum + place.size + gap, -gap);
  if (needed > limits.to - limits.from) {
    return [...middles];
  }
  const kept = [...middles];
  let edge = limits.from;
  for (const [index, place] of places.entries()) {
    kept[index] = Math.max(kept[index] ?? 0, edge + place.size / 2);
    edge = (kept[index] ?? 0) + place.size / 2 + gap;
  }
  edge = limits.to;
  for (const [index, place] of [...places.entries()].toReversed()) {
    kept[index] = Math.min(kept[index] ?? 0, edge - place.size / 2);
    edge = (kept[index] ?? 0) - place.size / 2 - gap;
  }
  return kept;
}

/** Keeps every figure while there is room, else the first of each. */
function dropRepeats(draft: Draft, spans: readonly Span[]): Span[] {
  const needed = spans.reduce((sum, span) => sum + getFigureWidth(draft, span.text) + toDrawing(draft, 1.5), 0);
  const room = (spans.at(-1)?.to ?? 0) - (spans[0]?.from ?? 0);
  if (spans.length < 3 || needed <= room * 1.2) {
    return [...spans];
  }
  return spans.filter((span, index) => spans.findIndex((other) => other.text === span.text) === index);
}

/**
 * A column of upright dimensions on one line: level figures beside the line (read from one side, as ASME Y14.5
 * draws them), spread so that none touches another.
 *
 * @param spans from the lowest up, not overlapping
 * @param x of the dimension line
 * @param featureX where the extension lines begin
 * @param side on which side of the line the figures stand
 */
export function addDimensionColumn(
  draft: Draft,
  spans: readonly Span[],
  x: number,
  featureX: number,
  side: 'left' | 'right' = 'right',
): void {
  const out = side === 'right' ? 1 : -1;
  for (const y of new Set(spans.flatMap((span) => [span.from, span.to]))) {
    addExtension(draft, { x: featureX, y }, { x, y });
  }
  const size = toDrawing(draft, TEXT_SIZES.text);
  const middles = spreadLabels(
    spans.map((span) => ({ at: (span.from + span.to) / 2, size })),
    toDrawing(draft, 1.6),
  );
  for (const [index, span] of spans.entries()) {
    addArrowLine(draft, { x, y: span.from }, { x, y: span.to }, span.feature ?? null);
    const middle = middles[index] ?? 0;
    const own = (span.from + span.to) / 2;
    const moved = Math.abs(middle - own) > toDrawing(draft, 0.5);
    const textX = x + out * toDrawing(draft, moved ? BESIDE_LINE + 3 : BESIDE_LINE);
    if (moved) {
      addLine(
        draft,
        'dimension',
        [
          { x, y: own },
          { x: textX - out * toDrawing(draft, 0.6), y: middle },
        ],
        { pen: 'narrow' },
      );
    }
    addFigure(draft, { x: textX, y: middle - size / 2 }, span, side === 'right' ? 'start' : 'end');
  }
}

/** Room a column of dimensions takes beyond its line, in drawing mm. */
export function getColumnRoom(draft: Draft, spans: readonly Span[]): number {
  const widest = Math.max(0, ...spans.map((span) => getFigureWidth(draft, span.text)));
  return widest + toDrawing(draft, BESIDE_LINE + 3);
}

function getFigureWidth(draft: Draft, text: string): number {
  return getTextWidth(text, toDrawing(draft, TEXT_SIZES.text));
}

function addFigure(draft: Draft, at: Point, span: Span, anchor: 'start' | 'middle' | 'end'): void {
  addText(draft, at, span.text, { anchor, layer: 'dimension', feature: span.feature ?? null });
}

/** Extension line from a feature to just beyond the dimension line, with the gap that keeps it off the feature. */
function addExtension(draft: Draft, from: Point, to: Point): void {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length < toDrawing(draft, EXTENSION.gap)) {
    return;
  }
  const ux = (to.x - from.x) / length;
  const uy = (to.y - from.y) / length;
  const gap = toDrawing(draft, EXTENSION.gap);
  const beyond = toDrawing(draft, EXTENSION.beyond);
  addLine(
    draft,
    'dimension',
    [
      { x: from.x + ux * gap, y: from.y + uy * gap },
      { x: to.x + ux * beyond, y: to.y + uy * beyond },
    ],
    { pen: 'narrow' },
  );
}

/** A dimension line with an arrow at each end; where the room is short the arrows point in from outside. */
function addArrowLine(draft: Draft, from: Point, to: Point, feature: FeatureRef | null): void {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length <= 0) {
    return;
  }
  const ux = (to.x - from.x) / length;
  const uy = (to.y - from.y) / length;
  const arrow = toDrawing(draft, ARROW.length);
  const outside = length < 2.4 * arrow;
  const reach = outside ? arrow * 1.6 : 0;
  addLine(
    draft,
    'dimension',
    [
      { x: from.x - ux * reach, y: from.y - uy * reach },
      { x: to.x + ux * reach, y: to.y + uy * reach },
    ],
    { pen: 'narrow', feature },
  );
  const turn = outside ? -1 : 1;
  addArrow(draft, from, { x: ux * turn, y: uy * turn });
  addArrow(draft, to, { x: -ux * turn, y: -uy * turn });
}

/** A filled arrow head with its tip at a point; `direction` is the unit vector from the tip along the line. */
export function addArrow(draft: Draft, tip: Point, direction: Point): void {
  const length = toDrawing(draft, ARROW.length);
  const half = toDrawing(draft, ARROW.half);
  const base = { x: tip.x + direction.x * length, y: tip.y + direction.y * length };
  addPath(
    draft,
    'dimension',
    getPolygon([
      tip,
      { x: base.x - direction.y * half, y: base.y + direction.x * half },
      { x: base.x + direction.y * half, y: base.y - direction.x * half },
    ]),
    { pen: 'none', fill: 'ink' },
  );
}
