import type { Scene } from '../../../shared/drawing/scene';
import { getEndMargins } from '../../../shared/engine/blank-length';
import { buildContext } from '../../../shared/engine/context';
import type { Plan } from '../../../shared/model/plan';
import { applyToSlots } from './layout-edit';
import { getPieces } from './part-edits';
import { cleanPlace } from './snap';
import { applyCentres } from './vise-edits';

/** Where on its bar a group of parts goes. */
export type BarPlace = 'leftEnd' | 'middle' | 'rightEnd';

/** Moves parts along their bar as one; their distances stay. An end is as near as its sawn face allows. */
export function applyPartsAt(plan: Plan, scene: Scene, slotIds: ReadonlySet<string>, place: BarPlace): Plan {
  const pieces = getPieces(scene, slotIds);
  const [first] = pieces;
  const last = pieces.reduce<typeof first>(
    (furthest, piece) => (furthest === undefined || piece.placed.xEnd > furthest.placed.xEnd ? piece : furthest),
    undefined,
  );
  if (first === undefined || last === undefined) return plan;
  const margins = getEndMargins(
    buildContext(scene.plan, scene.shop),
    { part: first.part, mirrored: first.placed.mirrored },
    { part: last.part, mirrored: last.placed.mirrored },
  );
  const by = {
    leftEnd: margins.left - first.placed.x,
    middle: (scene.blank.length - first.placed.x - last.placed.xEnd) / 2,
    rightEnd: scene.blank.length - margins.right - last.placed.xEnd,
  }[place];
  return applyToSlots(plan, scene.evaluation.blanks, (slot) =>
    slotIds.has(slot.id) ? { ...slot, x: cleanPlace(slot.x + by) } : slot,
  );
}

/** Moves vises along the table as one, so that as much bar stands out on the left of them as on the right. */
export function applyVisesUnderBar(plan: Plan, scene: Scene, chosen: ReadonlySet<number>): Plan {
  const { blank, vises } = scene;
  const centres = vises.centres.value;
  const own = centres.filter((_centre, index) => chosen.has(index));
  const by = (blank.x + blank.xEnd) / 2 - (Math.min(...own) + Math.max(...own)) / 2;
  return applyCentres(
    plan,
    centres.map((centre, index) => (chosen.has(index) ? cleanPlace(centre + by) : centre)),
  );
}

/** Moves the bar so that it stands out alike on either side of the vises. */
export function applyBarOverVises(plan: Plan, scene: Scene): Plan {
  const centres = scene.vises.centres.value;
  const middle = (Math.min(...centres) + Math.max(...centres)) / 2;
  return applyBarAt(plan, middle - (scene.blank.xEnd - scene.blank.x) / 2);
}

/** Puts the bar's left end at a length from the stop. */
export function applyBarAt(plan: Plan, x: number): Plan {
  return { ...plan, holding: { ...plan.holding, blankX: { pinned: cleanPlace(x) } } };
}
