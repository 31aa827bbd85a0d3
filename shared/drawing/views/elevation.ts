import type { Evaluation } from '../../evaluate';
import type { FeatureRef } from '../../findings/finding';
import type { Hole, Plan } from '../../model/plan';
import type { Shop } from '../../model/shop';
import { addDimensionColumn, addDimensionRow, getBothUnitsText, getDimensionText, type Span } from '../dimensions';
import {
  addLine,
  addPath,
  addText,
  buildView,
  createDraft,
  type Draft,
  getThinLayerPen,
  TEXT_SIZES,
  toDrawing,
} from '../draft';
import { addBreakLine, addSectionLine, addZeroSymbol } from '../furniture';
import { addHiddenHole, addRoundHole, type HoleLook } from '../holes';
import type { View } from '../marks';
import { getCircle, getRectangle } from '../paths';
import {
  getBarSpan,
  getBedZ,
  getCutterPieces,
  getJawSpans,
  getKerf,
  getPartX,
  getScene,
  type Scene,
  type ScenePart,
} from '../scene';
import { fitText, getTextWidth, wrapText } from '../text-width';
import { buildEmptyView, type ViewOptions } from './options';

export interface ElevationOptions extends ViewOptions {
  /** X of the cutting plane from the stop, mm; null or absent for none. */
  sectionX?: number | null;
  /** How far down the vises are drawn: to the table, or cut short below their beds. Default `table`. */
  base?: 'table' | 'bed';
  /** Dimensions of what all blanks share as well, heights and the vises' places; default true. */
  setup?: boolean;
  /** X at which the cut-off cutter, its shank and its holder stand in phantom lines; null or absent for none. */
  cutterX?: number | null;
}

/** Lengths of paper, mm. */
const FIRST_ROW = 6;
const STOP_WIDTH = 5;
/** Room of the zero's label left of the stop. */
const ZERO_LABEL = 14;
const LEAST_NAME_HEIGHT = 5;
/** Drawn depth of the table: only its upper side matters. */
const TABLE_DEPTH = 22;
const SLOT_DEPTH = 10;
/** On smaller pictures the screws of the jaws would only be in the way of the vise's name. */
const COARSEST_WITH_BOLTS = 4;

/**
 * The setup seen across the bar: X to the right, Z up, 0 at the stop and the jaw tops.
 *
 * @returns a view whose marks carry the features they show; a sentence when there is nothing to draw
 */
export function buildElevation(plan: Plan, evaluation: Evaluation, shop: Shop, options: ElevationOptions): View {
  const title = 'Elevation along X';
  const scene = getScene(plan, evaluation, shop, options.blankIndex);
  if (!scene) {
    return buildEmptyView(plan, 'elevation', title, options.mmPerPaperMm);
  }
  const draft = createDraft(plan.units, options.mmPerPaperMm, options.bothUnits);
  const base = options.base ?? 'table';
  const extent = getExtent(scene, base);
  if (base === 'table') {
    addTable(draft, scene, extent);
  }
  addViseBodies(draft, scene, base);
  addBar(draft, scene);
  for (const piece of scene.parts) {
    addPiece(draft, scene, piece, options.sectionX ?? null);
  }
  addJaws(draft, scene, options.sectionX ?? null);
  addStop(draft, scene);
  addLine(
    draft,
    'centre',
    [
      { x: extent.left, y: 0 },
      { x: extent.right, y: 0 },
    ],
    { pen: 'chain' },
  );
  const cutterX = options.cutterX ?? null;
  if (cutterX !== null) {
    addPhantomCutter(draft, scene, cutterX);
  }
  // Dimensions and the section's letter keep above all that stands there.
  const top = Math.max(
    getBarSpan(scene).top,
    ...(cutterX === null ? [] : getCutterPieces(scene).map((one) => one.top)),
  );
  if (options.dimensions ?? true) {
    addElevationDimensions(draft, scene, { ...extent, top }, options.setup ?? true);
  }
  if (options.sectionX !== undefined && options.sectionX !== null) {
    const bottom = -scene.blank.stack.grip.nominal - toDrawing(draft, 9);
    addSectionLine(draft, options.sectionX, bottom, top + toDrawing(draft, 4), 'A');
  }
  return buildView(draft, 'elevation', title);
}

interface Extent {
  left: number;
  right: number;
  bottom: number;
}

function getExtent(scene: Scene, base: 'table' | 'bed'): Extent {
  const bodies = scene.vises.centres.value.flatMap((centre) => [
    centre - scene.vise.bodyLength / 2,
    centre + scene.vise.bodyLength / 2,
  ]);
  const { bed, table } = getBedZ(scene);
  return {
    left: Math.min(scene.blank.x, 0, ...bodies) - 12,
    right: Math.max(scene.blank.xEnd, ...bodies) + 12,
    bottom: base === 'table' ? table - TABLE_DEPTH : bed - getStump(scene),
  };
}

/** How much of a vise is drawn below its bed when it is cut short. */
function getStump(scene: Scene): number {
  return Math.min(12, scene.vise.bedHeight);
}

function addTable(draft: Draft, scene: Scene, extent: Extent): void {
  const top = getBedZ(scene).table;
  const feature: FeatureRef = { kind: 'table', id: 'table' };
  addPath(draft, 'table', getRectangle(extent.left, extent.bottom, extent.right, top), {
    pen: 'none',
    fill: 'tableFace',
    feature,
  });
  for (const y of [top, extent.bottom]) {
    addLine(
      draft,
      'table',
      [
        { x: extent.left, y },
        { x: extent.right, y },
      ],
      { pen: 'narrow', feature },
    );
  }
  for (const x of [extent.left, extent.right]) {
    addBreakLine(draft, { x, y: extent.bottom }, { x, y: top });
  }
  if (scene.machine.tSlotPitch > 0) {
    // The slots run along X, so they show as hidden lines here and in section in the end view.
    const y = top - SLOT_DEPTH;
    addLine(
      draft,
      'hidden',
      [
        { x: extent.left, y },
        { x: extent.right, y },
      ],
      { pen: 'dashed' },
    );
  }
}

function addViseBodies(draft: Draft, scene: Scene, base: 'table' | 'bed'): void {
  const { bed, table } = getBedZ(scene);
  const bottom = base === 'table' ? table : bed - getStump(scene);
  for (const [index, centre] of scene.vises.centres.value.entries()) {
    const feature: FeatureRef = { kind: 'vise', id: String(index) };
    const left = centre - scene.vise.bodyLength / 2;
    const right = centre + scene.vise.bodyLength / 2;
    addPath(draft, 'vise', getRectangle(left, bottom, right, bed), {
      pen: base === 'table' ? 'wide' : 'none',
      fill: 'viseFace',
      feature,
    });
    if (base === 'bed') {
      addLine(
        draft,
        'vise',
        [
          { x: left, y: bottom },
          { x: left, y: bed },
          { x: right, y: bed },
          { x: right, y: bottom },
        ],
        {
          pen: 'wide',
          feature,
        },
      );
      addBreakLine(draft, { x: left, y: bottom }, { x: right, y: bottom });
    }
  }
}

function addBar(draft: Draft, scene: Scene): void {
  const { blank } = scene;
  const { bottom, top } = getBarSpan(scene);
  const { clearance } = blank.stack;
  const bar: FeatureRef = { kind: 'blank', id: blank.templateId };
  addPath(draft, 'bar', getRectangle(blank.x, bottom, blank.xEnd, top), { pen: 'none', fill: 'barFace', feature: bar });
  if (clearance < top) {
    const cleanup = getRectangle(blank.x, clearance, blank.xEnd, top);
    const kept = scene.parts.flatMap((piece) => {
      const outline = getEnvelope(piece);
      return getRectangle(outline.left, clearance, outline.right, outline.top);
    });
    addPath(draft, 'cleanup', [...cleanup, ...kept], { pen: 'none', fill: 'cleanup', feature: bar });
    addLine(
      draft,
      'cleanup',
      [
        { x: blank.x, y: clearance },
        { x: blank.xEnd, y: clearance },
      ],
      {
        pen: 'narrow',
        feature: bar,
      },
    );
  }
  addPath(draft, 'bar', getRectangle(blank.x, bottom, blank.xEnd, top), { pen: 'wide', feature: bar });
}

interface Envelope {
  left: number;
  right: number;
  bottom: number;
  top: number;
}

/** The part with its allowances. */
function getEnvelope(piece: ScenePart): Envelope {
  return {
    left: piece.left - piece.allowance.leftEnd,
    right: piece.right + piece.allowance.rightEnd,
    bottom: piece.bottom - piece.allowance.bottom,
    top: piece.top + piece.allowance.top,
  };
}

function addPiece(draft: Draft, scene: Scene, piece: ScenePart, sectionX: number | null): void {
  const feature: FeatureRef = { kind: 'part', id: piece.placed.slotId };
  const outline = getEnvelope(piece);
  addSlot(draft, scene, piece, outline);
  const finished = getRectangle(piece.left, piece.bottom, piece.right, piece.top);
  addPath(
    draft,
    'allowance',
    [...getRectangle(outline.left, outline.bottom, outline.right, outline.top), ...finished],
    { pen: getThinLayerPen(draft, Object.values(piece.allowance)), fill: 'allowance', feature },
  );
  addPath(draft, 'part', finished, { pen: 'wide', fill: 'part', feature });
  for (const hole of piece.part.holes) {
    addHole(draft, piece, hole);
  }
  addPartName(draft, piece, feature, sectionX);
}

/** The cut-off's slot below a part, with the rib or the tabs that stand in it. */
function addSlot(draft: Draft, scene: Scene, piece: ScenePart, outline: Envelope): void {
  const kerf = getKerf(scene);
  if (kerf <= 0) {
    return;
  }
  const bottom = outline.bottom - kerf;
  const cutter: FeatureRef = { kind: 'cutter', id: scene.cutter?.id ?? '' };
  addPath(draft, 'kerf', getRectangle(outline.left, bottom, outline.right, outline.bottom), {
    pen: 'narrow',
    fill: 'kerf',
    feature: cutter,
  });
  for (const [index, tab] of (piece.rib?.tabs ?? []).entries()) {
    const ends = [getPartX(piece, tab.from), getPartX(piece, tab.to)].toSorted((a, b) => a - b);
    addPath(draft, 'tab', getRectangle(ends[0] ?? 0, bottom, ends[1] ?? 0, outline.bottom), {
      pen: 'narrow',
      fill: 'rib',
      feature: { kind: 'tab', id: `${piece.placed.slotId}:${index}` },
    });
  }
}

function addHole(draft: Draft, piece: ScenePart, hole: Hole): void {
  const look: HoleLook = { feature: { kind: 'part', id: piece.placed.slotId }, beyond: 2 };
  const x = getPartX(piece, hole.x);
  if (hole.axis === 'y') {
    addRoundHole(draft, { x, y: piece.bottom + hole.z }, hole, piece, look);
  } else {
    addHiddenHole(draft, x, hole, piece, look);
  }
}

/** Sets the name between the bores and the cutting plane where it fits, so that no line runs through it. */
function addPartName(draft: Draft, piece: ScenePart, feature: FeatureRef, sectionX: number | null): void {
  if (piece.top - piece.bottom < toDrawing(draft, LEAST_NAME_HEIGHT)) {
    return;
  }
  const free = getFreeSpans(draft, piece, sectionX).toSorted((a, b) => b.to - b.from - (a.to - a.from))[0];
  if (!free) {
    return;
  }
  const { size, lines } = getNameLines(draft, piece, free.to - free.from - toDrawing(draft, 3));
  const pitch = toDrawing(draft, size) * NAME_PITCH;
  const middle = (piece.bottom + piece.top) / 2 - toDrawing(draft, size) / 2;
  for (const [index, line] of lines.entries()) {
    const at = { x: (free.from + free.to) / 2, y: middle + pitch * ((lines.length - 1) / 2 - index) };
    addText(draft, at, line, { size, anchor: 'middle', weight: 'semibold', feature });
  }
}

const NAME_PITCH = 1.6;

/** A name whole if it can be: smaller, then on two lines, before it is cut. */
function getNameLines(draft: Draft, { part, bottom, top }: ScenePart, room: number): { size: number; lines: string[] } {
  const sizes = [TEXT_SIZES.text, TEXT_SIZES.small];
  const whole = sizes.find((each) => getTextWidth(part.name, toDrawing(draft, each), 'semibold') <= room);
  if (whole !== undefined) {
    return { size: whole, lines: [part.name] };
  }
  for (const size of sizes) {
    const lines = wrapText(part.name, room, toDrawing(draft, size), 'semibold');
    const isHighEnough = top - bottom >= toDrawing(draft, size) * NAME_PITCH * 2.5;
    const isTorn = lines.join(' ').replace(/\s+/gu, ' ') !== part.name.trim().replace(/\s+/gu, ' ');
    if (lines.length === 2 && isHighEnough && !isTorn) {
      return { size, lines };
    }
  }
  const text = fitText(part.name, room, toDrawing(draft, TEXT_SIZES.text), 'semibold');
  return { size: TEXT_SIZES.text, lines: text.length < LEAST_CUT_NAME ? [] : [text] };
}

/** A name cut shorter than this, with its ellipsis, names nothing. */
const LEAST_CUT_NAME = 5;

function getFreeSpans(draft: Draft, piece: ScenePart, sectionX: number | null): { from: number; to: number }[] {
  const middle = (piece.top - piece.bottom) / 2;
  const near = toDrawing(draft, 5);
  const walls = piece.part.holes
    .filter((hole) => hole.axis === 'z' || Math.abs(hole.z - middle) < hole.diameter / 2 + near)
    .map((hole) => ({ x: getPartX(piece, hole.x), half: (hole.diameter + hole.slotLength) / 2 }))
    .concat(sectionX !== null && sectionX > piece.left && sectionX < piece.right ? [{ x: sectionX, half: 0 }] : [])
    .toSorted((a, b) => a.x - b.x);
  const edges = [{ x: piece.left, half: 0 }, ...walls, { x: piece.right, half: 0 }];
  return edges.slice(1).map((edge, index) => {
    const before = edges[index] ?? edge;
    return { from: before.x + before.half, to: edge.x - edge.half };
  });
}

/** The fixed jaws stand before the bar and hide its gripped part. */
function addJaws(draft: Draft, scene: Scene, sectionX: number | null): void {
  const { bed } = getBedZ(scene);
  const grip = scene.blank.stack.grip.nominal;
  for (const [index, span] of getJawSpans(scene).entries()) {
    const feature: FeatureRef = { kind: 'jaw', id: String(index) };
    addPath(draft, 'jaw', getRectangle(span.left, bed, span.right, 0), { pen: 'wide', fill: 'jawFace', feature });
    addHiddenBar(draft, scene, span, -grip);
    addHiddenSeat(draft, scene, span, bed);
    addHiddenBolts(draft, scene, span, bed, feature);
    addViseName(draft, index, { ...span, bed, sectionX }, feature);
  }
}

/** Room of the section line's letter and arrow on either side of the line, mm of paper. */
const SECTION_ROOM = 6;

/** Beside the vise's centre line, clear of the section line: its name, or where the jaw has no room for it its number. */
function addViseName(
  draft: Draft,
  index: number,
  { left, right, bed, sectionX }: { left: number; right: number; bed: number; sectionX: number | null },
  feature: FeatureRef,
): void {
  const size = toDrawing(draft, TEXT_SIZES.small);
  const clear = toDrawing(draft, 1);
  const centre = (left + right) / 2;
  const away = toDrawing(draft, SECTION_ROOM);
  const starts = (width: number): number[] => [
    centre + clear,
    centre - clear - width,
    ...(sectionX === null ? [] : [sectionX + away, sectionX - away - width]),
  ];
  const isFree = (from: number, to: number): boolean =>
    from >= left + clear / 2 &&
    to <= right - clear / 2 &&
    (from >= centre + clear || to <= centre - clear) &&
    (sectionX === null || from >= sectionX + away || to <= sectionX - clear);
  const named = [`vise ${index + 1}`, String(index + 1)]
    .flatMap((name) => {
      const width = getTextWidth(name, size);
      return starts(width).map((x) => ({ name, x, to: x + width }));
    })
    .find(({ x, to }) => isFree(x, to));
  if (named !== undefined && -bed > size * 2) {
    addText(draft, { x: named.x, y: bed + toDrawing(draft, 1.4) }, named.name, { size: TEXT_SIZES.small, feature });
  }
}

function addHiddenBar(draft: Draft, scene: Scene, jaw: { left: number; right: number }, bottom: number): void {
  const from = Math.max(jaw.left, scene.blank.x);
  const to = Math.min(jaw.right, scene.blank.xEnd);
  if (to <= from) {
    return;
  }
  const feature: FeatureRef = { kind: 'blank', id: scene.blank.templateId };
  addLine(
    draft,
    'hidden',
    [
      { x: from, y: bottom },
      { x: to, y: bottom },
    ],
    { pen: 'dashed', feature },
  );
  for (const end of [scene.blank.x, scene.blank.xEnd]) {
    if (end > jaw.left && end < jaw.right) {
      addLine(
        draft,
        'hidden',
        [
          { x: end, y: bottom },
          { x: end, y: 0 },
        ],
        { pen: 'dashed', feature },
      );
    }
  }
}

function addHiddenSeat(draft: Draft, scene: Scene, jaw: { left: number; right: number }, bed: number): void {
  const choice = scene.seat.choice.value;
  const feature: FeatureRef = { kind: 'seat', id: choice.kind };
  if (choice.kind === 'shelf') {
    const y = -scene.seat.shelfDepth.value;
    addLine(
      draft,
      'seat',
      [
        { x: jaw.left, y },
        { x: jaw.right, y },
      ],
      { pen: 'dashed', feature },
    );
    return;
  }
  if (choice.kind === 'parallels') {
    const row = scene.seat.parallels.find((candidate) => candidate.parallelId === choice.parallelId);
    const top = bed + (row?.height ?? 0);
    addLine(
      draft,
      'seat',
      [
        { x: jaw.left, y: top },
        { x: jaw.right, y: top },
      ],
      { pen: 'dashed', feature },
    );
  }
}

function addHiddenBolts(
  draft: Draft,
  scene: Scene,
  jaw: { left: number; right: number },
  bed: number,
  feature: FeatureRef,
): void {
  const { bolts } = scene.jawSet;
  if (!bolts || draft.mmPerPaperMm > COARSEST_WITH_BOLTS) {
    return;
  }
  const centre = (jaw.left + jaw.right) / 2;
  for (const x of [centre - bolts.spacing / 2, centre + bolts.spacing / 2]) {
    addPath(draft, 'hidden', getCircle(x, bed + bolts.centreHeight, bolts.counterboreDiameter / 2), {
      pen: 'dashed',
      feature,
    });
  }
}

function addStop(draft: Draft, scene: Scene): void {
  const width = toDrawing(draft, STOP_WIDTH);
  const top = Math.max(toDrawing(draft, 5), scene.blank.stack.proudHeight.nominal * 0.35);
  addPath(draft, 'stop', getRectangle(-width, 0, 0, top), {
    pen: 'narrow',
    fill: 'holder',
    feature: { kind: 'field', id: 'holding.blankX' },
  });
}

/** The cutter at its depth as an adjacent thing is drawn: outlines alone, so that it hides nothing. */
function addPhantomCutter(draft: Draft, scene: Scene, x: number): void {
  for (const piece of getCutterPieces(scene)) {
    const half = piece.diameter / 2;
    addPath(draft, piece.layer, getRectangle(x - half, piece.bottom, x + half, piece.top), {
      pen: 'chain',
      feature: { kind: 'cutter', id: piece.id },
    });
  }
}

function addElevationDimensions(
  draft: Draft,
  scene: Scene,
  extent: Extent & { top: number },
  withSetup: boolean,
): void {
  const { blank } = scene;
  const { bottom, top } = getBarSpan(scene);
  let y = extent.top + toDrawing(draft, FIRST_ROW);
  y += addDimensionRow(draft, getPartSpans(draft, scene), y, top);
  const text = `blank ${getBothUnitsText(draft, blank.length)}`;
  const fromStop = blank.x > 1e-6 ? [{ from: 0, to: blank.x, text: getDimensionText(draft, blank.x) }] : [];
  const whole: Span = { from: blank.x, to: blank.xEnd, text, feature: { kind: 'blank', id: blank.templateId } };
  addDimensionRow(draft, [...fromStop, whole], y, top);
  if (withSetup) {
    addHeightDimensions(draft, scene, extent, bottom, top);
    addGroundDimensions(draft, scene, extent);
  }
  addZero(draft, scene);
}

/** Lengths of the parts and the gaps between them. */
function getPartSpans(draft: Draft, scene: Scene): Span[] {
  const pieces = scene.parts.toSorted((a, b) => a.left - b.left);
  return pieces.flatMap((piece, index) => {
    const own: Span = {
      from: piece.left,
      to: piece.right,
      text: getDimensionText(draft, piece.part.length),
      feature: { kind: 'part', id: piece.placed.slotId },
    };
    const next = pieces[index + 1];
    return next && next.left > piece.right + 1e-6
      ? [own, { from: piece.right, to: next.left, text: getDimensionText(draft, next.left - piece.right) }]
      : [own];
  });
}

function addHeightDimensions(draft: Draft, scene: Scene, extent: Extent, bottom: number, top: number): void {
  const { stack } = scene.blank;
  const inner: Span[] = [
    {
      from: bottom,
      to: 0,
      text: `grip ${getBothUnitsText(draft, stack.grip.nominal)}`,
      feature: { kind: 'stack', id: 'grip' },
    },
    {
      from: 0,
      to: top,
      text: `proud ${getBothUnitsText(draft, stack.proudHeight.nominal)}`,
      feature: { kind: 'stack', id: 'proud' },
    },
  ];
  const x = extent.right + toDrawing(draft, 4);
  addDimensionColumn(draft, inner, x, scene.blank.xEnd);
  const { bed } = getBedZ(scene);
  addDimensionColumn(
    draft,
    [
      {
        from: bed,
        to: 0,
        text: `jaw ${getBothUnitsText(draft, scene.seat.jawHeight)}`,
        feature: { kind: 'seat', id: 'jaw' },
      },
    ],
    Math.min(extent.left - toDrawing(draft, 4), -toDrawing(draft, STOP_WIDTH + ZERO_LABEL)),
    Math.min(...getJawSpans(scene).map((span) => span.left), extent.left + toDrawing(draft, 2)),
    'left',
  );
}

/** Below the vises: what sticks out of them, and how far their centres stand from the stop and from each other. */
function addGroundDimensions(draft: Draft, scene: Scene, extent: Extent): void {
  const { blank, vises } = scene;
  const free = [
    { from: blank.x, to: blank.contacts[0]?.from ?? blank.x },
    { from: blank.contacts.at(-1)?.to ?? blank.xEnd, to: blank.xEnd },
  ].filter((span) => span.to - span.from > 1e-6);
  let y = extent.bottom - toDrawing(draft, FIRST_ROW);
  y -= addDimensionRow(
    draft,
    free.map((span) => ({ ...span, text: getDimensionText(draft, span.to - span.from) })),
    y,
    -blank.stack.grip.nominal,
  );
  const centres = vises.centres.value;
  const pitches = centres.map((centre, index) => ({ from: centres[index - 1] ?? 0, to: centre, index }));
  addDimensionRow(
    draft,
    pitches
      .filter((pitch) => pitch.to > pitch.from)
      .map((pitch) => ({
        from: pitch.from,
        to: pitch.to,
        text: getDimensionText(draft, pitch.to - pitch.from),
        feature: { kind: 'vise', id: String(pitch.index) },
      })),
    y,
    extent.bottom,
  );
  for (const centre of centres) {
    addLine(
      draft,
      'centre',
      [
        { x: centre, y: -blank.stack.grip.nominal - toDrawing(draft, 1) },
        { x: centre, y: extent.bottom - toDrawing(draft, 1) },
      ],
      {
        pen: 'chain',
      },
    );
  }
}

function addZero(draft: Draft, scene: Scene): void {
  const { zero } = scene.plan;
  const first = scene.parts[0];
  const x = { stop: 0, blankLeft: scene.blank.x, partLeft: first?.left ?? scene.blank.x }[zero.x];
  const z = { jawTop: 0, blankTop: getBarSpan(scene).top, partTop: first?.top ?? 0 }[zero.z];
  addZeroSymbol(draft, { x, y: z }, 'X0 Z0', zero.z === 'jawTop' ? 1 : STOP_WIDTH + 1);
}
