import type { ReachResult } from '../../engine/results';
import type { Evaluation } from '../../evaluate';
import type { FeatureRef } from '../../findings/finding';
import type { Plan } from '../../model/plan';
import type { Shop } from '../../model/shop';
import { addCounterbore } from '../counterbore';
import { addDimensionColumn, getBothUnitsText, getDimensionText } from '../dimensions';
import {
  addLine,
  addPath,
  addText,
  addTextOnGround,
  buildView,
  createDraft,
  type Draft,
  getThinLayerPen,
  TEXT_SIZES,
  toDrawing,
} from '../draft';
import { type EndMillPass, getDeepestEndMillPass } from '../end-mill-pieces';
import { addBreakLine, addZeroSymbol } from '../furniture';
import { addCallouts, type Callout } from '../labels';
import type { Point, Segment, View } from '../marks';
import { getPolygon, getRectangle } from '../paths';
import {
  type CutOffAcross,
  type CutterPiece,
  getBarSpan,
  getBedZ,
  getCentreY,
  getCutOffAt,
  getCutterPieces,
  getJawSpans,
  getKerf,
  getPieceAt,
  getScene,
  getWidthAt,
  type Scene,
  type ScenePart,
} from '../scene';
import { getTextWidth } from '../text-width';
import { buildEmptyView, type ViewOptions } from './options';

export interface EndSectionOptions extends ViewOptions {
  /** X of the cutting plane from the stop, mm; by default where `getSectionX` puts it. */
  x?: number;
  /** How much of the vise is drawn: the jaws alone, or all of it down to the table. Default `jaws`. */
  extent?: 'jaws' | 'table';
  /** A tool in its holder; default true. */
  cutter?: boolean;
  /** Which tool: the cut-off cutter at the end of its cut, or the end mill that goes deepest, at its last pass. Default `cutOff`. */
  pass?: 'cutOff' | 'endMill';
}

/** Vise metal drawn around the jaws when the vise is cut short, mm. */
const MARGIN = 6;
/** Drawn depth of table and T-slot (opening and head), mm. */
const TABLE = { depth: 30, slotWidth: 14, slotDepth: 12, headWidth: 24, headDepth: 10 };

/**
 * Where the end section is taken unless the user says otherwise: along the longest stretch with the widest rib of the
 * tallest part, off any hole.
 *
 * @returns X from the stop, mm; 0 when there is nothing to cut
 */
export function getSectionX(plan: Plan, evaluation: Evaluation, shop: Shop, blankIndex?: number): number {
  const scene = getScene(plan, evaluation, shop, blankIndex);
  const piece =
    scene?.parts.find((candidate) => candidate.part.id === scene.blank.stack.governingPartId) ?? scene?.parts[0];
  if (!piece) {
    return 0;
  }
  const x = getWidestRibPlaces(piece).find((candidate) => isClearOfHoles(piece, candidate));
  const along = Math.min(piece.part.length - 0.01, Math.max(0.01, x ?? piece.part.length / 2));
  return piece.placed.mirrored ? piece.right - along : piece.left + along;
}

/** Places along the part to try, best first. */
function getWidestRibPlaces(piece: ScenePart): number[] {
  const widest = piece.rib?.widest.rib ?? 0;
  const stretches = (piece.rib?.profile ?? [])
    .map((point, index, all) => ({ from: point, to: all[index + 1] ?? point }))
    .filter(({ from, to }) => Math.min(from.rib, to.rib) >= widest - 1e-6 && to.x > from.x)
    .toSorted((a, b) => b.to.x - b.from.x - (a.to.x - a.from.x));
  const inStretches = stretches.flatMap(({ from, to }) =>
    [0.5, 0.25, 0.75, 0.9, 0.1].map((share) => from.x + (to.x - from.x) * share),
  );
  return [...inStretches, ...[0.5, 0.4, 0.6, 0.25, 0.75].map((share) => share * piece.part.length)];
}

function isClearOfHoles(piece: ScenePart, x: number): boolean {
  return piece.part.holes.every((hole) => Math.abs(hole.x - x) > (hole.diameter + hole.slotLength) / 2);
}

/**
 * The setup cut across at one X, seen from the right end: Y to the right with 0 at the fixed jaw, Z up with 0 at the
 * jaw tops.
 */
export function buildEndSection(plan: Plan, evaluation: Evaluation, shop: Shop, options: EndSectionOptions): View {
  const scene = getScene(plan, evaluation, shop, options.blankIndex);
  if (!scene) {
    return buildEmptyView(plan, 'section', 'Section A', options.mmPerPaperMm);
  }
  const draft = createDraft(plan.units, options.mmPerPaperMm, options.bothUnits);
  const x = options.x ?? getSectionX(plan, evaluation, shop, options.blankIndex);
  const inJaw = getJawSpans(scene).some((span) => x >= span.left && x <= span.right);
  const extent = options.extent ?? 'jaws';
  addVise(draft, scene, extent, inJaw);
  addSeat(draft, scene);
  const piece = getPieceAt(scene, x);
  const slot = piece ? getCutOffAt(scene, piece, x) : null;
  if (x >= scene.blank.x && x <= scene.blank.xEnd) {
    addBarAcross(draft, scene, piece, x, slot);
  }
  const isEndMill = options.pass === 'endMill';
  const endMill = isEndMill ? getDeepestEndMillPass(scene) : null;
  const cutterEdge = getDrawnTool(draft, scene, {
    piece,
    slot,
    x,
    endMill,
    isEndMill,
    isShown: options.cutter ?? true,
  });
  const frame = getFrame(scene, extent);
  addLine(
    draft,
    'centre',
    [
      { x: frame.left - 4, y: 0 },
      { x: frame.right + 4, y: 0 },
    ],
    { pen: 'chain' },
  );
  if (options.dimensions ?? true) {
    const reach = isEndMill ? (endMill?.reach ?? null) : scene.cutOffReach;
    addSectionNotes(draft, scene, { piece, slot, x, cutterEdge, reach, frame });
  }
  return buildView(draft, 'section', 'Section A–A');
}

/** Sizes of the jaws across Y. */
interface JawsAcross {
  thickness: number;
  ledge: number;
  shelf: number;
  bed: number;
  /** Backs of the fixed and the moving jaw. */
  fixedBack: number;
  movingBack: number;
}

function getJawsAcross(scene: Scene): JawsAcross {
  const shelf = scene.seat.choice.value.kind === 'shelf';
  const ledge = shelf ? scene.seat.ledge.value : 0;
  const bar = scene.section.thickness.nominal;
  const back = scene.jawSet.thickness - ledge;
  return {
    thickness: scene.jawSet.thickness,
    ledge,
    shelf: shelf ? scene.seat.shelfDepth.value : 0,
    bed: getBedZ(scene).bed,
    fixedBack: -back,
    movingBack: bar + back,
  };
}

function getFrame(scene: Scene, extent: 'jaws' | 'table'): { left: number; right: number; bottom: number } {
  const jaws = getJawsAcross(scene);
  const { bed, table } = getBedZ(scene);
  if (extent === 'jaws') {
    return { left: jaws.fixedBack - MARGIN, right: jaws.movingBack + MARGIN, bottom: bed - MARGIN };
  }
  const left = -scene.vise.fixedJawSetback + jaws.ledge;
  return { left, right: left + scene.vise.bodyWidth, bottom: table - TABLE.depth };
}

function addVise(draft: Draft, scene: Scene, extent: 'jaws' | 'table', inJaw: boolean): void {
  const jaws = getJawsAcross(scene);
  const frame = getFrame(scene, extent);
  const { bed, table } = getBedZ(scene);
  const vise: FeatureRef = { kind: 'vise', id: String(getNearestVise(scene)) };
  const bottom = extent === 'table' ? table : bed - MARGIN;
  const blockTop = Math.min(-2, bed + scene.vise.jawHeight - 2);
  const outline: Point[] = [
    { x: frame.left, y: bottom },
    { x: frame.right, y: bottom },
    { x: frame.right, y: extent === 'jaws' ? blockTop : bed },
    ...(extent === 'jaws'
      ? []
      : [
          { x: jaws.movingBack + 35, y: bed },
          { x: jaws.movingBack + 35, y: blockTop },
        ]),
    { x: jaws.movingBack, y: blockTop },
    { x: jaws.movingBack, y: bed },
    { x: jaws.fixedBack, y: bed },
    { x: jaws.fixedBack, y: blockTop },
    { x: frame.left, y: blockTop },
  ];
  addPath(draft, 'vise', getPolygon(outline), { pen: 'none', fill: inJaw ? 'vise' : 'viseFace', feature: vise });
  addViseOutline(draft, outline, extent, vise);
  if (extent === 'table') {
    addTableAcross(draft, scene, frame);
  }
  addJaw(draft, scene, jaws, 'fixed', inJaw);
  addJaw(draft, scene, jaws, 'moving', inJaw);
}

/** Full lines where the vise ends, break lines where it is cut short. */
function addViseOutline(draft: Draft, outline: Point[], extent: 'jaws' | 'table', feature: FeatureRef): void {
  if (extent === 'table') {
    addPath(draft, 'vise', getPolygon(outline), { pen: 'wide', feature });
    return;
  }
  const first = outline[0];
  const second = outline[1];
  const third = outline[2];
  const last = outline.at(-1);
  if (first && second && third && last) {
    addLine(draft, 'vise', outline.slice(2), { pen: 'wide', feature });
    addBreakLine(draft, first, second);
    addBreakLine(draft, second, third);
    addBreakLine(draft, first, last);
  }
}

function getNearestVise(scene: Scene): number {
  return scene.blank.contacts[0]?.viseIndex ?? 0;
}

function addTableAcross(draft: Draft, scene: Scene, frame: { left: number; right: number; bottom: number }): void {
  const { table } = getBedZ(scene);
  const left = frame.left - 20;
  const right = frame.right + 20;
  const pitch = scene.machine.tSlotPitch;
  const slots: Point[] = [];
  if (pitch > 0) {
    const middle = (left + right) / 2;
    const count = Math.floor((right - left - TABLE.headWidth * 2) / 2 / pitch);
    for (let index = -count; index <= count; index += 1) {
      slots.push(...getTSlot(middle + index * pitch, table));
    }
  }
  const outline = [
    { x: right, y: table },
    { x: right, y: frame.bottom },
    { x: left, y: frame.bottom },
    { x: left, y: table },
    ...slots,
  ];
  const feature: FeatureRef = { kind: 'table', id: 'table' };
  addPath(draft, 'table', getPolygon(outline), { pen: 'narrow', fill: 'table', feature });
}

function getTSlot(middle: number, top: number): Point[] {
  const half = TABLE.slotWidth / 2;
  const head = TABLE.headWidth / 2;
  const neck = top - TABLE.slotDepth;
  const floor = neck - TABLE.headDepth;
  return [
    { x: middle - half, y: top },
    { x: middle - half, y: neck },
    { x: middle - head, y: neck },
    { x: middle - head, y: floor },
    { x: middle + head, y: floor },
    { x: middle + head, y: neck },
    { x: middle + half, y: neck },
    { x: middle + half, y: top },
  ];
}

/** A jaw in section, with its shelf and the counterbores of its screws as hidden lines. */
function addJaw(draft: Draft, scene: Scene, jaws: JawsAcross, side: 'fixed' | 'moving', inJaw: boolean): void {
  const bar = scene.section.thickness.nominal;
  // Measured from the gripping wall into the jaw, so that both jaws are drawn alike.
  const y = (into: number): number => (side === 'fixed' ? -into : bar + into);
  const back = jaws.thickness - jaws.ledge;
  const feature: FeatureRef = { kind: 'jaw', id: `${side}:${getNearestVise(scene)}` };
  const outline = [
    { x: y(back), y: jaws.bed },
    { x: y(-jaws.ledge), y: jaws.bed },
    ...(jaws.ledge > 0
      ? [
          { x: y(-jaws.ledge), y: -jaws.shelf },
          { x: y(0), y: -jaws.shelf },
        ]
      : []),
    { x: y(0), y: 0 },
    { x: y(back), y: 0 },
  ];
  addPath(draft, 'jaw', getPolygon(outline), { pen: 'wide', fill: inJaw ? 'jaw' : 'jawFace', feature });
  if (jaws.ledge > 0) {
    addLine(
      draft,
      'seat',
      [
        { x: y(-jaws.ledge), y: -jaws.shelf },
        { x: y(0), y: -jaws.shelf },
      ],
      { pen: 'wide', feature: { kind: 'seat', id: 'shelf' } },
    );
  }
  const { bolts } = scene.jawSet;
  if (bolts) {
    const bore = {
      mouth: y(-jaws.ledge),
      floor: y(bolts.counterboreDepth - jaws.ledge),
      back: y(back),
      middle: jaws.bed + bolts.centreHeight,
      diameter: bolts.counterboreDiameter,
    };
    addCounterbore(draft, bore, feature);
  }
}

function addSeat(draft: Draft, scene: Scene): void {
  const choice = scene.seat.choice.value;
  if (choice.kind !== 'parallels') {
    return;
  }
  const row = scene.seat.parallels.find((candidate) => candidate.parallelId === choice.parallelId);
  if (!row) {
    return;
  }
  const { bed } = getBedZ(scene);
  const bar = scene.section.thickness.nominal;
  const lefts = choice.count === 2 ? [0, bar - row.thickness] : [(bar - row.thickness) / 2];
  for (const left of lefts) {
    addPath(draft, 'seat', getRectangle(left, bed, left + row.thickness, bed + row.height), {
      pen: 'wide',
      fill: 'seat',
      feature: { kind: 'seat', id: choice.parallelId },
    });
  }
}

/** A rectangle with all four corners round, as rolled bar has them. */
function getRoundedRectangle(left: number, bottom: number, right: number, top: number, radius: number): Segment[] {
  const r = Math.min(radius, (right - left) / 2, (top - bottom) / 2);
  if (r <= 0) {
    return getRectangle(left, bottom, right, top);
  }
  const quarter = Math.PI / 2;
  return [
    { op: 'move', x: left + r, y: bottom },
    { op: 'line', x: right - r, y: bottom },
    { op: 'arc', cx: right - r, cy: bottom + r, radius: r, start: -quarter, end: 0 },
    { op: 'line', x: right, y: top - r },
    { op: 'arc', cx: right - r, cy: top - r, radius: r, start: 0, end: quarter },
    { op: 'line', x: left + r, y: top },
    { op: 'arc', cx: left + r, cy: top - r, radius: r, start: quarter, end: 2 * quarter },
    { op: 'line', x: left, y: bottom + r },
    { op: 'arc', cx: left + r, cy: bottom + r, radius: r, start: 2 * quarter, end: 3 * quarter },
    { op: 'close' },
  ];
}

function addBarAcross(draft: Draft, scene: Scene, piece: ScenePart | null, x: number, slot: CutOffAcross | null): void {
  const bar = scene.section.thickness.nominal;
  const { bottom, top } = getBarSpan(scene);
  const cut = Math.min(top, Math.max(bottom, scene.blank.stack.clearance));
  const feature: FeatureRef = { kind: 'bar', id: scene.section.barId.value };
  const stump = getRectangle(0, bottom, bar, cut);
  addPath(draft, 'bar', stump, { pen: 'none', fill: 'bar', feature });
  const envelope = piece ? getEnvelopeAcross(scene, piece, x) : null;
  const removed = getRectangle(0, cut, bar, top);
  const kept = envelope ? getRectangle(envelope.left, cut, envelope.right, envelope.top) : [];
  addPath(draft, 'cleanup', [...removed, ...kept], { pen: 'none', fill: 'cleanup', feature });
  addLine(
    draft,
    'cleanup',
    [
      { x: 0, y: cut },
      { x: bar, y: cut },
    ],
    { pen: 'narrow', feature },
  );
  addPath(draft, 'bar', getRoundedRectangle(0, bottom, bar, top, scene.section.cornerRadius), { pen: 'wide', feature });
  if (piece && envelope) {
    addPieceAcross(draft, scene, piece, x, envelope, slot);
  }
}

interface EnvelopeAcross {
  left: number;
  right: number;
  bottom: number;
  top: number;
  finishedLeft: number;
  finishedRight: number;
}

function getEnvelopeAcross(scene: Scene, piece: ScenePart, x: number): EnvelopeAcross {
  const along = piece.placed.mirrored ? piece.right - x : x - piece.left;
  const half = getWidthAt(piece.part, along) / 2;
  const centre = getCentreY(scene, piece);
  return {
    left: centre - half - piece.allowance.fixedSide,
    right: centre + half + piece.allowance.movingSide,
    bottom: piece.bottom - piece.allowance.bottom,
    top: piece.top + piece.allowance.top,
    finishedLeft: centre - half,
    finishedRight: centre + half,
  };
}

function addPieceAcross(
  draft: Draft,
  scene: Scene,
  piece: ScenePart,
  x: number,
  envelope: EnvelopeAcross,
  slot: CutOffAcross | null,
): void {
  const feature: FeatureRef = { kind: 'part', id: piece.placed.slotId };
  const kerfBottom = envelope.bottom - getKerf(scene);
  const finished = getRectangle(envelope.finishedLeft, piece.bottom, envelope.finishedRight, piece.top);
  if (slot) {
    addSlotAcross(draft, scene, envelope, kerfBottom, slot);
  }
  addPath(
    draft,
    'allowance',
    [...getRectangle(envelope.left, envelope.bottom, envelope.right, envelope.top), ...finished],
    { pen: getThinLayerPen(draft, Object.values(piece.allowance)), fill: 'allowance', feature },
  );
  addPath(draft, 'part', finished, { pen: 'wide', fill: 'part', feature });
  addHolesAcross(draft, scene, piece, x, envelope);
}

function addSlotAcross(draft: Draft, scene: Scene, envelope: EnvelopeAcross, bottom: number, slot: CutOffAcross): void {
  const cutter: FeatureRef = { kind: 'cutter', id: scene.cutter?.id ?? '' };
  const top = envelope.bottom;
  for (const [left, right] of [
    [envelope.left, Math.max(envelope.left, slot.ribFrom)],
    [Math.min(envelope.right, slot.ribTo), envelope.right],
  ] as const) {
    if (right - left > 1e-6) {
      addPath(draft, 'kerf', getRectangle(left, bottom, right, top), { pen: 'narrow', fill: 'kerf', feature: cutter });
    }
  }
  if (slot.ribTo - slot.ribFrom > 1e-6) {
    addPath(draft, 'rib', getRectangle(slot.ribFrom, bottom, slot.ribTo, top), {
      pen: 'narrow',
      fill: 'rib',
      feature: { kind: 'rib', id: getPartIdOfSlot(scene) },
    });
  }
}

function getPartIdOfSlot(scene: Scene): string {
  return scene.blank.stack.governingPartId;
}

/** Holes that the plane cuts: bores as upright gaps, cross holes as level ones. */
function addHolesAcross(draft: Draft, scene: Scene, piece: ScenePart, x: number, envelope: EnvelopeAcross): void {
  const along = piece.placed.mirrored ? piece.right - x : x - piece.left;
  const feature: FeatureRef = { kind: 'part', id: piece.placed.slotId };
  for (const hole of piece.part.holes) {
    const off = Math.max(0, Math.abs(along - hole.x) - hole.slotLength / 2);
    const radius = hole.diameter / 2;
    if (off >= radius) {
      continue;
    }
    const half = Math.sqrt(radius * radius - off * off);
    const centre = getCentreY(scene, piece);
    const outline =
      hole.axis === 'z'
        ? getRectangle(centre - half, piece.bottom, centre + half, piece.top)
        : getRectangle(
            envelope.finishedLeft,
            piece.bottom + hole.z - half,
            envelope.finishedRight,
            piece.bottom + hole.z + half,
          );
    addPath(draft, 'bore', outline, { pen: 'narrow', fill: 'paper', feature });
  }
}

/** The cutter at the end of its cut on the moving side (or the only side), with shank and holder. */
function addCutter(draft: Draft, scene: Scene, slot: CutOffAcross): CutterEdge | null {
  const pieces = getCutterPieces(scene);
  const head = pieces.find((piece) => piece.part === 'head');
  if (!head) {
    return null;
  }
  const isFixedSide = scene.plan.release.sides === 'fixedSide';
  return addTool(draft, pieces, isFixedSide ? slot.ribFrom - head.diameter / 2 : slot.ribTo + head.diameter / 2);
}

interface DrawnTool {
  piece: ScenePart | null;
  slot: CutOffAcross | null;
  x: number;
  endMill: EndMillPass | null;
  isEndMill: boolean;
  isShown: boolean;
}

function getDrawnTool(draft: Draft, scene: Scene, drawn: DrawnTool): CutterEdge | null {
  const { piece, slot, x, endMill, isEndMill, isShown } = drawn;
  if (!isShown || !piece) {
    return null;
  }
  if (!isEndMill) {
    return slot ? addCutter(draft, scene, slot) : null;
  }
  if (!endMill) {
    return null;
  }
  // A cutter that goes round stands beside the work on the moving side; one that goes in, over its middle.
  const { right } = getEnvelopeAcross(scene, piece, x);
  const beside = endMill.reach.axisFromWork;
  return addTool(draft, endMill.pieces, beside > 0 ? right + beside : getCentreY(scene, piece));
}

/** A tool in its holder, its axis at `middle` across Y. */
function addTool(draft: Draft, pieces: readonly CutterPiece[], middle: number): CutterEdge | null {
  const head = pieces.find((piece) => piece.part === 'head');
  if (!head) {
    return null;
  }
  for (const piece of pieces) {
    const half = piece.diameter / 2;
    addPath(draft, piece.layer, getRectangle(middle - half, piece.bottom, middle + half, piece.top), {
      pen: piece.part === 'head' || piece.part === 'holder' ? 'wide' : 'narrow',
      fill: piece.layer,
      feature: { kind: 'cutter', id: piece.id },
    });
    if (piece.part === 'holder') {
      addBreakLine(draft, { x: middle - half, y: piece.top }, { x: middle + half, y: piece.top });
    }
  }
  const end = Math.max(...pieces.map((piece) => piece.top));
  const reach = toDrawing(draft, 2);
  addLine(
    draft,
    'centre',
    [
      { x: middle, y: head.bottom - reach },
      { x: middle, y: end + reach },
    ],
    { pen: 'chain' },
  );
  const nose = Math.max(...pieces.filter((piece) => piece.part !== 'holder').map((piece) => piece.top));
  const edge =
    middle + Math.max(...pieces.filter((piece) => piece.part !== 'shank').map((piece) => piece.diameter)) / 2;
  return { edge, bottom: head.bottom, nose };
}

/** What dimensions of the drawn cutter need. */
interface CutterEdge {
  edge: number;
  bottom: number;
  nose: number;
}

interface NoteContext {
  piece: ScenePart | null;
  /** How far the drawn tool sticks out. */
  reach: ReachResult | null;
  slot: CutOffAcross | null;
  x: number;
  cutterEdge: CutterEdge | null;
  frame: { left: number; right: number };
}

function addSectionNotes(draft: Draft, scene: Scene, context: NoteContext): void {
  const jaws = getJawsAcross(scene);
  const { frame } = context;
  addCallouts(draft, getCallouts(draft, scene, context), frame.left - toDrawing(draft, 6), 'left');
  const besideCutter = (context.cutterEdge?.edge ?? 0) + toDrawing(draft, 4);
  const besideFrame = frame.right + 4 + toDrawing(draft, 8);
  const right = besideFrame > besideCutter + toDrawing(draft, 25) ? besideCutter : Math.max(besideCutter, besideFrame);
  addJawNames(draft, jaws);
  addText(draft, { x: frame.right + 4 + toDrawing(draft, 1.4), y: -toDrawing(draft, TEXT_SIZES.small / 2) }, 'Z 0', {
    size: TEXT_SIZES.small,
    layer: 'centre',
  });
  if (context.cutterEdge && context.reach) {
    const { bottom, nose } = context.cutterEdge;
    const text = `out ${getDimensionText(draft, context.reach.stickOut.value)}`;
    addDimensionColumn(
      draft,
      [{ from: bottom, to: nose, text, feature: { kind: 'cutter', id: context.reach.toolId } }],
      right,
      (context.cutterEdge.edge + (context.slot?.centre ?? 0)) / 2,
    );
  }
  addZeroSymbol(draft, getZero(scene, context), '');
}

function getCallouts(draft: Draft, scene: Scene, context: NoteContext): Callout[] {
  const { piece, slot, x } = context;
  const { bottom } = getBarSpan(scene);
  const jaws = getJawsAcross(scene);
  const bar: FeatureRef = { kind: 'bar', id: scene.section.barId.value };
  const callouts: Callout[] = [
    {
      target: { x: scene.section.thickness.nominal * 0.3, y: bottom * 0.5 },
      text: `bar ${getBothUnitsText(draft, scene.section.thickness.nominal)}`,
      feature: bar,
    },
  ];
  if (piece) {
    const envelope = getEnvelopeAcross(scene, piece, x);
    const feature: FeatureRef = { kind: 'part', id: piece.placed.slotId };
    callouts.push({
      target: {
        x: envelope.finishedLeft + (envelope.finishedRight - envelope.finishedLeft) * 0.3,
        y: piece.bottom + (piece.top - piece.bottom) * 0.7,
      },
      text: `part ${getDimensionText(draft, envelope.finishedRight - envelope.finishedLeft)}`,
      feature,
    });
    if (piece.allowance.fixedSide > 0) {
      callouts.push({
        target: { x: (envelope.left + envelope.finishedLeft) / 2, y: piece.bottom + (piece.top - piece.bottom) * 0.45 },
        text: `allowance ${getDimensionText(draft, piece.allowance.fixedSide)}`,
        feature,
      });
    }
    if (slot) {
      callouts.push({
        target: { x: slot.ribFrom, y: envelope.bottom - getKerf(scene) / 2 },
        text: `rib ${getDimensionText(draft, slot.ribTo - slot.ribFrom)}`,
        feature: { kind: 'rib', id: piece.part.id },
      });
    }
  }
  if (context.reach && context.cutterEdge && context.reach.clash !== '') {
    const { edge, nose } = context.cutterEdge;
    callouts.push({
      target: { x: edge, y: nose },
      // The whole of it stands in the finding; here it would push the drawing aside.
      text: 'does not clear',
      feature: { kind: 'cut', id: context.reach.cutId },
    });
  }
  callouts.push({ target: getZero(scene, context), text: 'Y0 Z0', feature: { kind: 'field', id: 'zero' } });
  if (jaws.ledge > 0) {
    callouts.push({
      target: { x: jaws.ledge / 2, y: -jaws.shelf },
      text: `ledge ${getDimensionText(draft, jaws.ledge)}`,
      feature: { kind: 'seat', id: 'shelf' },
    });
  }
  return callouts;
}

function getZero(scene: Scene, { piece }: NoteContext): Point {
  const { zero } = scene.plan;
  const y = zero.y === 'fixedJaw' || !piece ? 0 : getCentreY(scene, piece);
  const z = { jawTop: 0, blankTop: getBarSpan(scene).top, partTop: piece?.top ?? 0 }[zero.z];
  return { x: y, y: z };
}

function addJawNames(draft: Draft, jaws: JawsAcross): void {
  const y = jaws.bed + toDrawing(draft, 1.6);
  const room = jaws.thickness - toDrawing(draft, 2);
  for (const [name, middle] of [
    ['fixed', jaws.fixedBack + jaws.thickness / 2],
    ['moving', jaws.movingBack - jaws.thickness / 2],
  ] as const) {
    if (getTextWidth(name, toDrawing(draft, TEXT_SIZES.small)) < room) {
      addTextOnGround(draft, { x: middle, y }, name, { size: TEXT_SIZES.small, anchor: 'middle' });
    }
  }
}
