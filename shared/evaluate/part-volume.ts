import { computeWidthProfile } from '../engine/width-profile';
import type { Part } from '../model/plan';

/** Volume of a finished part, mm³: its width profile times its height, less the bores. */
export function getPartVolumeMm3(part: Part): number {
  const profile = computeWidthProfile(part, null);
  let areaMm2 = 0;
  for (let index = 0; index + 1 < profile.length; index += 1) {
    const from = profile[index];
    const to = profile[index + 1];
    if (from !== undefined && to !== undefined) areaMm2 += ((from.width + to.width) / 2) * Math.max(0, to.x - from.x);
  }
  if (!(areaMm2 > 0)) areaMm2 = part.length * part.thickness;
  const boresMm2 = part.holes
    .filter((hole) => hole.axis === 'z' && hole.through)
    .reduce((sum, { diameter, slotLength }) => sum + (Math.PI * diameter ** 2) / 4 + diameter * slotLength, 0);
  return Math.max(0, areaMm2 - boresMm2) * part.height;
}
