import { limitScale, type Size } from './camera';

const ROUNDS = 5;
/** A view that fills its room to this share is fitted. */
const FILLED = 0.985;
const JUST_UNDER = 0.997;

interface Trial extends Size {
  readonly pxPerMm: number;
}

/**
 * The scale at which views side by side fill a room. Texts and arrows keep their size on the screen, so what a view
 * takes is nearly a fixed part and one that grows with the scale; two trials tell both.
 *
 * @param measure px that the views take at a scale, px per mm
 * @param room px there are
 * @returns px per mm
 */
export function computeFitScale(measure: (pxPerMm: number) => Size, room: Size, guess: number): number {
  let pxPerMm = limitScale(guess);
  let best = 0;
  let before: Trial | null = null;
  for (let round = 0; round < ROUNDS; round += 1) {
    const trial: Trial = { pxPerMm, ...measure(pxPerMm) };
    const filled = Math.max(trial.width / room.width, trial.height / room.height);
    if (filled <= 1) best = Math.max(best, pxPerMm);
    if (filled <= 1 && filled >= FILLED) break;
    pxPerMm = limitScale(getNextScale(trial, before, room) * JUST_UNDER);
    before = trial;
  }
  return best > 0 ? best : pxPerMm;
}

function getNextScale(trial: Trial, before: Trial | null, room: Size): number {
  return Math.min(getScaleFor(trial, before, 'width', room.width), getScaleFor(trial, before, 'height', room.height));
}

function getScaleFor(trial: Trial, before: Trial | null, side: keyof Size, room: number): number {
  const growth = before === null ? 0 : (trial[side] - before[side]) / (trial.pxPerMm - before.pxPerMm);
  // One trial says nothing of what is fixed; nor does one that did not grow.
  if (!(growth > 0) || !Number.isFinite(growth)) return (trial.pxPerMm * room) / Math.max(1, trial[side]);
  const scale = trial.pxPerMm + (room - trial[side]) / growth;
  return Math.max(trial.pxPerMm / 4, Math.min(trial.pxPerMm * 4, scale));
}
