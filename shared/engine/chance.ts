import type { Rules } from '../model/rules';
import type { Figure, WhyInput } from './figure';
import { getRandomStream, type RandomStream } from './random';
import type { AllowanceRow, BlankResult, BowResult, SectionResult, VisesResult } from './results';
import { COMMON_PRACTICE, getFigure, getFinite, getInput, getNonNegative, getTextInput } from './workings';

/** What the chances are worked out from: results of one evaluation. */
export interface ChanceInputs {
  section: SectionResult | null;
  vises: VisesResult | null;
  blanks: readonly BlankResult[];
  bow: readonly BowResult[];
  allowance: readonly AllowanceRow[];
  rules: Rules;
}

export interface ChanceOptions {
  /** Draws, 1 to 1 000 000. */
  draws: number;
  /** The same seed gives the same answer. */
  seed: number;
}

/** Shares of draws, 0 to 1, in which something comes out well; beside the worst case, never in its place. */
export interface ChanceResult {
  draws: number;
  seed: number;
  /** Every blank keeps its stack above the jaws and the grip asked. */
  grip: Figure;
  /** Every face that keeps an allowance cleans up. */
  allowance: Figure;
  /** Every cut on every blank holds with the factor under which the shop stops. */
  hold: Figure;
  /** All three at once. */
  all: Figure;
  /** Lowest hold factor in all but one draw of twenty. */
  holdFactorLow: number;
}

/** A slot may come out wider than its cutter by up to this, from runout, mm. Typical, from memory: measure your own. */
const SLOT_OVERSIZE = 0.05;

/** Two standard deviations of a bow nobody has measured, over the bow: 0.005-0.010 in about 0.0075. Common practice, no source. */
const ASSUMED_BOW_SCATTER = 1 / 3;

/** Range over standard deviation of small samples: Montgomery, Introduction to Statistical Quality Control, constants d2. */
const RANGE_TO_DEVIATION = [0, 0, 1.128, 1.693, 2.059, 2.326, 2.534, 2.704, 2.847, 2.97, 3.078];

const MOST_DRAWS = 1_000_000;

/**
 * The chance that grip, allowance and hold are met, when bar size, width of the slot, clamp force, bow and locating error
 * each vary: the bar's height evenly within its limits, the slot evenly up to its oversize, the rest normally, the shop's
 * figures read as two standard deviations. Repeatable: the seed decides the draws. An estimate that rests on these spreads.
 */
export function computeChance(inputs: ChanceInputs, options: ChanceOptions): ChanceResult {
  const draws = Math.max(1, Math.min(MOST_DRAWS, Math.trunc(getFinite(options.draws, 1))));
  const stream = getRandomStream(options.seed);
  const model = buildModel(inputs);
  const factors = new Float64Array(draws);
  const met = { grip: 0, allowance: 0, hold: 0, all: 0 };
  for (let draw = 0; draw < draws; draw += 1) {
    const size = model.barSpread * (stream.nextEven() - model.barMiddle);
    const oversize = SLOT_OVERSIZE * stream.nextEven();
    const grip = model.leastSpare + size - oversize >= -1e-9;
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
  const figure = (share: number, rule: string) => getShareFigure(inputs, share / draws, rule, draws, options.seed);
  return {
    draws,
    seed: options.seed,
    grip: figure(met.grip, 'Share of draws in which every blank keeps its stack and the grip asked'),
    allowance: figure(met.allowance, 'Share of draws in which every face that keeps an allowance cleans up'),
    hold: figure(met.hold, `Share of draws in which every cut holds with the factor the shop stops under`),
    all: figure(met.all, 'Share of draws in which grip, allowance and hold are all met'),
    holdFactorLow: getFinite(factors[Math.floor(draws / 20)] ?? 0),
  };
}

/** One cut on one blank, as its factors go with clamp force and bar size. */
interface HeldRow {
  /** Slip or lift factor at the full clamp force of the vises, and the tip factor there. */
  slide: number;
  tip: number;
  /** Load and grip for the tip lever, mm. */
  loadHeight: number;
  flatGrip: number;
}

interface HeldBlank {
  vises: number;
  rows: HeldRow[];
}

interface FacedPart {
  bow: number;
  bowDeviation: number;
  springBack: number;
  faces: { left: number; fixed: number; bowTimes: number; springs: boolean; locates: boolean }[];
}

interface Model {
  /** Width of the bar's limits on its height, and where nominal lies in them, 0 to 1. */
  barSpread: number;
  barMiddle: number;
  /** Least over the blanks of nominal bar height less stack and grip. */
  leastSpare: number;
  clampDeviation: number;
  locatingDeviation: number;
  holdTarget: number;
  blanks: HeldBlank[];
  parts: FacedPart[];
}

function buildModel(inputs: ChanceInputs): Model {
  const { section, rules, blanks } = inputs;
  const limits = section?.height ?? { nominal: 0, least: 0, most: 0 };
  const spread = Math.max(0, limits.most - limits.least);
  const spares = blanks.map(
    ({ stack }) => limits.nominal - stack.needAboveJaws - Math.max(stack.grip.nominal, stack.gripAsked),
  );
  return {
    barSpread: spread,
    barMiddle: spread > 0 ? (limits.nominal - limits.least) / spread : 0,
    leastSpare: spares.length > 0 ? Math.min(...spares) : 0,
    clampDeviation: getNonNegative(rules.clampScatter) / 2,
    locatingDeviation: getNonNegative(rules.locatingError) / 2,
    holdTarget: Math.max(0, rules.holdFactorStop),
    blanks: blanks.map((blank) => getHeldBlank(inputs, blank)),
    parts: inputs.bow.map((bow) => getFacedPart(inputs, bow)).filter((part) => part.faces.length > 0),
  };
}

function getHeldBlank({ section, rules }: ChanceInputs, blank: BlankResult): HeldBlank {
  // The evaluation counts the force less its scatter; the draws start from the whole of it.
  const whole = 1 / Math.max(0.01, 1 - Math.min(0.99, getNonNegative(rules.clampScatter)));
  const flatGrip = Math.max(0, blank.stack.grip.least - (section?.cornerRadius ?? 0));
  return {
    vises: Math.max(1, new Set(blank.contacts.map((contact) => contact.viseIndex)).size),
    rows: blank.hold.rows.map((row) => ({
      slide: Math.min(row.slipFactor.value, row.liftFactor.value) * whole,
      tip: row.tipFactor.value * whole,
      loadHeight: row.loadHeight,
      flatGrip,
    })),
  };
}

/** Beyond this many standard deviations nothing is drawn in practice: a face that bears even that is left out of the draws. */
const NEVER_BEYOND = 6;

function getFacedPart({ allowance, rules }: ChanceInputs, bow: BowResult): FacedPart {
  const rows = allowance.filter((row) => row.partId === bow.partId && !row.finishedHere);
  const getTerm = (row: AllowanceRow, cause: string) => row.terms.find((term) => term.cause === cause)?.value ?? 0;
  const bowDeviation = getBowDeviation(bow);
  const faces = rows.map((row) => ({
    left: row.left,
    fixed: getTerm(row, 'leastCut') + getTerm(row, 'workBending') + getTerm(row, 'toolBending'),
    bowTimes: bow.bow.value > 0 ? getTerm(row, 'bow') / bow.bow.value : 0,
    springs: getTerm(row, 'springBack') > 0,
    locates: getTerm(row, 'locating') > 0,
  }));
  const farBow = bow.bow.value + NEVER_BEYOND * bowDeviation;
  const farLocating = (NEVER_BEYOND * getNonNegative(rules.locatingError)) / 2;
  const atRisk = faces.filter(
    (face) => face.left < face.fixed + face.bowTimes * farBow + (face.springs ? bow.springBack : 0) + farLocating,
  );
  return { bow: bow.bow.value, bowDeviation, springBack: bow.springBack, faces: atRisk };
}

function getBowDeviation(bow: BowResult): number {
  const divisor = RANGE_TO_DEVIATION[Math.min(bow.measurements, RANGE_TO_DEVIATION.length - 1)] ?? 0;
  return bow.spread !== null && divisor > 0
    ? (bow.spread.most - bow.spread.least) / divisor
    : (bow.bow.value * ASSUMED_BOW_SCATTER) / 2;
}

/** Lowest factor over blanks and cuts. Every vise is tightened by itself; a taller bar stands further out of the jaws. */
function drawHoldFactor(model: Model, size: number, stream: RandomStream): number {
  let lowest = 1000;
  for (const blank of model.blanks) {
    let share = 0;
    for (let vise = 0; vise < blank.vises; vise += 1) {
      share += Math.max(0, 1 + model.clampDeviation * stream.nextNormal());
    }
    share /= blank.vises;
    for (const row of blank.rows) {
      const lever = row.loadHeight + row.flatGrip / 2;
      const tip = lever > 0 ? (row.tip * lever) / Math.max(lever / 2, lever + size) : row.tip;
      lowest = Math.min(lowest, share * Math.min(row.slide, tip));
    }
  }
  return lowest;
}

function drawAllowance(model: Model, stream: RandomStream): boolean {
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

function getShareFigure(inputs: ChanceInputs, share: number, rule: string, draws: number, seed: number): Figure {
  const { section, vises, rules } = inputs;
  const spreads: WhyInput[] = [
    getInput('draws', draws, 'count'),
    getTextInput('seed', String(seed)),
    getInput('bar, smallest', section?.height.least ?? 0, 'length'),
    getInput('bar, largest', section?.height.most ?? 0, 'length'),
    getInput('slot wider by up to', SLOT_OVERSIZE, 'length'),
    getInput('clamp force', vises?.clampForceN.value ?? 0, 'force'),
    getInput('clamp force ±, two deviations', rules.clampScatter, 'fraction'),
    getInput('locating error, two deviations', rules.locatingError, 'length'),
    getTextInput('bow', 'as measured with its range; while assumed ± 1/3, two deviations'),
    getInput('standard error of the share', Math.sqrt((share * (1 - share)) / draws), 'fraction'),
  ];
  return getFigure('fraction', share, {
    rule: `${rule}; an estimate that rests on the spreads below`,
    formula: 'share = draws that meet it / draws',
    inputs: spreads,
    source: `sampling; clamp scatter: Shigley, Table 8-14; other spreads ${COMMON_PRACTICE}`,
  });
}
