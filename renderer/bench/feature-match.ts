import type { Scene } from '../../shared/drawing/scene';
import type { FeatureRef } from '../../shared/findings/finding';
import { getSlotOfTab } from './gestures/tab-id';
import { getViseIndex } from './gestures/vise-mover';

/**
 * True when a mark shows what a reference means. Findings and panels speak of parts, jaws, seats and cuts; marks of the
 * one slot, jaw or slice that is drawn.
 *
 * @param meant from a finding, a panel or the selection
 * @param shown from a mark
 */
export function isShownBy(meant: FeatureRef, shown: FeatureRef, scene: Scene): boolean {
  if (meant.kind === shown.kind && meant.id === shown.id) return true;
  switch (meant.kind) {
    case 'part':
      return shown.kind === 'part' && getPartId(scene, shown.id) === meant.id;
    case 'blank':
      return shown.kind === 'bar' && meant.id === scene.blank.templateId;
    case 'bar':
      return shown.kind === 'bar' || shown.kind === 'blank';
    case 'vise':
      return shown.kind === 'jaw' && isNumbered(shown.id) && getViseIndex(shown.id) === getViseIndex(meant.id);
    case 'jaw':
      return (
        shown.kind === 'jaw' && (isNumbered(meant.id) ? isSameJaw(meant.id, shown.id) : isSide(meant.id, shown.id))
      );
    case 'seat':
      return shown.kind === 'seat' || (shown.kind === 'stack' && shown.id === 'grip');
    case 'stack':
      return shown.kind === 'stack' && meant.id === scene.blank.templateId && shown.id === 'grip';
    case 'cutter':
      return shown.kind === 'cutter' || (shown.kind === 'stack' && shown.id === 'kerf');
    case 'cut':
      return shown.kind === 'cutter' && isCutOff(scene, meant.id);
    case 'rib':
      return (
        (shown.kind === 'tab' && getPartId(scene, getSlotOfTab(shown.id)) === meant.id) ||
        (shown.kind === 'rib' && getPartId(scene, shown.id) === meant.id)
      );
    case 'tab':
    case 'table':
    case 'order':
    case 'field':
      return false;
    default:
      return meant.kind satisfies never;
  }
}

/** The thing of the Bench that a mark belongs to; null for what cannot be selected. */
export function getBenchFeature(shown: FeatureRef, scene: Scene): FeatureRef | null {
  switch (shown.kind) {
    case 'bar':
    case 'blank':
      return { kind: 'blank', id: scene.blank.templateId };
    case 'jaw':
      return isNumbered(shown.id) ? { kind: 'vise', id: String(getViseIndex(shown.id)) } : null;
    case 'seat':
      return { kind: 'seat', id: scene.seat.choice.value.kind };
    case 'cutter':
      return { kind: 'cutter', id: scene.cutter?.id ?? '' };
    case 'rib':
      return { kind: 'rib', id: shown.id };
    case 'stack':
      return getSliceFeature(shown.id, scene);
    case 'field':
      return shown.id === 'sectionX' ? shown : null;
    case 'part':
    case 'vise':
    case 'tab':
      return shown;
    case 'table':
    case 'cut':
    case 'order':
      return null;
    default:
      return shown.kind satisfies never;
  }
}

/** What a slice of the stack stands for elsewhere: the grip for the seat, kerf and clearance for the cut-off. */
function getSliceFeature(slice: string, scene: Scene): FeatureRef {
  if (slice === 'grip' && scene.seat.choice.value.kind === 'shelf') return { kind: 'seat', id: 'shelf' };
  if ((slice === 'kerf' || slice === 'clearance') && scene.cutter !== null) {
    return { kind: 'cutter', id: scene.cutter.id };
  }
  return { kind: 'stack', id: slice };
}

function getPartId(scene: Scene, slotOrPart: string): string {
  return scene.parts.find((piece) => piece.placed.slotId === slotOrPart)?.part.id ?? slotOrPart;
}

function isNumbered(id: string): boolean {
  return Number.isInteger(getViseIndex(id));
}

function isSameJaw(one: string, other: string): boolean {
  return getViseIndex(one) === getViseIndex(other);
}

/** The elevation shows the fixed jaws, by their number alone. */
function isSide(side: string, shown: string): boolean {
  return shown.startsWith(side) || (side === 'fixed' && !shown.includes(':'));
}

function isCutOff(scene: Scene, cutId: string): boolean {
  return scene.plan.cuts.some((cut) => cut.id === cutId && cut.kind === 'cutOff');
}
