import { getKerf } from '../../../shared/drawing/scene';
import { isPinned } from '../../../shared/model/choice';
import type { Mover, Setting } from './mover';

/** The floor of the jaw shelf, and with it how deep the bar sits; null where the bar does not stand on a shelf. */
export function getShelfMover({ scene }: Setting): Mover | null {
  const { seat, plan } = scene;
  if (seat.choice.value.kind !== 'shelf') return null;
  return {
    features: [{ kind: 'seat', id: 'shelf' }],
    name: 'the shelf',
    measure: 'deep below the jaw tops',
    axis: 'Z',
    origin: 0,
    sign: -1,
    value: seat.shelfDepth.value,
    least: 0,
    pinned: isPinned(plan.holding.shelfDepth),
    anchors: [{ offset: 0, label: 'shelf floor' }],
    snapLines: [
      { at: -seat.deepestLegalShelf.value, label: `deepest these jaws allow (${seat.deepestLimitedBy})` },
      { at: -seat.shelfDepth.auto, label: 'what auto takes' },
      { at: -seat.targetGrip.value, label: 'the grip aimed at' },
    ],
    isMoved: () => false,
    apply: (before, value) => ({
      ...before,
      holding: { ...before.holding, shelfDepth: { pinned: Math.max(0, value) } },
    }),
    release: (before) => ({ ...before, holding: { ...before.holding, shelfDepth: 'auto' } }),
  };
}

/** The gap between the jaw tops and the cutter: it lifts the cut-off, the part and the whole stack above it. */
export function getClearanceMover({ scene }: Setting): Mover | null {
  const { release, plan, blank } = scene;
  if (release === null) return null;
  const kerf = getKerf(scene);
  return {
    features: [{ kind: 'cutter', id: scene.cutter?.id ?? '' }],
    name: 'the cut-off',
    measure: 'clear of the jaw tops',
    axis: 'Z',
    origin: blank.stack.clearance - release.clearance.value,
    sign: 1,
    value: release.clearance.value,
    least: 0,
    pinned: isPinned(plan.release.clearance),
    anchors: [
      { offset: 0, label: 'underside of the cutter' },
      { offset: kerf, label: 'upper side of the cutter' },
    ],
    snapLines: [
      { at: blank.stack.clearance - release.clearance.value + release.clearance.auto, label: 'what auto takes' },
      { at: 0, label: 'jaw tops' },
    ],
    isMoved: () => false,
    apply: (before, value) => ({
      ...before,
      release: { ...before.release, clearance: { pinned: Math.max(0, value) } },
    }),
    release: (before) => ({ ...before, release: { ...before.release, clearance: 'auto' } }),
  };
}
