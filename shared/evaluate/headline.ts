import type { EngineResults, HeadlineFigures } from '../engine/engine-results';
import type { Decided, Figure } from '../engine/figure';
import { GEOMETRY, getFigure, getInput } from '../engine/workings';

/** The figures that never leave the screen, from everything else that was worked out. */
export function getHeadline(results: Omit<EngineResults, 'figures'>): HeadlineFigures {
  const governing = results.blanks[results.governingBlank] ?? null;
  const { seat, order } = results;
  // Parts that are not inside the bar have no share of it.
  const isInBar = results.sections.find((row) => row.chosen)?.fitsNominal !== false;
  return {
    grip: governing?.stack.gripFigure ?? null,
    proudHeight: governing?.stack.proudFigure ?? null,
    shelfDepth: seat?.choice.value.kind === 'shelf' ? getLengthFigure(seat.shelfDepth) : null,
    hold: getLeast(results.blanks.flatMap(({ hold }) => (hold.weakest === null ? [] : [hold.weakest.factor]))),
    rib: getMost((results.release?.parts ?? []).map((part) => part.widestFigure)),
    stickOut: getMost(results.reach.map(({ stickOut }) => getLengthFigure(stickOut))),
    bars: order === null ? null : getBarsFigure(order.totalBars, order.purchase.length),
    yield: isInBar ? (order?.yieldToPart ?? null) : null,
    cost: order?.cost ?? null,
  };
}

function getLengthFigure(decided: Decided<number>): Figure {
  return getFigure('length', decided.value, decided.why);
}

function getBarsFigure(totalBars: number, lengths: number): Figure {
  return getFigure('count', totalBars, {
    rule: 'Bars cut, remnants from the rack included',
    formula: 'bars = sum over the cutting patterns',
    inputs: [getInput('bars', totalBars, 'count'), getInput('lengths bought', lengths, 'count')],
    source: GEOMETRY,
  });
}

function getLeast(figures: readonly Figure[]): Figure | null {
  return figures.reduce<Figure | null>((least, one) => (least === null || one.value < least.value ? one : least), null);
}

function getMost(figures: readonly Figure[]): Figure | null {
  return figures.reduce<Figure | null>((most, one) => (most === null || one.value > most.value ? one : most), null);
}
