import type { Scene, ScenePart } from '../../../shared/drawing/scene';
import { getEndMargins, getGap, getPartingWidth } from '../../../shared/engine/blank-length';
import { buildContext } from '../../../shared/engine/context';
import { isPinned } from '../../../shared/model/choice';
import { applyToSlots } from './layout-edit';
import type { Mover, Setting, SnapLine } from './mover';
import { getPieceName } from './piece-name';
import { getSlotOfTab } from './tab-id';
import { getJawSnapLines } from './vise-mover';

/** One part or several along their bar; the first is in the hand, the others keep their distance to it. */
export function getPartMover({ scene }: Setting, slotIds: readonly string[]): Mover | null {
  const pieces = slotIds.flatMap((id) => scene.parts.find((piece) => piece.placed.slotId === id) ?? []);
  const [first] = pieces;
  if (first === undefined) return null;
  const moved = new Set(pieces.map((piece) => piece.placed.slotId));
  const { blanks } = scene.evaluation;
  return {
    features: pieces.map((piece) => ({ kind: 'part', id: piece.placed.slotId })),
    name: pieces.length > 1 ? `${pieces.length} parts` : getPieceName(scene, first),
    measure: 'from the bar’s left end',
    axis: 'X',
    origin: scene.blank.x,
    sign: 1,
    value: first.placed.x,
    least: Number.NEGATIVE_INFINITY,
    pinned: isPinned(scene.plan.layout),
    anchors: [
      { offset: 0, label: 'left end' },
      { offset: first.part.length, label: 'right end' },
      { offset: first.part.length / 2, label: 'middle' },
      { offset: first.part.length / 2, label: 'middle', meets: 'middle' },
    ],
    snapLines: getSnapLines(scene, first, moved),
    isMoved: (feature) =>
      (feature.kind === 'part' && moved.has(feature.id)) ||
      (feature.kind === 'tab' && moved.has(getSlotOfTab(feature.id))),
    apply(plan, value) {
      const by = value - first.placed.x;
      return applyToSlots(plan, blanks, (slot) => (moved.has(slot.id) ? { ...slot, x: slot.x + by } : slot));
    },
    release: (plan) => ({ ...plan, layout: 'auto' }),
  };
}

function getSnapLines(scene: Scene, piece: ScenePart, moved: ReadonlySet<string>): SnapLine[] {
  const context = buildContext(scene.plan, scene.shop);
  const laid = { part: piece.part, mirrored: piece.placed.mirrored };
  const margins = getEndMargins(context, laid, laid);
  const parting = getPartingWidth(context);
  const { blank } = scene;
  const lines: SnapLine[] = [
    { at: blank.x + margins.left, label: 'as near the left end as the sawn end allows' },
    { at: blank.xEnd - margins.right, label: 'as near the right end as the sawn end allows' },
  ];
  for (const other of scene.parts) {
    if (moved.has(other.placed.slotId)) continue;
    const beside = { part: other.part, mirrored: other.placed.mirrored };
    const name = getPieceName(scene, other);
    lines.push(
      { at: other.right + getGap(context, parting, beside, laid), label: `room for the cutter after ${name}` },
      { at: other.left - getGap(context, parting, laid, beside), label: `room for the cutter before ${name}` },
    );
  }
  lines.push(
    { at: (blank.x + blank.xEnd) / 2, label: 'middle of the bar' },
    ...getBetweenLines(scene, moved),
    ...getJawSnapLines(scene),
    { at: 0, label: 'work stop' },
  );
  return lines;
}

/** Halfway between two others that lie next to each other, for the middle of what is moved. */
function getBetweenLines(scene: Scene, moved: ReadonlySet<string>): SnapLine[] {
  const others = scene.parts
    .filter((piece) => !moved.has(piece.placed.slotId))
    .toSorted((one, other) => one.left - other.left);
  return others.slice(1).map((right, index) => {
    const left = others[index] ?? right;
    const names = `${getPieceName(scene, left)} and ${getPieceName(scene, right)}`;
    return { at: (left.right + right.left) / 2, label: `halfway between ${names}`, meets: 'middle' };
  });
}
