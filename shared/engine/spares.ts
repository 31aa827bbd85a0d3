import type { Part, SpareRule } from '../model/plan';
import { getUpTo } from './bar-size';
import { getLengthInput } from './decide';
import type { Figure } from './figure';
import { COMMON_PRACTICE, GEOMETRY, getFigure, getInput } from './workings';

const inch = 25.4;

/** Extra material by part length, in thousandths of the order: common practice, no source. */
const SPARES_BY_LENGTH = [
  { upTo: 2 * inch, thousandths: 50 },
  { upTo: 3 * inch, thousandths: 65 },
  { upTo: 4 * inch, thousandths: 85 },
  { upTo: Number.POSITIVE_INFINITY, thousandths: 100 },
] as const;

/** Rounding error that may not cost a spare: `0.81 + 0.18 >= 0.99` must hold. */
const CHANCE_TOLERANCE = 1e-12;

/** More pieces than this for each one ordered is no plan; the search ends there. */
const MOST_PIECES_PER_ORDERED = 20;
const MOST_PIECES_FOR_ONE = 1000;

/**
 * Chance that at least `needed` of `made` pieces come out well: `P(Binomial(made, 1 - p) >= needed)`.
 * Summed as the negative binomial, each term from the one before, in logarithms so that large orders do not underflow.
 *
 * @param needed pieces needed, 0 or more
 * @param made pieces made, 0 or more
 * @param scrapRate p, chance that one piece is scrapped, 0 to 1
 * @returns 0 to 1
 * @example computeChanceOfEnough(10, 12, 0.05) // 0.980432
 */
export function computeChanceOfEnough(needed: number, made: number, scrapRate: number): number {
  if (needed <= 0) return 1;
  if (made < needed) return 0;
  if (scrapRate <= 0) return 1;
  if (scrapRate >= 1) return 0;
  let chance = 0;
  for (const { pieces, chanceSoFar } of chancesByPieces(needed, scrapRate)) {
    chance = chanceSoFar;
    if (pieces >= made) break;
  }
  return Math.min(1, chance);
}

/**
 * Least pieces to make so that the order is met with a confidence: `min n: P(Bin(n, 1 - p) >= q) >= confidence`.
 *
 * @param needed q, pieces needed
 * @param scrapRate p, 0 to under 1
 * @param confidence 0 to under 1
 * @returns null when no number of pieces gives that confidence
 * @example computePiecesForConfidence(10, 0.05, 0.95) // 12
 */
export function computePiecesForConfidence(needed: number, scrapRate: number, confidence: number): number | null {
  if (needed <= 0 || scrapRate <= 0) return Math.max(0, needed);
  if (!(scrapRate < 1) || !(confidence < 1)) return null;
  for (const { pieces, chanceSoFar } of chancesByPieces(needed, scrapRate)) {
    if (chanceSoFar >= confidence - CHANCE_TOLERANCE) return pieces;
    if (pieces > needed * MOST_PIECES_PER_ORDERED + MOST_PIECES_FOR_ONE) return null;
  }
  return null;
}

/** `P(the needed-th good piece is among the first n)` for n = needed, needed + 1, … */
function* chancesByPieces(needed: number, scrapRate: number): Generator<{ pieces: number; chanceSoFar: number }> {
  let logTerm = needed * Math.log1p(-scrapRate);
  let chanceSoFar = Math.exp(logTerm);
  const logScrap = Math.log(scrapRate);
  for (let pieces = needed; ; pieces += 1) {
    yield { pieces, chanceSoFar };
    logTerm += Math.log(pieces) - Math.log(pieces - needed + 1) + logScrap;
    chanceSoFar += Math.exp(logTerm);
  }
}

/**
 * Extra pieces by length of the part, as a share of the order: common practice, no source.
 *
 * @param partLength mm
 * @returns 0.05 to 0.1
 */
export function getSpareShare(partLength: number): number {
  return getSpareThousandths(partLength) / 1000;
}

function getSpareThousandths(partLength: number): number {
  return getUpTo(partLength, SPARES_BY_LENGTH)?.thousandths ?? 0;
}

/** How many pieces of a part are to be made and why, before rounding up to whole blanks. */
export interface SparesDecision {
  make: number;
  why: Figure;
}

/**
 * Pieces to make of one part.
 *
 * @param part its quantity is an integer, 1 or more
 */
export function computeSpares(rule: SpareRule, part: Part): SparesDecision {
  const ordered = getInput('ordered', part.quantity, 'count');
  switch (rule.kind) {
    case 'none':
      return decide(part.quantity, 'No spares', 'make = ordered', [ordered], GEOMETRY);
    case 'pieces': {
      const pieces = Math.max(0, Math.ceil(rule.pieces));
      const inputs = [ordered, getInput('spares', pieces, 'count')];
      return decide(part.quantity + pieces, 'So many spares of each part', 'make = ordered + spares', inputs, GEOMETRY);
    }
    case 'byLength': {
      const thousandths = getSpareThousandths(part.length);
      const setupPieces = Math.max(0, Math.ceil(rule.setupPieces));
      // Whole thousandths keep 20 × 1.05 at 21.
      const make = part.quantity + Math.ceil((part.quantity * thousandths) / 1000) + setupPieces;
      const inputs = [
        ordered,
        getLengthInput('L', part.length),
        getInput('extra', thousandths / 1000, 'fraction'),
        getInput('setup pieces', setupPieces, 'count'),
      ];
      return decide(
        make,
        'A share by length of the part, rounded up, and the pieces that set up the job',
        'make = ceil(ordered (1 + extra)) + setup pieces',
        inputs,
        COMMON_PRACTICE,
      );
    }
    case 'scrapRate': {
      const make = computePiecesForConfidence(part.quantity, rule.scrapRate, rule.confidence);
      const inputs = [
        ordered,
        getInput('p', rule.scrapRate, 'fraction'),
        getInput('confidence', rule.confidence, 'fraction'),
      ];
      return decide(
        make ?? part.quantity,
        make === null
          ? 'No number of spares gives this confidence: none are counted'
          : 'Fewest pieces that meet the order with the confidence asked',
        'least n: P(Bin(n, 1 - p) >= ordered) >= confidence',
        inputs,
        'binomial distribution',
      );
    }
    default:
      return rule satisfies never;
  }
}

function decide(
  make: number,
  rule: string,
  formula: string,
  inputs: Figure['why']['inputs'],
  source: string,
): SparesDecision {
  return { make, why: getFigure('count', make, { rule, formula, inputs, source }) };
}
