import { type ChancedPart, type ChanceModel, NEVER_BEYOND } from './chance-model';
import { getNormalShare } from './normal';

/** Slices of what varies; within a slice it counts as its middle. */
const SPRING_SLICES = 8;
const BOW_SLICES = 16;

/** Rounding never costs a face its allowance, mm. */
const LENIENT = 1e-9;

/**
 * Chance that every face of every part that keeps an allowance cleans up. Parts of one kind bow alike; kinds are taken as
 * independent. What a bow takes from which face stands with {@link ChancedPart}.
 *
 * @returns 0 to 1
 */
export function getAllowanceShare(model: ChanceModel): number {
  return model.parts.reduce((share, part) => share * getPartShare(model, part), 1);
}

/** Two faces that stand opposite each other: what the fixed terms leave of each, mm; null for one that is not at risk. */
interface FacePair {
  plus: number | null;
  minus: number | null;
}

function getPartShare(model: ChanceModel, part: ChancedPart): number {
  const { rooms, bow, curl } = part;
  const height: FacePair = { plus: rooms.bottom ?? null, minus: rooms.top ?? null };
  const sides: FacePair = { plus: rooms.fixedSide ?? null, minus: rooms.movingSide ?? null };
  const { locatingDeviation: locating } = model;
  const ends = getKept(locating, rooms.leftEnd ?? null, 0) * getKept(locating, rooms.rightEnd ?? null, 0);
  const getHeight = (by: Spread | null) => getPairShare(locating, height, by, 0);
  const getSides = (by: Spread | null) => getPairShare(locating, sides, by, part.springBack);
  if (curl !== null) return ends * getHeight(bow) * getSides(curl);
  return (ends * (getHeight(bow) * getSides(null) + getHeight(null) * getSides(bow))) / 2;
}

/** A bow that varies normally, mm. */
type Spread = ChancedPart['bow'];

/** Chance that both faces of a pair clean up, the bow to either side alike; with a spring-back spread evenly to both. */
function getPairShare(locating: number, { plus, minus }: FacePair, bow: Spread | null, springBack: number): number {
  if (plus === null && minus === null) return 1;
  const slices = springBack > 0 ? SPRING_SLICES : 1;
  // Of two faces with as much left, either way of the bow is the same once a spring-back goes both ways.
  const ways =
    bow === null || plus === minus
      ? [{ plus, minus }]
      : [
          { plus, minus },
          { plus: minus, minus: plus },
        ];
  let sum = 0;
  for (let index = 0; index < slices; index += 1) {
    const spring = springBack > 0 ? springBack * ((2 * index + 1) / slices - 1) : 0;
    for (const way of ways) sum += getBowShare(locating, way, bow, spring);
  }
  return sum / (slices * ways.length);
}

/** Chance that both faces clean up when the bow takes from the first, and a spring-back adds to it or eases it. */
function getBowShare(locating: number, pair: FacePair, bow: Spread | null, spring: number): number {
  const getShare = (taken: number) =>
    getKept(locating, pair.plus, Math.max(0, taken)) * getKept(locating, pair.minus, Math.max(0, -taken));
  if (bow === null) return getShare(spring);
  if (!(bow.deviation > 0)) return getShare(bow.mean + spring);
  const most = pair.plus === null ? Number.POSITIVE_INFINITY : pair.plus - spring + LENIENT;
  // A bow drawn under nothing bends the other way, which is as likely, and counts as much.
  const from = Math.max(-NEVER_BEYOND, (-most - bow.mean) / bow.deviation);
  const to = Math.min(NEVER_BEYOND, (most - bow.mean) / bow.deviation);
  let sum = 0;
  let below = getNormalShare(from);
  for (let index = 0; index < BOW_SLICES && to > from; index += 1) {
    const middle = from + ((to - from) * (index + 0.5)) / BOW_SLICES;
    const above = getNormalShare(from + ((to - from) * (index + 1)) / BOW_SLICES);
    sum += (above - below) * getShare(Math.abs(bow.mean + bow.deviation * middle) + spring);
    below = above;
  }
  return sum;
}

/** Chance that the locating error, drawn for each face by itself, stays within what is left of it. */
function getKept(locatingDeviation: number, room: number | null, taken: number): number {
  if (room === null) return 1;
  const left = room - taken + LENIENT;
  if (left < 0) return 0;
  return locatingDeviation > 0 ? 2 * getNormalShare(left / locatingDeviation) - 1 : 1;
}
