import type { EngineResults, HeadlineFigures } from '../engine/engine-results';

const NO_FIGURES: HeadlineFigures = {
  grip: null,
  proudHeight: null,
  shelfDepth: null,
  hold: null,
  rib: null,
  stickOut: null,
  bars: null,
  yield: null,
  cost: null,
};

/** Results of a plan about which nothing can be said yet. */
export function getEmptyResults(): EngineResults {
  return {
    section: null,
    blanks: [],
    governingBlank: -1,
    across: [],
    seat: null,
    vises: null,
    cuts: [],
    reach: [],
    release: null,
    bow: [],
    allowance: [],
    chance: null,
    gang: [],
    spares: [],
    order: null,
    sections: [],
    figures: NO_FIGURES,
  };
}
