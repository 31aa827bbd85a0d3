import { computeAllowance } from '../engine/allowance';
import { computeBow } from '../engine/bow-results';
import { computeCutForces } from '../engine/cut-forces';
import { computeDeflection, computeLongestLegalOverhang } from '../engine/deflection';
import type { EngineResults } from '../engine/engine-results';
import { computeHold } from '../engine/hold';
import { computeReach } from '../engine/reach';
import { computeRelease } from '../engine/release';
import type { BlankResult, CutForceResult } from '../engine/results';
import type { Setup } from '../engine/setup';

/** What becomes of a setup under the cuts of the plan. */
export type ForcedSetup = Pick<
  EngineResults,
  'blanks' | 'governingBlank' | 'across' | 'seat' | 'vises' | 'cuts' | 'reach' | 'release' | 'bow' | 'allowance'
>;

/** What forces do to a setup. */
export function computeForces(setup: Setup): ForcedSetup {
  const { context } = setup;
  const cuts = computeCutForces(context, setup);
  const blanks = setup.blanks.map((_, index) => computeBlank(setup, index, cuts));
  const bow = computeBow(context, setup);
  const reach = computeReach(context, setup, cuts);
  const deflection = blanks.flatMap((blank) => (blank === null ? [] : [blank.deflection]));
  return {
    blanks: blanks.filter((blank) => blank !== null),
    governingBlank: setup.governingBlank,
    across: [...setup.across],
    seat: setup.seat,
    vises: setup.vises,
    cuts,
    reach,
    release: computeRelease(context, setup, cuts),
    bow,
    allowance: computeAllowance(context, setup, { bow, reach, deflection, cuts }),
  };
}

function computeBlank(setup: Setup, index: number, cuts: readonly CutForceResult[]): BlankResult | null {
  const { context } = setup;
  const blank = setup.blanks[index];
  if (blank === undefined) return null;
  return {
    ...blank,
    longestLegalOverhang: computeLongestLegalOverhang(context, setup, blank, cuts),
    hold: computeHold(context, setup, blank),
    deflection: computeDeflection(context, setup, blank, cuts),
  };
}
