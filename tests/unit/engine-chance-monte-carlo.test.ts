import { describe, expect, it } from 'vitest';
import { computeChance } from '../../shared/engine/chance';
import type { AllowanceRow, AllowanceTerm, BowResult } from '../../shared/engine/results';
import { type Evaluation, evaluate } from '../../shared/evaluate';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import { buildHoistArms } from '../../shared/model/catalogue/sample-hoist-arms';
import { buildKeeperLinks } from '../../shared/model/catalogue/sample-keeper-links';
import { FACES, type Face, type PerFace } from '../../shared/model/faces';
import type { Plan } from '../../shared/model/plan';

// Parts bent in space and laid on their ends, their faces measured along their length: nothing here is taken from the
// engine but what is left on each face, how large bow and spring-back are, and what is always taken.

const DRAWS = 20_000;
/** Places along the part where its metal is measured, as shares of its length. */
const PLACES = [0, 0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875, 1];

/** Tommy Ettinger's mulberry32, a generator of another family than the engine's. */
function getGenerator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let word = Math.imul(state ^ (state >>> 15), 1 | state);
    word = (word + Math.imul(word ^ (word >>> 7), 61 | word)) ^ word;
    return ((word ^ (word >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** Normal by the sum of twelve even numbers; its tails end at six deviations. */
function drawNormal(next: () => number): number {
  let sum = -6;
  for (let count = 0; count < 12; count += 1) sum += next();
  return sum;
}

/** Which way a curved centre line leaves a face, 1 for a face that grows proud where the part bows up or to the moving side. */
const UP: Partial<PerFace<number>> = { top: 1, bottom: -1 };
const OVER: Partial<PerFace<number>> = { movingSide: 1, fixedSide: -1 };

interface Bent {
  up: number;
  over: number;
}

/** One part let go: how far its middle stands off the line through its ends, in height and to the side. */
function drawBent(bow: BowResult, rows: readonly AllowanceRow[], next: () => number): Bent {
  const spread = defaultShop.rules.assumedBowSpread / 2;
  const bowed = Math.abs(bow.bow.value * (1 + spread * drawNormal(next)));
  const curl = Math.max(0, ...rows.map((row) => getTerm(row, 'curl')));
  const sprung = bow.springBack * (2 * next() - 1);
  const sign = next() < 0.5 ? 1 : -1;
  if (curl > 0) {
    const other = next() < 0.5 ? 1 : -1;
    return { up: sign * bowed, over: other * Math.abs(curl * (1 + spread * drawNormal(next))) + sprung };
  }
  return next() < 0.5 ? { up: sign * bowed, over: sprung } : { up: 0, over: sign * bowed + sprung };
}

function getTerm(row: AllowanceRow, cause: AllowanceTerm['cause']): number {
  return row.terms.find((term) => term.cause === cause)?.value ?? 0;
}

/** Least metal over the finished face along the part, as it lies on its ends. */
function getLeastMetal(left: number, face: Face, { up, over }: Bent): number {
  const off = (UP[face] ?? 0) * up + (OVER[face] ?? 0) * over;
  return Math.min(...PLACES.map((x) => left + 4 * off * x * (1 - x)));
}

/** Share of jobs in which every face of every kind of part cleans up. */
function drawAllowanceChance({ allowance, bow }: Pick<Evaluation, 'allowance' | 'bow'>): number {
  const next = getGenerator(11);
  const kinds = bow.map((one) => ({
    bow: one,
    rows: allowance.filter((row) => row.partId === one.partId && row.left > 0),
  }));
  let met = 0;
  for (let draw = 0; draw < DRAWS; draw += 1) {
    const isMet = kinds.every(({ bow: one, rows }) => {
      const bent = drawBent(one, rows, next);
      return FACES.every((face) => {
        const row = rows.find((candidate) => candidate.face === face);
        if (row === undefined) return true;
        const always = getTerm(row, 'leastCut') + getTerm(row, 'workBending') + getTerm(row, 'toolBending');
        const locating = Math.abs((defaultShop.rules.locatingError / 2) * drawNormal(next));
        return getLeastMetal(row.left, face, bent) >= always + locating;
      });
    });
    if (isMet) met += 1;
  }
  return met / DRAWS;
}

function computeSummed(evaluation: Evaluation): number {
  return computeChance({ ...evaluation, rules: defaultShop.rules })?.allowance.value ?? Number.NaN;
}

const offCentre = (plan: Plan): Plan => ({ ...plan, cleanup: { ...plan.cleanup, fromFixedJaw: { pinned: 0.3 } } });
const lop = (plan: Plan): Plan => ({ ...plan, allowance: { ...plan.allowance, top: 0.45, fixedSide: 0.4 } });

describe('the chance of the allowance against parts bent in space and laid on their ends', () => {
  it.each<[string, Plan]>([
    ['hoist arms', buildHoistArms()],
    ['hoist arms, less on one face of each pair', lop(buildHoistArms())],
    ['hoist arms, cut on one side only', offCentre(buildHoistArms())],
    ['keeper links', buildKeeperLinks()],
  ])('%s', (_name, plan) => {
    const evaluation = evaluate(plan, defaultShop);
    for (const share of [1, 0.8, 0.65]) {
      const allowance = evaluation.allowance.map((row) => ({ ...row, left: row.left * share }));
      const changed = { ...evaluation, allowance };
      const drawn = drawAllowanceChance(changed);
      const summed = computeSummed(changed);
      const error = Math.sqrt((summed * (1 - summed)) / DRAWS);
      expect(Math.abs(drawn - summed), `share ${share}: drawn ${drawn}, summed ${summed}`).toBeLessThan(
        4 * error + 0.002,
      );
    }
  });

  it('a part cut on one side only is drawn as one', () => {
    const { allowance } = evaluate(offCentre(buildHoistArms()), defaultShop);
    expect(allowance.some((row) => getTerm(row, 'curl') > 0)).toBe(true);
  });
});
