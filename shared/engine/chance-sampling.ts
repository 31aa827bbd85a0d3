import { type ChanceInputs, type ChanceModel, getChanceModel, getWholeFactor } from './chance-model';
import { getRandomStream, type RandomStream } from './random';
import { getFinite, LARGEST_FACTOR } from './workings';

export interface SamplingOptions {
  /** Draws, 1 to 1 000 000. */
  draws: number;
  /** The same seed gives the same answer. */
  seed: number;
}

/** Shares of draws, 0 to 1, in which something comes out well. */
export interface SampledChance {
  draws: number;
  seed: number;
  grip: number;
  allowance: number;
  hold: number;
  all: number;
  /** Lowest hold factor in all but one draw of twenty. */
  holdFactorLow: number;
}

const MOST_DRAWS = 1_000_000;

/**
 * The chances of an evaluation found by drawing lots, as a check on the sums: nothing in it is shared with them but what
 * varies and by how much. Repeatable: the seed decides the draws. Standard error of a share p: √(p (1 − p) / draws).
 */
export function sampleChance(inputs: ChanceInputs, options: SamplingOptions): SampledChance {
  const draws = Math.max(1, Math.min(MOST_DRAWS, Math.trunc(getFinite(options.draws, 1))));
  const stream = getRandomStream(options.seed);
  const model = getChanceModel(inputs);
  const factors = new Float64Array(draws);
  const met = { grip: 0, allowance: 0, hold: 0, all: 0 };
  for (let draw = 0; draw < draws; draw += 1) {
    const size = model.barSpread * (stream.nextEven() - model.barMiddle);
    const grip = model.leastSpare + size - model.slotOversize * stream.nextEven() >= -1e-9;
    const factor = drawHoldFactor(model, size, stream);
    const hold = factor >= model.holdTarget;
    const allowance = drawAllowance(model, stream);
    factors[draw] = factor;
    if (grip) met.grip += 1;
    if (hold) met.hold += 1;
    if (allowance) met.allowance += 1;
    if (grip && hold && allowance) met.all += 1;
  }
  factors.sort();
  return {
    draws,
    seed: options.seed,
    grip: met.grip / draws,
    allowance: met.allowance / draws,
    hold: met.hold / draws,
    all: met.all / draws,
    holdFactorLow: getFinite(factors[Math.floor(draws / 20)] ?? 0),
  };
}

/** Lowest factor over blanks and cuts. Every vise is tightened by itself; a taller bar stands further out of the jaws. */
function drawHoldFactor(model: ChanceModel, size: number, stream: RandomStream): number {
  let lowest = LARGEST_FACTOR;
  for (const blank of model.blanks) {
    let share = 0;
    for (let vise = 0; vise < blank.vises; vise += 1) {
      share += Math.max(0, 1 + model.clampDeviation * stream.nextNormal());
    }
    share /= blank.vises;
    lowest = Math.min(lowest, share * getWholeFactor(blank, size));
  }
  return lowest;
}

function drawAllowance(model: ChanceModel, stream: RandomStream): boolean {
  for (const part of model.parts) {
    const bow = Math.abs(part.bow + part.bowDeviation * stream.nextNormal());
    const springBack = part.springBack * stream.nextEven();
    for (const face of part.faces) {
      const locating = face.locates ? Math.abs(model.locatingDeviation * stream.nextNormal()) : 0;
      const taken = face.fixed + face.bowTimes * bow + (face.springs ? springBack : 0) + locating;
      if (taken > face.left + 1e-9) return false;
    }
  }
  return true;
}
