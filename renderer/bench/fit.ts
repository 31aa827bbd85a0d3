import { limitScale, type Size } from './camera';

const ROUNDS = 6;

/**
 * The scale at which views side by side fill a room. Texts and arrows keep their size on the screen, so what a view
 * needs is not proportional to its scale and is found in a few rounds.
 *
 * @param measure px that the views take at a scale, px per mm
 * @param room px there are
 * @returns px per mm
 */
export function computeFitScale(measure: (pxPerMm: number) => Size, room: Size, guess: number): number {
  let pxPerMm = limitScale(guess);
  let best = 0;
  for (let round = 0; round < ROUNDS; round += 1) {
    const taken = measure(pxPerMm);
    const ratio = Math.min(room.width / Math.max(1, taken.width), room.height / Math.max(1, taken.height));
    if (ratio >= 1) best = Math.max(best, pxPerMm);
    if (ratio >= 1 && ratio < 1.01) break;
    pxPerMm = limitScale(pxPerMm * (ratio < 1 ? ratio * 0.995 : ratio));
  }
  return best > 0 ? best : pxPerMm;
}
