import type { FeatureRef } from '../../findings/finding';
import type { Hole, Part, Plan } from '../../model/plan';
import { addDimensionColumn, addDimensionRow, getDimensionText, type Span } from '../dimensions';
import { addLine, addPath, addText, buildView, createDraft, type Draft, TEXT_SIZES, toDrawing } from '../draft';
import { addHiddenHole, addRoundHole, type HoleLook } from '../holes';
import type { Point, View } from '../marks';
import { getPolygon, getRectangle } from '../paths';
import { getWidthProfile } from '../scene';
import { buildEmptyView } from './options';

export interface PartViewOptions {
  /** Drawing mm to a mm of paper. */
  mmPerPaperMm: number;
  dimensions?: boolean;
}

/** Between the two views, mm of paper: with dimensions, and bare. */
const GAPS = { dimensioned: 12, bare: 8 } as const;

/**
 * One part with what stays on it for later operations: from the side above, from the top below it in line. X from the
 * part's left end, Z (and below, Y) from its bottom.
 */
export function buildPart(plan: Plan, partId: string, options: PartViewOptions): View {
  const part = plan.parts.find((candidate) => candidate.id === partId);
  if (!part) {
    return buildEmptyView(plan, 'part', 'Part', options.mmPerPaperMm);
  }
  const draft = createDraft(plan.units, options.mmPerPaperMm);
  const allowance = part.allowance ?? plan.allowance;
  const feature: FeatureRef = { kind: 'part', id: part.id };
  const finished = getRectangle(0, 0, part.length, part.height);
  const rough = getRectangle(
    -allowance.leftEnd,
    -allowance.bottom,
    part.length + allowance.rightEnd,
    part.height + allowance.top,
  );
  addPath(draft, 'allowance', [...rough, ...finished], { pen: 'narrow', fill: 'allowance', feature });
  addPath(draft, 'part', finished, { pen: 'wide', fill: 'part', feature });
  const isDimensioned = options.dimensions ?? true;
  const gap = toDrawing(draft, isDimensioned ? GAPS.dimensioned : GAPS.bare);
  const middle = -allowance.bottom - gap - allowance.movingSide - part.thickness / 2;
  addFromAbove(draft, part, allowance, middle);
  for (const hole of part.holes) {
    addHole(draft, part, hole, middle);
  }
  if (isDimensioned) {
    addPartDimensions(draft, part, middle);
  }
  return buildView(draft, 'part', part.name);
}

function addFromAbove(draft: Draft, part: Part, allowance: Plan['allowance'], middle: number): void {
  const feature: FeatureRef = { kind: 'part', id: part.id };
  const profile = getWidthProfile(part);
  const outline = (left: number, right: number, near: number, far: number): Point[] => {
    const points = profile.map((point, index) => ({
      x: point.x - (index === 0 ? left : 0) + (index === profile.length - 1 ? right : 0),
      half: point.width / 2,
    }));
    return [
      ...points.map((point) => ({ x: point.x, y: middle - point.half - near })),
      ...points.toReversed().map((point) => ({ x: point.x, y: middle + point.half + far })),
    ];
  };
  const finished = getPolygon(outline(0, 0, 0, 0));
  const rough = getPolygon(outline(allowance.leftEnd, allowance.rightEnd, allowance.fixedSide, allowance.movingSide));
  addPath(draft, 'allowance', [...rough, ...finished], { pen: 'narrow', fill: 'allowance', feature });
  addPath(draft, 'part', finished, { pen: 'wide', fill: 'part', feature });
  const beyond = toDrawing(draft, 3);
  addLine(
    draft,
    'centre',
    [
      { x: -beyond, y: middle },
      { x: part.length + beyond, y: middle },
    ],
    { pen: 'chain' },
  );
}

/** A hole round in one view and as hidden lines in the other, as far as it lies in the part. */
function addHole(draft: Draft, part: Part, hole: Hole, middle: number): void {
  const look: HoleLook = { feature: { kind: 'part', id: part.id }, beyond: 1.5 };
  const half = part.thickness / 2;
  const fromSide = { left: 0, right: part.length, bottom: 0, top: part.height };
  const fromAbove = { left: 0, right: part.length, bottom: middle - half, top: middle + half };
  const isBore = hole.axis === 'z';
  const centre = { x: hole.x, y: isBore ? middle : hole.z };
  addRoundHole(draft, centre, hole, isBore ? fromAbove : fromSide, look);
  addHiddenHole(draft, hole.x, hole, isBore ? fromSide : fromAbove, look);
}

function addPartDimensions(draft: Draft, part: Part, middle: number): void {
  const text = (mm: number): string => getDimensionText(draft, mm);
  const first = part.height + toDrawing(draft, 7);
  const used = addDimensionRow(draft, getHoleSpans(part, text), first, part.height);
  addDimensionRow(draft, [{ from: 0, to: part.length, text: text(part.length) }], first + used, part.height);
  const right = part.length + toDrawing(draft, 7);
  addDimensionColumn(draft, [{ from: 0, to: part.height, text: text(part.height) }], right, part.length);
  const half = part.thickness / 2;
  addDimensionColumn(
    draft,
    [{ from: middle - half, to: middle + half, text: text(part.thickness) }],
    right,
    part.length,
  );
  const below = middle - half - toDrawing(draft, 7);
  addDimensionRow(draft, getStationSpans(part, text), below, middle - half);
  const notes = part.holes.map((hole) => {
    const slot = hole.slotLength > 0 ? ` × ${text(hole.slotLength + hole.diameter)} slot` : '';
    return `⌀ ${text(hole.diameter)}${slot} at ${text(hole.x)}`;
  });
  if (notes.length > 0) {
    addText(draft, { x: 0, y: below - toDrawing(draft, 15) }, notes.join('   '), { size: TEXT_SIZES.small });
  }
}

function getHoleSpans(part: Part, text: (mm: number) => string): Span[] {
  const places = [...new Set(part.holes.map((hole) => hole.x))].toSorted((a, b) => a - b);
  return places
    .map((place, index) => ({ from: places[index - 1] ?? 0, to: place }))
    .filter((span) => span.to > span.from)
    .map((span) => ({ ...span, text: text(span.to - span.from) }));
}

function getStationSpans(part: Part, text: (mm: number) => string): Span[] {
  return part.stations
    .toSorted((a, b) => a.from - b.from)
    .filter((station) => station.to > station.from)
    .map((station) => ({ from: station.from, to: station.to, text: text(station.to - station.from) }));
}
