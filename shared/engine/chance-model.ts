import type { Rules } from '../model/rules';
import type { AllowanceRow, BlankResult, BowResult, SectionResult, VisesResult } from './results';
import { getNonNegative, LARGEST_FACTOR } from './workings';

/** What the chances are worked out from: results of one evaluation. */
export interface ChanceInputs {
  section: SectionResult | null;
  vises: VisesResult | null;
  blanks: readonly BlankResult[];
  bow: readonly BowResult[];
  allowance: readonly AllowanceRow[];
  rules: Rules;
}

/** How one cut tips the bar at the whole clamp force, as it goes with the bar's size. */
export interface HeldTip {
  factor: number;
  /** From the load down to the middle of the grip, mm; a taller bar stands further out. */
  lever: number;
}

export interface HeldBlank {
  vises: number;
  /** Lowest factor against slipping and lifting over all cuts, at the whole clamp force. */
  slide: number;
  /** Only the cuts that may be the weakest at some size of the bar. */
  tips: HeldTip[];
}

/** One face that keeps an allowance: what is left of it, and what takes from it. Lengths mm. */
export interface ChancedFace {
  left: number;
  fixed: number;
  bowTimes: number;
  springs: boolean;
  locates: boolean;
}

export interface ChancedPart {
  bow: number;
  bowDeviation: number;
  springBack: number;
  faces: ChancedFace[];
}

/**
 * What varies, and how. The bar's height lies evenly within its limits and the slot evenly up to its oversize; clamp
 * force, bow and locating error vary normally, the shop's figures read as two standard deviations. Lengths mm.
 */
export interface ChanceModel {
  /** Width of the bar's limits on its height, and where nominal lies in them, 0 to 1. */
  barSpread: number;
  barMiddle: number;
  slotOversize: number;
  /** Least over the blanks of nominal bar height less stack and grip. */
  leastSpare: number;
  clampDeviation: number;
  locatingDeviation: number;
  holdTarget: number;
  blanks: HeldBlank[];
  parts: ChancedPart[];
}

/** Range over standard deviation of small samples: Montgomery, Introduction to Statistical Quality Control, constants d2. */
const RANGE_TO_DEVIATION = [0, 0, 1.128, 1.693, 2.059, 2.326, 2.534, 2.704, 2.847, 2.97, 3.078];

export function getChanceModel(inputs: ChanceInputs): ChanceModel {
  const { section, rules, blanks } = inputs;
  const limits = section?.height ?? { nominal: 0, least: 0, most: 0 };
  const spread = Math.max(0, limits.most - limits.least);
  const spares = blanks.map(
    ({ stack }) => limits.nominal - stack.needAboveJaws - Math.max(stack.grip.nominal, stack.gripAsked),
  );
  return {
    barSpread: spread,
    barMiddle: spread > 0 ? (limits.nominal - limits.least) / spread : 0,
    slotOversize: getNonNegative(rules.slotOversize),
    leastSpare: spares.length > 0 ? Math.min(...spares) : 0,
    clampDeviation: getNonNegative(rules.clampScatter) / 2,
    locatingDeviation: getNonNegative(rules.locatingError) / 2,
    holdTarget: Math.max(0, rules.holdFactorStop),
    blanks: blanks.filter((blank) => blank.hold.rows.length > 0).map((blank) => getHeldBlank(inputs, blank)),
    parts: inputs.bow.map((bow) => getChancedPart(inputs, bow)).filter((part) => part.faces.length > 0),
  };
}

/** Lowest factor of a blank at the whole clamp force when the bar is `size` mm over nominal. */
export function getWholeFactor({ slide, tips }: HeldBlank, size: number): number {
  let least = slide;
  for (const tip of tips) least = Math.min(least, getTipFactor(tip, size));
  return least;
}

function getTipFactor({ factor, lever }: HeldTip, size: number): number {
  return lever > 0 ? (factor * lever) / Math.max(lever / 2, lever + size) : factor;
}

function getHeldBlank({ section, rules }: ChanceInputs, blank: BlankResult): HeldBlank {
  // The evaluation counts the force less its scatter; here the whole of it varies.
  const whole = 1 / Math.max(0.01, 1 - Math.min(0.99, getNonNegative(rules.clampScatter)));
  const flatGrip = Math.max(0, blank.stack.grip.least - (section?.cornerRadius ?? 0));
  const { rows } = blank.hold;
  const slides = rows.map((row) => Math.min(row.slipFactor.value, row.liftFactor.value) * whole);
  const slide = Math.min(LARGEST_FACTOR, ...slides);
  const tips = rows.map((row) => ({ factor: row.tipFactor.value * whole, lever: row.loadHeight + flatGrip / 2 }));
  const { nominal = 0, least = 0, most = 0 } = section?.height ?? {};
  const beaten = Math.min(slide, ...tips.map((tip) => getTipFactor(tip, least - nominal)));
  return {
    vises: Math.max(1, new Set(blank.contacts.map((contact) => contact.viseIndex)).size),
    slide,
    tips: tips.filter((tip) => getTipFactor(tip, most - nominal) <= beaten),
  };
}

/** Beyond this many standard deviations nothing counts: a face that bears even that is left out. */
export const NEVER_BEYOND = 6;

function getChancedPart({ allowance, rules }: ChanceInputs, bow: BowResult): ChancedPart {
  const rows = allowance.filter((row) => row.partId === bow.partId && !row.finishedHere);
  const getTerm = (row: AllowanceRow, cause: string) => row.terms.find((term) => term.cause === cause)?.value ?? 0;
  const bowDeviation = getBowDeviation(bow, getNonNegative(rules.assumedBowSpread));
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

function getBowDeviation(bow: BowResult, assumedSpread: number): number {
  const divisor = RANGE_TO_DEVIATION[Math.min(bow.measurements, RANGE_TO_DEVIATION.length - 1)] ?? 0;
  return bow.spread !== null && divisor > 0
    ? (bow.spread.most - bow.spread.least) / divisor
    : (bow.bow.value * assumedSpread) / 2;
}
