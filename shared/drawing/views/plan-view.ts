import type { Evaluation } from '../../evaluate';
import type { FeatureRef } from '../../findings/finding';
import type { Hole, Plan } from '../../model/plan';
import type { Shop } from '../../model/shop';
import { addDimensionColumn, addDimensionRow, getBothUnitsText, getDimensionText } from '../dimensions';
import { addLine, addPath, addTextOnGround, buildView, createDraft, type Draft, TEXT_SIZES, toDrawing } from '../draft';
import { addBreakLine, addZeroSymbol } from '../furniture';
import { addHiddenHole, addRoundHole, type HoleLook } from '../holes';
import type { Point, View } from '../marks';
import { getPolygon, getRectangle } from '../paths';
import { getCentreY, getPartX, getScene, getWidthProfile, type Scene, type ScenePart } from '../scene';
import { fitText } from '../text-width';
import { buildEmptyView, type ViewOptions } from './options';

export interface PlanViewOptions extends ViewOptions {
  /** How much of the vises is drawn: the jaws alone, or the whole bodies on the table. Default `table`. */
  extent?: 'jaws' | 'table';
}

/** Vise metal drawn behind the jaws when the bodies are cut short, mm. */
const MARGIN = 10;
const TABLE_EDGE = 15;

/** The setup from above: X to the right, Y up with 0 at the fixed jaw and the moving jaw beyond the bar. */
export function buildPlanView(plan: Plan, evaluation: Evaluation, shop: Shop, options: PlanViewOptions): View {
  const scene = getScene(plan, evaluation, shop, options.blankIndex);
  if (!scene) {
    return buildEmptyView(plan, 'plan', 'Plan view', options.mmPerPaperMm);
  }
  const draft = createDraft(plan.units, options.mmPerPaperMm, options.bothUnits);
  const extent = getExtent(scene, options.extent ?? 'table');
  if ((options.extent ?? 'table') === 'table') {
    addTable(draft, scene, extent);
  }
  for (const index of scene.vises.centres.value.keys()) {
    addVise(draft, scene, index, extent);
  }
  addBar(draft, scene);
  for (const piece of scene.parts) {
    addPiece(draft, scene, piece);
  }
  const stop = toDrawing(draft, 5);
  const { nominal: thickness } = scene.section.thickness;
  addPath(draft, 'stop', getRectangle(-stop, thickness * 0.15, 0, thickness * 0.85), {
    pen: 'narrow',
    fill: 'holder',
    feature: { kind: 'field', id: 'holding.blankX' },
  });
  if (options.dimensions ?? true) {
    addPlanDimensions(draft, scene, extent);
  }
  return buildView(draft, 'plan', 'Plan view, fixed jaw below');
}

interface Extent {
  left: number;
  right: number;
  /** Y of the vises' near and far edges as drawn, and whether they are cut short there. */
  near: number;
  far: number;
  cut: boolean;
}

function getLedge(scene: Scene): number {
  return scene.seat.choice.value.kind === 'shelf' ? scene.seat.ledge.value : 0;
}

function getExtent(scene: Scene, extent: 'jaws' | 'table'): Extent {
  const half = scene.vise.bodyLength / 2;
  const xs = scene.vises.centres.value.flatMap((centre) => [centre - half, centre + half]);
  const plate = scene.jawSet.thickness - getLedge(scene);
  const near = -scene.vise.fixedJawSetback + getLedge(scene);
  const whole = { near, far: near + scene.vise.bodyWidth };
  const short = { near: -plate - MARGIN, far: scene.section.thickness.nominal + plate + MARGIN };
  return {
    left: Math.min(scene.blank.x, 0, ...xs) - TABLE_EDGE,
    right: Math.max(scene.blank.xEnd, ...xs) + TABLE_EDGE,
    ...(extent === 'table' ? whole : short),
    cut: extent === 'jaws',
  };
}

function addTable(draft: Draft, scene: Scene, extent: Extent): void {
  const feature: FeatureRef = { kind: 'table', id: 'table' };
  const middle = (extent.near + extent.far) / 2;
  const half = Math.max(scene.machine.tableWidth / 2, 1);
  addPath(draft, 'table', getRectangle(extent.left, middle - half, extent.right, middle + half), {
    pen: 'none',
    fill: 'tableFace',
    feature,
  });
  for (const y of [middle - half, middle + half]) {
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
    addBreakLine(draft, { x, y: middle - half }, { x, y: middle + half });
  }
  const pitch = scene.machine.tSlotPitch;
  const count = pitch > 0 ? Math.floor((half - 8) / pitch) : -1;
  for (let index = -count; index <= count; index += 1) {
    for (const side of [-7, 7]) {
      const y = middle + index * pitch + side;
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
  }
}

function addVise(draft: Draft, scene: Scene, index: number, extent: Extent): void {
  const centre = scene.vises.centres.value[index] ?? 0;
  const feature: FeatureRef = { kind: 'vise', id: String(index) };
  const left = centre - scene.vise.bodyLength / 2;
  const right = centre + scene.vise.bodyLength / 2;
  addPath(draft, 'vise', getRectangle(left, extent.near, right, extent.far), {
    pen: extent.cut ? 'none' : 'wide',
    fill: 'viseFace',
    feature,
  });
  if (extent.cut) {
    for (const x of [left, right]) {
      addLine(
        draft,
        'vise',
        [
          { x, y: extent.near },
          { x, y: extent.far },
        ],
        { pen: 'wide', feature },
      );
    }
    for (const y of [extent.near, extent.far]) {
      addBreakLine(draft, { x: left, y }, { x: right, y });
    }
  }
  addJaws(draft, scene, index, centre);
}

function addJaws(draft: Draft, scene: Scene, index: number, centre: number): void {
  const half = scene.vise.jawWidth / 2;
  const ledge = getLedge(scene);
  const plate = scene.jawSet.thickness;
  const bar = scene.section.thickness.nominal;
  for (const [side, inner, outer, wall] of [
    ['fixed', ledge, ledge - plate, 0],
    ['moving', bar - ledge, bar - ledge + plate, bar],
  ] as const) {
    const feature: FeatureRef = { kind: 'jaw', id: `${side}:${index}` };
    addPath(draft, 'jaw', getRectangle(centre - half, Math.min(inner, outer), centre + half, Math.max(inner, outer)), {
      pen: 'wide',
      fill: 'jawFace',
      feature,
    });
    if (ledge > 0) {
      addLine(
        draft,
        'seat',
        [
          { x: centre - half, y: wall },
          { x: centre + half, y: wall },
        ],
        { pen: 'narrow', feature },
      );
    }
  }
}

function addBar(draft: Draft, scene: Scene): void {
  const { blank } = scene;
  const feature: FeatureRef = { kind: 'blank', id: blank.templateId };
  const outline = getRectangle(blank.x, 0, blank.xEnd, scene.section.thickness.nominal);
  addPath(draft, 'bar', outline, { pen: 'none', fill: 'barFace', feature });
  addPath(draft, 'cleanup', outline, { pen: 'wide', fill: 'cleanup', feature });
}

/** Outline of a part from above with a margin on each side and end. */
export function getPartOutline(
  scene: Scene,
  piece: ScenePart,
  grow: { left: number; right: number; fixedSide: number; movingSide: number },
): Point[] {
  const centre = getCentreY(scene, piece);
  const profile = getWidthProfile(piece.part).map((point) => ({ x: getPartX(piece, point.x), half: point.width / 2 }));
  const rising = piece.placed.mirrored ? profile.toReversed() : profile;
  const ends = rising.map((point, index) => ({
    x: point.x - (index === 0 ? grow.left : 0) + (index === rising.length - 1 ? grow.right : 0),
    half: point.half,
  }));
  return [
    ...ends.map((point) => ({ x: point.x, y: centre - point.half - grow.fixedSide })),
    ...ends.toReversed().map((point) => ({ x: point.x, y: centre + point.half + grow.movingSide })),
  ];
}

function addPiece(draft: Draft, scene: Scene, piece: ScenePart): void {
  const feature: FeatureRef = { kind: 'part', id: piece.placed.slotId };
  const finished = getPolygon(getPartOutline(scene, piece, { left: 0, right: 0, fixedSide: 0, movingSide: 0 }));
  const { allowance } = piece;
  const rough = getPolygon(
    getPartOutline(scene, piece, {
      left: allowance.leftEnd,
      right: allowance.rightEnd,
      fixedSide: allowance.fixedSide,
      movingSide: allowance.movingSide,
    }),
  );
  // The ground first, so that the cleanup's hatch does not show through the dotted allowance.
  addPath(draft, 'allowance', rough, { pen: 'none', fill: 'paper', feature });
  addPath(draft, 'allowance', [...rough, ...finished], { pen: 'narrow', fill: 'allowance', feature });
  addPath(draft, 'part', finished, { pen: 'wide', fill: 'part', feature });
  for (const hole of piece.part.holes) {
    addHole(draft, scene, piece, hole);
  }
  addTabs(draft, scene, piece);
  const size = toDrawing(draft, TEXT_SIZES.small);
  const middle = (piece.left + piece.right) / 2;
  const text = fitText(piece.part.name, (piece.right - piece.left) * 0.6, size);
  if (text.length > 1 && piece.part.thickness > size * 1.8) {
    addTextOnGround(draft, { x: middle, y: getCentreY(scene, piece) - size / 2 }, text, {
      anchor: 'middle',
      size: TEXT_SIZES.small,
      feature,
    });
  }
}

function addHole(draft: Draft, scene: Scene, piece: ScenePart, hole: Hole): void {
  const look: HoleLook = { feature: { kind: 'part', id: piece.placed.slotId }, beyond: 1.5 };
  const x = getPartX(piece, hole.x);
  const y = getCentreY(scene, piece);
  const half = piece.part.thickness / 2;
  const metal = { left: piece.left, right: piece.right, bottom: y - half, top: y + half };
  if (hole.axis === 'z') {
    addRoundHole(draft, { x, y }, hole, metal, look);
  } else {
    addHiddenHole(draft, x, hole, metal, look);
  }
}

/** Tabs lie under the part: hidden lines across it. */
function addTabs(draft: Draft, scene: Scene, piece: ScenePart): void {
  const y = getCentreY(scene, piece);
  const half = (piece.rib?.narrowest.rib ?? 0) / 2;
  for (const [index, tab] of (piece.rib?.tabs ?? []).entries()) {
    const from = Math.min(getPartX(piece, tab.from), getPartX(piece, tab.to));
    const to = Math.max(getPartX(piece, tab.from), getPartX(piece, tab.to));
    addPath(draft, 'tab', getRectangle(from, y - half, to, y + half), {
      pen: 'dashed',
      feature: { kind: 'tab', id: `${piece.placed.slotId}:${index}` },
    });
  }
}

function addPlanDimensions(draft: Draft, scene: Scene, extent: Extent): void {
  const { blank } = scene;
  const centres = scene.vises.centres.value;
  const below = extent.near - toDrawing(draft, 6);
  addDimensionRow(
    draft,
    centres
      .map((centre, index) => ({ from: centres[index - 1] ?? 0, to: centre, index }))
      .filter((span) => span.to > span.from)
      .map((span) => ({
        from: span.from,
        to: span.to,
        text: getDimensionText(draft, span.to - span.from),
        feature: { kind: 'vise', id: String(span.index) } as const,
      })),
    below,
    extent.near,
  );
  for (const [index, centre] of centres.entries()) {
    addLine(
      draft,
      'centre',
      [
        { x: centre, y: extent.near - toDrawing(draft, 1) },
        { x: centre, y: extent.far },
      ],
      { pen: 'chain' },
    );
    addTextOnGround(
      draft,
      { x: centre + toDrawing(draft, 1), y: extent.far - toDrawing(draft, 4) },
      `vise ${index + 1}`,
      {
        size: TEXT_SIZES.small,
        feature: { kind: 'vise', id: String(index) },
      },
    );
  }
  const last = centres.at(-1);
  if (last !== undefined) {
    const half = scene.vise.jawWidth / 2;
    const text = `jaws ${getBothUnitsText(draft, scene.vise.jawWidth)}`;
    addDimensionRow(
      draft,
      [{ from: last - half, to: last + half, text }],
      extent.far + toDrawing(draft, 6),
      extent.far,
    );
  }
  const bar = scene.section.thickness.nominal;
  addDimensionColumn(
    draft,
    [
      {
        from: 0,
        to: bar,
        text: `bar ${getBothUnitsText(draft, bar)}`,
        feature: { kind: 'bar', id: scene.section.barId.value },
      },
    ],
    extent.right + toDrawing(draft, 5),
    blank.xEnd,
  );
  addPlanZero(draft, scene);
}

function addPlanZero(draft: Draft, scene: Scene): void {
  const { zero } = scene.plan;
  const first = scene.parts[0];
  const x = { stop: 0, blankLeft: scene.blank.x, partLeft: first?.left ?? scene.blank.x }[zero.x];
  const y = zero.y === 'fixedJaw' || !first ? 0 : getCentreY(scene, first);
  addZeroSymbol(draft, { x, y }, 'X0 Y0', 6);
}
