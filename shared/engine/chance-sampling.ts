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
  const parts = listParts(model);
  const factors = new Float64Array(draws);
  const met = { grip: 0, allowance: 0, hold: 0, all: 0 };
  for (let draw = 0; draw < draws; draw += 1) {
    const size = model.barSpread * (stream.nextEven() - model.barMiddle);
    const grip = model.leastSpare + size - model.slotOversize * stream.nextEven() >= -1e-9;
    const factor = drawHoldFactor(model, size, stream);
    const hold = factor >= model.holdTarget;
    const allowance = drawAllowance(parts, model.locatingDeviation, stream);
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

/** A face that may fall short: which way of a bow takes from it, and what is left of it, mm. */
interface DrawnFace {
  /** 1 or -1 for the way that takes; 0 where no bow does. */
  up: number;
  over: number;
  room: number;
}

interface DrawnPart extends ChancedPart {
  faces: DrawnFace[];
}

const WAYS: Readonly<PerFace<Pick<DrawnFace, 'up' | 'over'>>> = {
  bottom: { up: 1, over: 0 },
  top: { up: -1, over: 0 },
  fixedSide: { up: 0, over: 1 },
  movingSide: { up: 0, over: -1 },
  leftEnd: { up: 0, over: 0 },
  rightEnd: { up: 0, over: 0 },
};

/** The parts likeliest to fall short come first: one that does ends the draw. */
function listParts(model: ChanceModel): DrawnPart[] {
  const parts = model.parts.map((part) => ({ ...part, faces: listFaces(part) }));
  const getSpare = ({ faces, bow }: DrawnPart): number => Math.min(...faces.map(({ room }) => room)) - bow.mean;
  return parts.sort((a, b) => getSpare(a) - getSpare(b));
}

function listFaces(part: ChancedPart): DrawnFace[] {
  return FACES.flatMap((face) => {
    const room = part.rooms[face];
    return room === undefined ? [] : [{ ...WAYS[face], room }];
  });
}

function drawAllowance(parts: readonly DrawnPart[], locatingDeviation: number, stream: RandomStream): boolean {
  for (const part of parts) {
    const { bow, curl } = part;
    const way = Math.floor(4 * stream.nextEven());
    const sign = way % 2 === 0 ? 1 : -1;
    const bent = Math.abs(bow.mean + bow.deviation * stream.nextNormal());
    const curled = curl === null ? bent : Math.abs(curl.mean + curl.deviation * stream.nextNormal());
    const curlSign = curl === null ? sign : stream.nextEven() < 0.5 ? 1 : -1;
    const isUpright = curl !== null || way < 2;
    const up = isUpright ? sign * bent : 0;
    const spring = part.springBack * (2 * stream.nextEven() - 1);
    const over = (curl === null && isUpright ? 0 : curlSign * curled) + spring;
    for (const face of part.faces) {
      const locating = Math.abs(locatingDeviation * stream.nextNormal());
      if (Math.max(0, face.up * up + face.over * over) + locating > face.room + 1e-9) return false;
    }
  }
  return true;
}
