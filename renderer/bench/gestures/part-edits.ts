import type { Scene, ScenePart } from '../../../shared/drawing/scene';
import { getGap, getPartingWidth } from '../../../shared/engine/blank-length';
import { buildContext } from '../../../shared/engine/context';
import { nextId } from '../../../shared/model/next-id';
import type { BlankSlot, Part, Plan } from '../../../shared/model/plan';
import { mirrorPart } from '../../state/part-edits';
import { addSlots, applyToSlots } from './layout-edit';
import { cleanPlace } from './snap';

/** A part as it is copied: what it is and how it lies, and how far it lies from the first of those copied with it. */
export interface CopiedPart {
  readonly partId: string;
  readonly mirrored: boolean;
  readonly offset: number;
}

/** The plan with some parts taken off their blanks. */
export function applyRemoval(plan: Plan, scene: Scene, slotIds: ReadonlySet<string>): Plan {
  return applyToSlots(plan, scene.evaluation.blanks, (slot) => (slotIds.has(slot.id) ? null : slot));
}

/** Turns parts end for end, each in its own place. */
export function applyMirror(plan: Plan, scene: Scene, slotIds: ReadonlySet<string>): Plan {
  return applyToSlots(plan, scene.evaluation.blanks, (slot) =>
    slotIds.has(slot.id) ? { ...slot, mirrored: !slot.mirrored } : slot,
  );
}

export function getCopy(scene: Scene, slotIds: ReadonlySet<string>): CopiedPart[] {
  const pieces = getPieces(scene, slotIds);
  const [first] = pieces;
  if (first === undefined) return [];
  return pieces.map((piece) => ({
    partId: piece.part.id,
    mirrored: piece.placed.mirrored,
    offset: piece.placed.x - first.placed.x,
  }));
}

/**
 * Adds the other hand of a part to the plan, where it is not there yet, and one piece of it to the blank in view. A part
 * that had no hand becomes the left one of the pair.
 */
export function applyOtherHand(plan: Plan, scene: Scene, slotId: string): { plan: Plan; ids: string[] } {
  const own = scene.parts.find((piece) => piece.placed.slotId === slotId)?.part;
  if (own === undefined) return { plan, ids: [] };
  const handed: Part = own.hand === 'none' ? { ...own, hand: 'left' } : own;
  const mirrored = mirrorPart(handed);
  const known = plan.parts.find(
    (part) => part.name === mirrored.name && part.number === mirrored.number && part.hand === mirrored.hand,
  );
  const other = known ?? { ...mirrored, id: nextId(plan.parts, 'part') };
  const parts = plan.parts.flatMap((part) => {
    if (part.id !== own.id) return [part];
    return known === undefined ? [handed, other] : [handed];
  });
  const next = { ...plan, parts };
  return applyPaste(next, { ...scene, plan: next }, [{ partId: other.id, mirrored: false, offset: 0 }]);
}

/** Puts copies on the blank in view, after the last part with room for the cutter. */
export function applyPaste(plan: Plan, scene: Scene, copied: readonly CopiedPart[]): { plan: Plan; ids: string[] } {
  const [first] = copied;
  const part = scene.plan.parts.find((candidate) => candidate.id === first?.partId);
  if (first === undefined || part === undefined) return { plan, ids: [] };
  const context = buildContext(scene.plan, scene.shop);
  const last = scene.parts.reduce<ScenePart | null>(
    (furthest, piece) => (furthest === null || piece.placed.xEnd > furthest.placed.xEnd ? piece : furthest),
    null,
  );
  const gap =
    last === null
      ? 0
      : getGap(
          context,
          getPartingWidth(context),
          { part: last.part, mirrored: last.placed.mirrored },
          { part, mirrored: first.mirrored },
        );
  const start = (last?.placed.xEnd ?? 0) + gap;
  const known = new Set(scene.plan.parts.map((candidate) => candidate.id));
  const added = copied
    .filter(({ partId }) => known.has(partId))
    .map(({ partId, mirrored, offset }): Omit<BlankSlot, 'id'> => ({ partId, mirrored, x: start + offset }));
  return addSlots(plan, scene.evaluation.blanks, scene.blank.templateId, added);
}

/** Sets some parts on the blank as tight as the cutter allows, from the first of them. */
export function applyTightSpacing(plan: Plan, scene: Scene, slotIds: ReadonlySet<string>): Plan {
  const context = buildContext(scene.plan, scene.shop);
  const parting = getPartingWidth(context);
  const places = new Map<string, number>();
  let before: ScenePart | null = null;
  let end = 0;
  for (const piece of getPieces(scene, slotIds)) {
    const laid = { part: piece.part, mirrored: piece.placed.mirrored };
    const x: number =
      before === null
        ? piece.placed.x
        : end + getGap(context, parting, { part: before.part, mirrored: before.placed.mirrored }, laid);
    places.set(piece.placed.slotId, x);
    end = x + piece.part.length;
    before = piece;
  }
  return applyPlaces(plan, scene, places);
}

/** Leaves equal gaps between some parts; the first and the last stay. Needs three or more. */
export function applyEvenSpacing(plan: Plan, scene: Scene, slotIds: ReadonlySet<string>): Plan {
  const pieces = getPieces(scene, slotIds);
  const [first] = pieces;
  const last = pieces.at(-1);
  if (first === undefined || last === undefined || pieces.length < 3) return plan;
  const taken = pieces.reduce((sum, piece) => sum + piece.part.length, 0);
  const gap = (last.placed.xEnd - first.placed.x - taken) / (pieces.length - 1);
  const places = new Map<string, number>();
  let x = first.placed.x;
  for (const piece of pieces) {
    places.set(piece.placed.slotId, x);
    x += piece.part.length + gap;
  }
  return applyPlaces(plan, scene, places);
}

function applyPlaces(plan: Plan, scene: Scene, places: ReadonlyMap<string, number>): Plan {
  return applyToSlots(plan, scene.evaluation.blanks, (slot) => {
    const x = places.get(slot.id);
    return x === undefined ? slot : { ...slot, x: cleanPlace(x) };
  });
}

/** The pieces named, from the left. */
export function getPieces(scene: Scene, slotIds: ReadonlySet<string>): ScenePart[] {
  return scene.parts.filter((piece) => slotIds.has(piece.placed.slotId)).toSorted((a, b) => a.placed.x - b.placed.x);
}
