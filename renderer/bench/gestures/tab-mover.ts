import { getPartX, type ScenePart } from '../../../shared/drawing/scene';
import { getPinned, isPinned } from '../../../shared/model/choice';
import type { PlacedTab, Plan } from '../../../shared/model/plan';
import type { Mover, Setting, SnapLine } from './mover';
import { getPieceName } from './piece-name';
import { getIndexOfTab, getSlotOfTab, getTabId } from './tab-id';

/** One tab along its part. Every piece of the part has the same tabs. */
export function getTabMover({ scene }: Setting, tabId: string): Mover | null {
  const piece = scene.parts.find((candidate) => candidate.placed.slotId === getSlotOfTab(tabId));
  const tabs = piece?.rib?.tabs ?? [];
  const index = getIndexOfTab(tabId);
  const tab = tabs[index];
  if (piece === undefined || tab === undefined) return null;
  const { mirrored } = piece.placed;
  const alike = new Set(
    scene.parts
      .filter((other) => other.part.id === piece.part.id && other.placed.mirrored === mirrored)
      .map((other) => getTabId(other.placed.slotId, index)),
  );
  return {
    features: [{ kind: 'tab', id: tabId }],
    name: `tab ${index + 1} of ${getPieceName(scene, piece)}`,
    measure: 'centre from the part’s left end',
    axis: 'X',
    origin: mirrored ? piece.right : piece.left,
    sign: mirrored ? -1 : 1,
    value: tab.x,
    least: Number.NEGATIVE_INFINITY,
    pinned: isPinned(scene.plan.release.tabs),
    anchors: [
      { offset: 0, label: 'centre' },
      { offset: -(tab.to - tab.from) / 2, label: 'left side' },
      { offset: (tab.to - tab.from) / 2, label: 'right side' },
    ],
    snapLines: getSnapLines(piece, index),
    isMoved: (feature) => feature.kind === 'tab' && alike.has(feature.id),
    apply: (plan, value) => applyTab(plan, piece, index, value),
    release: (plan) => applyRelease(plan, piece),
  };
}

/** Pins the tabs of one part, of which one has moved; the tabs of other parts stay as they are. */
function applyTab(plan: Plan, piece: ScenePart, index: number, x: number): Plan {
  const others = (getPinned(plan.release.tabs) ?? []).filter((tab) => tab.partId !== piece.part.id);
  const own = (piece.rib?.tabs ?? []).map(
    (tab, at): PlacedTab => ({ partId: piece.part.id, x: at === index ? x : tab.x }),
  );
  return { ...plan, release: { ...plan.release, tabs: { pinned: [...others, ...own] } } };
}

function applyRelease(plan: Plan, piece: ScenePart): Plan {
  const others = (getPinned(plan.release.tabs) ?? []).filter((tab) => tab.partId !== piece.part.id);
  return { ...plan, release: { ...plan.release, tabs: others.length === 0 ? 'auto' : { pinned: others } } };
}

function getSnapLines(piece: ScenePart, index: number): SnapLine[] {
  const { part } = piece;
  const lines: SnapLine[] = [{ at: getPartX(piece, part.length / 2), label: 'middle of the part' }];
  for (const [at, tab] of (piece.rib?.tabs ?? []).entries()) {
    if (at !== index) lines.push({ at: getPartX(piece, part.length - tab.x), label: `opposite tab ${at + 1}` });
  }
  for (const span of part.keepOuts) {
    lines.push(
      { at: getPartX(piece, span.from), label: 'edge of a keep-out' },
      { at: getPartX(piece, span.to), label: 'edge of a keep-out' },
    );
  }
  lines.push({ at: piece.left, label: 'left end of the part' }, { at: piece.right, label: 'right end of the part' });
  return lines;
}
