import type { FeatureRef } from '../../../shared/findings/finding';
import { getBarMover } from './bar-mover';
import { getClearanceMover, getShelfMover } from './height-movers';
import type { Mover, Setting } from './mover';
import { getPartMover } from './part-mover';
import { getSectionMover } from './section-mover';
import { getTabMover } from './tab-mover';
import { getViseIndex, getViseMover } from './vise-mover';

/**
 * What taking hold of a feature moves.
 *
 * @param selection other things selected: those of the same kind move with it
 * @returns null for what has no number of its own on the Bench
 */
export function getMover(setting: Setting, feature: FeatureRef, selection: readonly FeatureRef[] = []): Mover | null {
  const together = getTogether(feature, selection);
  switch (feature.kind) {
    case 'part':
      return getPartMover(setting, together);
    case 'vise':
    case 'jaw':
      return getViseMover(setting, [...new Set(together.map(getViseIndex))]);
    case 'blank':
    case 'bar':
      return getBarMover(setting);
    case 'tab':
      return getTabMover(setting, feature.id);
    case 'seat':
      return getShelfMover(setting);
    case 'cutter':
      return getClearanceMover(setting);
    case 'stack':
      return getStackMover(setting, feature.id);
    case 'field':
      return feature.id === 'sectionX' ? getSectionMover(setting) : null;
    case 'rib':
    case 'cut':
    case 'order':
    case 'table':
      return null;
    default:
      return feature.kind satisfies never;
  }
}

function getTogether(feature: FeatureRef, selection: readonly FeatureRef[]): string[] {
  const alike = selection.filter((other) => other.kind === feature.kind && other.id !== feature.id);
  const isSelected = selection.some((other) => other.kind === feature.kind && other.id === feature.id);
  return isSelected ? [feature.id, ...alike.map((other) => other.id)] : [feature.id];
}

/** The stack is taken hold of at the shelf, by its lowest slice, and at the cut-off, by kerf and clearance. */
function getStackMover(setting: Setting, slice: string): Mover | null {
  if (slice === 'grip') return getShelfMover(setting);
  if (slice === 'kerf' || slice === 'clearance') return getClearanceMover(setting);
  return null;
}
