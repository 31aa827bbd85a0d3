import { FACES, type PerFace } from '../model/faces';
import { type ChancedPart, type ChanceInputs, type ChanceModel, getChanceModel, getWholeFactor } from './chance-model';
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
    const taken = drawTaken(part, stream);
    for (const face of FACES) {
      const room = part.rooms[face];
      if (room === undefined) continue;
      const locating = Math.abs(model.locatingDeviation * stream.nextNormal());
      if (taken[face] + locating > room + 1e-9) return false;
    }
  }
  return true;
}

/** What bow and spring-back take from each face of one drawn part, mm. */
function drawTaken(part: ChancedPart, stream: RandomStream): PerFace<number> {
  const way = Math.floor(4 * stream.nextEven());
  const sign = way % 2 === 0 ? 1 : -1;
  const isUpright = part.curl !== null || way < 2;
  const bow = Math.abs(part.bow.mean + part.bow.deviation * stream.nextNormal());
  const curl = part.curl === null ? bow : Math.abs(part.curl.mean + part.curl.deviation * stream.nextNormal());
  const curlSign = part.curl === null ? sign : stream.nextEven() < 0.5 ? 1 : -1;
  const up = isUpright ? sign * bow : 0;
  const over = (part.curl === null && isUpright ? 0 : curlSign * curl) + part.springBack * (2 * stream.nextEven() - 1);
  return {
    bottom: Math.max(0, up),
    top: Math.max(0, -up),
    fixedSide: Math.max(0, over),
    movingSide: Math.max(0, -over),
    leftEnd: 0,
    rightEnd: 0,
  };
}
