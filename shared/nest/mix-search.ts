import { type BarMix, chooseBarMix, type MixCut, weighMix } from './bar-mix';
import type { CoreProblem, PatternUse, Residual } from './core-model';
import { computeDive } from './dive';
import { computeExactSearch } from './exact-search';
import { computeGreedyAnswer } from './greedy';
import { computeListedSearch } from './listed-search';
import { computeRelaxation, type DualBound, type RelaxationContext } from './relaxation';

export interface MixSearchOptions {
  readonly getBelow: () => number;
  readonly roundUp: (weight: number) => number;
  readonly found: (uses: readonly PatternUse[], weight: number) => void;
  /** Told of every weight under which nothing is left. */
  readonly prove: (bound: number) => void;
}

/** Steps a mix may cost, at the least, before it is set aside; as many as all before the search cost where that was more. */
const UNITS_PER_MIX = 1e8;

/** Most patterns that are listed and combined exactly. */
const MAX_LISTED = 1000;

const DIVE_NOISES = [0, 0.2, 0.4];

/**
 * Searches mixes of bars from the lightest up. A mix into which not even the relaxation can pack all yields a cut that forbids it
 * and many others (Benders 1962); one into which it can is packed by dives and, where that fails, by exact search.
 * The first mix that can be packed is the lightest there is.
 */
export function computeMixSearch(
  context: RelaxationContext,
  whole: Residual,
  root: DualBound,
  options: MixSearchOptions,
): void {
  const { core, work } = context;
  const stocks = core.stocks.map((stock, j) => ({ ...stock, quantity: whole.quantities[j] as number }));
  const cuts: MixCut[] = [toCut(whole, root)];
  const excluded: BarMix[] = [];
  const unitsPerMix = Math.max(UNITS_PER_MIX, work.spent);
  let isEverySmallerOneRefuted = true;
  while (!work.isOut()) {
    const choice = chooseBarMix(stocks, cuts, excluded, options.getBelow(), options.roundUp, work);
    if (isEverySmallerOneRefuted) options.prove(choice.bound);
    if (!choice.mix) return;
    const residual: Residual = { demands: whole.demands, quantities: Float64Array.from(choice.mix) };
    const cut = refuteMix(context, residual);
    if (cut) {
      cuts.push(cut);
      continue;
    }
    const outcome = packMix(context, residual, weighMix(stocks, choice.mix), unitsPerMix, options);
    if (outcome === 'packed') {
      if (isEverySmallerOneRefuted && weighMix(stocks, choice.mix) <= choice.bound) return;
      continue;
    }
    excluded.push(choice.mix);
    if (outcome === 'open') isEverySmallerOneRefuted = false;
  }
}

function toCut(whole: Residual, dual: DualBound): MixCut {
  let needed = 0n;
  whole.demands.forEach((demand, row) => {
    needed += BigInt(dual.prices[row] as number) * BigInt(demand);
  });
  return { earnings: dual.earnings, needed: Number(needed) };
}

/** A cut that this mix breaks, if the relaxation cannot pack all into it. */
function refuteMix(context: RelaxationContext, residual: Residual): MixCut | undefined {
  const weightless: CoreProblem = {
    ...context.core,
    stocks: context.core.stocks.map((stock) => ({ ...stock, weight: 0 })),
  };
  const relaxation = computeRelaxation({ ...context, core: weightless }, residual, 1);
  return relaxation.dual && relaxation.bound > 0 ? toCut(residual, relaxation.dual) : undefined;
}

/** Tries to pack all into a mix: `none` when it is proven that it cannot be done. */
function packMix(
  context: RelaxationContext,
  residual: Residual,
  weight: number,
  units: number,
  options: MixSearchOptions,
): 'packed' | 'none' | 'open' {
  const { core, work } = context;
  let isPacked = false;
  const found = (uses: readonly PatternUse[], itsWeight: number): void => {
    isPacked = true;
    options.found(uses, itsWeight);
  };
  return work.within(units, () => {
    for (const nodes of [300, 3000]) {
      const answer = computeGreedyAnswer(core, residual, { kind: 'least-waste', nodes }, work);
      if (answer.weight <= weight) {
        found(answer.uses, answer.weight);
        return 'packed';
      }
    }
    const relaxation = computeRelaxation(context, residual, Number.POSITIVE_INFINITY);
    for (let round = 0; round < DIVE_NOISES.length && !isPacked && !work.isOut(); round++) {
      const noise = DIVE_NOISES[round] as number;
      computeDive(context, relaxation, residual, {
        below: weight + 1,
        target: weight,
        noise,
        seed: round + 1,
        retries: true,
        found,
      });
    }
    if (isPacked) return 'packed';
    const below = weight + 1;
    const isListed =
      relaxation.dual !== undefined &&
      computeListedSearch(context, residual, relaxation.dual, { below, found, maxListed: MAX_LISTED });
    if (isPacked || isListed) return isPacked ? 'packed' : 'none';
    const isComplete = computeExactSearch(context, residual, { below: weight + 1, roundUp: options.roundUp, found });
    if (isPacked) return 'packed';
    return isComplete ? 'none' : 'open';
  });
}
