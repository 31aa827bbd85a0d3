import type {
  BlankResult,
  PlacedPart,
  ReachResult,
  ReleaseResult,
  RibResult,
  SeatResult,
  SectionResult,
  VisesResult,
} from '../engine/results';
import type { Evaluation } from '../evaluate';
import type { PerFace } from '../model/faces';
import type { Part, Plan, Station } from '../model/plan';
import type { CutOffCutter, Holder, JawSet, Machine, Shop, Vise } from '../model/shop';

/** What every view asks of a plan and its evaluation, looked up once. Lengths are mm in the plan's frame. */
export interface Scene {
  plan: Plan;
  evaluation: Evaluation;
  shop: Shop;
  machine: Machine;
  section: SectionResult;
  blank: BlankResult;
  seat: SeatResult;
  vises: VisesResult;
  vise: Vise;
  jawSet: JawSet;
  release: ReleaseResult | null;
  cutter: CutOffCutter | null;
  /** Holder and stick-out of the cut-off. */
  holder: Holder | null;
  cutOffReach: ReachResult | null;
  parts: ScenePart[];
}

export interface ScenePart {
  placed: PlacedPart;
  part: Part;
  allowance: PerFace<number>;
  rib: RibResult | null;
  /** Z of the finished part. */
  bottom: number;
  top: number;
  /** X of the finished part from the stop. */
  left: number;
  right: number;
}

/** Looks an entry up in the plan's own copy first, then in the shop. */
export function getEntry<T extends { id: string }>(inPlan: readonly T[], inShop: readonly T[], id: string): T | null {
  return inPlan.find((entry) => entry.id === id) ?? inShop.find((entry) => entry.id === id) ?? null;
}

/**
 * Gathers one blank's scene.
 *
 * @param blankIndex which blank of the evaluation; the one that grips least when left out
 * @returns null when the evaluation has no bar, no part or no vise to draw
 */
export function getScene(plan: Plan, evaluation: Evaluation, shop: Shop, blankIndex?: number): Scene | null {
  const blank = evaluation.blanks[blankIndex ?? evaluation.governingBlank];
  const { section, seat, vises, release } = evaluation;
  const vise = getEntry(plan.library.vises, shop.vises, plan.holding.viseId);
  const jawSet = getEntry(plan.library.jawSets, shop.jawSets, plan.holding.jawSetId);
  if (!(blank && section && seat && vises && vise && jawSet)) {
    return null;
  }
  const cutOff = plan.cuts.find((cut) => cut.kind === 'cutOff');
  return {
    plan,
    evaluation,
    shop,
    machine: shop.machine,
    section,
    blank,
    seat,
    vises,
    vise,
    jawSet,
    release,
    cutter: getCutter(plan, shop, release),
    holder: cutOff ? getEntry(plan.library.holders, shop.holders, cutOff.holderId) : null,
    cutOffReach: evaluation.reach.find((row) => row.cutId === cutOff?.id) ?? null,
    parts: blank.parts.flatMap((placed) => getScenePart(plan, evaluation, blank, placed)),
  };
}

function getCutter(plan: Plan, shop: Shop, release: ReleaseResult | null): CutOffCutter | null {
  const tool = release ? getEntry(plan.library.tools, shop.tools, release.cutterId.value) : null;
  return tool?.kind === 'keySeat' || tool?.kind === 'slittingSaw' ? tool : null;
}

function getScenePart(plan: Plan, evaluation: Evaluation, blank: BlankResult, placed: PlacedPart): ScenePart[] {
  const part = plan.parts.find((candidate) => candidate.id === placed.partId);
  if (!part) {
    return [];
  }
  const bottom = blank.stack.partBottomZ;
  return [
    {
      placed,
      part,
      allowance: part.allowance ?? plan.allowance,
      rib: evaluation.release?.parts.find((rib) => rib.partId === part.id) ?? null,
      bottom,
      top: bottom + part.height,
      left: blank.x + placed.x,
      right: blank.x + placed.xEnd,
    },
  ];
}

/** Width of the cut-off's slot along Z. */
export function getKerf(scene: Scene): number {
  return scene.blank.stack.slices.find((slice) => slice.kind === 'kerf')?.height ?? 0;
}

/** Z of the bar's underside and upper side, nominal. */
export function getBarSpan(scene: Scene): { bottom: number; top: number } {
  const bottom = -scene.blank.stack.grip.nominal;
  return { bottom, top: bottom + scene.section.height.nominal };
}

/** Width of a part across Y at a length along it (from its own left end, unmirrored). */
export function getWidthAt(part: Part, x: number): number {
  const station = part.stations.find((candidate) => x >= candidate.from && x <= candidate.to);
  return station ? getStationWidth(station, x) : part.thickness;
}

function getStationWidth({ from, to, width, widthEnd }: Station, x: number): number {
  const share = to > from ? (x - from) / (to - from) : 0;
  return width + (widthEnd - width) * share;
}

/**
 * Breakpoints of the part's width along X, from its own left end, ascending; a step has two points at one length. What
 * stations say of lengths before or past the part is left out: there is no metal.
 */
export function getWidthProfile(part: Part): { x: number; width: number }[] {
  const stations = part.stations
    .filter((station) => station.from < part.length && station.to > 0)
    .toSorted((a, b) => a.from - b.from);
  const points: { x: number; width: number }[] = [];
  let reached = 0;
  for (const station of stations) {
    if (station.from > reached + 1e-9) {
      points.push({ x: reached, width: part.thickness }, { x: station.from, width: part.thickness });
    }
    for (const x of [Math.max(station.from, reached), Math.min(station.to, part.length)]) {
      points.push({ x, width: getStationWidth(station, x) });
    }
    reached = Math.max(reached, station.to);
  }
  if (reached < part.length - 1e-9) {
    points.push({ x: reached, width: part.thickness }, { x: part.length, width: part.thickness });
  }
  return points;
}

/** A length along a placed part as X from the stop, turned round for a mirrored part. */
export function getPartX(piece: ScenePart, x: number): number {
  return piece.placed.mirrored ? piece.right - x : piece.left + x;
}

/** The piece, with its end allowances, that a plane across X cuts; null in a gap. */
export function getPieceAt(scene: Scene, x: number): ScenePart | null {
  return scene.parts.find((piece) => x >= piece.left && x <= piece.right) ?? null;
}

/** X of the jaws of each vise from the stop. */
export function getJawSpans(scene: Scene): { left: number; right: number }[] {
  return scene.vises.centres.value.map((centre) => ({
    left: centre - scene.vise.jawWidth / 2,
    right: centre + scene.vise.jawWidth / 2,
  }));
}

/** The vise's bed, seen in Z, and the table below it. */
export function getBedZ(scene: Scene): { bed: number; table: number } {
  const bed = -scene.seat.jawHeight;
  return { bed, table: bed - scene.vise.bedHeight };
}

/** Width of the part, the rib and where the cut-off stands across Y at a length along X. */
export interface CutOffAcross {
  centre: number;
  width: number;
  /** Y of the rib's two faces; equal where the slot goes through. */
  ribFrom: number;
  ribTo: number;
}

/** The cut-off across Y at X, from the rib profile; null where there is no part or no cutter. */
export function getCutOffAt(scene: Scene, piece: ScenePart, x: number): CutOffAcross | null {
  const profile = piece.rib?.profile;
  if (!profile || profile.length === 0) {
    return null;
  }
  const along = piece.placed.mirrored ? piece.right - x : x - piece.left;
  const { width, rib } = interpolate(profile, along);
  const centre = getCentreY(scene, piece);
  if (scene.plan.release.sides === 'both') {
    return { centre, width, ribFrom: centre - rib / 2, ribTo: centre + rib / 2 };
  }
  const fixed = centre - width / 2;
  const moving = centre + width / 2;
  return scene.plan.release.sides === 'fixedSide'
    ? { centre, width, ribFrom: moving - rib, ribTo: moving }
    : { centre, width, ribFrom: fixed, ribTo: fixed + rib };
}

/** Y of the part's middle plane. */
export function getCentreY(scene: Scene, piece: ScenePart): number {
  const across = scene.evaluation.across.find((row) => row.partId === piece.part.id);
  const fixedFace = across?.partFromFixedJaw ?? (scene.section.thickness.nominal - piece.part.thickness) / 2;
  return fixedFace + piece.part.thickness / 2;
}

function interpolate(
  profile: readonly { x: number; width: number; rib: number }[],
  x: number,
): { width: number; rib: number } {
  const after = profile.findIndex((point) => point.x >= x);
  const right = profile[after === -1 ? profile.length - 1 : after];
  const left = profile[after <= 0 ? 0 : after - 1];
  if (!(left && right)) {
    return { width: 0, rib: 0 };
  }
  const share = right.x > left.x ? Math.min(1, Math.max(0, (x - left.x) / (right.x - left.x))) : 1;
  return {
    width: left.width + (right.width - left.width) * share,
    rib: left.rib + (right.rib - left.rib) * share,
  };
}

/** How much of a holder is drawn above its nose's lower face, mm. */
export const HOLDER_SHOWN = 9;

/** One cylinder of the cut-off cutter in its holder, upright. */
export interface CutterPiece {
  part: 'neck' | 'shank' | 'head' | 'holder';
  layer: 'cutter' | 'holder';
  id: string;
  diameter: number;
  bottom: number;
  top: number;
}

/** The cutter as it stands at the cut-off: neck, shank, head and the holder's nose, in the order they are drawn. */
export function getCutterPieces(scene: Scene): CutterPiece[] {
  const { cutter, holder } = scene;
  if (!cutter) {
    return [];
  }
  const bottom = scene.blank.stack.clearance;
  const top = bottom + getKerf(scene);
  const neck =
    cutter.kind === 'keySeat'
      ? { diameter: cutter.neckDiameter, length: cutter.neckLength }
      : { diameter: cutter.flangeDiameter, length: cutter.arborLength };
  const nose = bottom + Math.max(scene.cutOffReach?.stickOut.value ?? 0, top - bottom + neck.length / 2);
  const neckTop = Math.min(nose, top + neck.length);
  const own = { layer: 'cutter', id: cutter.id } as const;
  const pieces: CutterPiece[] = [{ ...own, part: 'neck', diameter: neck.diameter, bottom: top, top: neckTop }];
  if (neckTop < nose) {
    pieces.push({ ...own, part: 'shank', diameter: cutter.shankDiameter, bottom: neckTop, top: nose });
  }
  if (cutter.kind === 'slittingSaw' && cutter.screwHeight > 0) {
    pieces.push({
      ...own,
      part: 'neck',
      diameter: cutter.flangeDiameter,
      bottom: bottom - cutter.screwHeight,
      top: bottom,
    });
  }
  pieces.push({ ...own, part: 'head', diameter: cutter.diameter, bottom, top });
  if (holder) {
    const end = nose + Math.min(holder.noseLength, HOLDER_SHOWN);
    pieces.push({
      part: 'holder',
      layer: 'holder',
      id: holder.id,
      diameter: holder.noseDiameter,
      bottom: nose,
      top: end,
    });
  }
  return pieces;
}
