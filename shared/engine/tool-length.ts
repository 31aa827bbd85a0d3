import type { Tool } from '../model/shop';
import { getNonNegative } from './workings';

/** Shank kept in the holder, in shank diameters. Common practice, no source. */
const LEAST_SHANK_GRIP = 1.5;

/** What must stay out of the holder: flutes, head and neck are never clamped. mm from the tip. */
export function getLeastStickOut(tool: Tool): number {
  switch (tool.kind) {
    case 'endMill':
      return getNonNegative(tool.fluteLength) + getNonNegative(tool.neck?.length ?? 0);
    case 'keySeat':
      return getNonNegative(tool.width) + getNonNegative(tool.neckLength);
    case 'slittingSaw':
      return getNonNegative(tool.width) + getNonNegative(tool.arborLength);
    case 'drill':
      return getNonNegative(tool.fluteLength);
    default:
      return tool satisfies never;
  }
}

/**
 * Furthest a tool can stick out: its length less the shank that must be held, mm. A saw stands on its arbor, which fixes
 * how far it sticks out.
 */
export function getMostStickOut(tool: Tool): number {
  if (tool.kind === 'slittingSaw') return getLeastStickOut(tool);
  const held = LEAST_SHANK_GRIP * getNonNegative(tool.shankDiameter);
  return Math.max(0, getNonNegative(tool.overallLength) - held);
}
