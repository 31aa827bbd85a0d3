import type { PerFace } from '../model/faces';
import type { Rules } from '../model/rules';
import type { AllowanceRow, AllowanceTerm, BlankResult, BowResult, SectionResult, VisesResult } from './results';
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

/**
 * What may go wrong with one part, mm. A part bows one way: up, down or to either side, each as likely, as nobody knows
 * which before it is let go; cut on one side only it curls to a side besides. Lying on its ends it is hollow on one face,
 * and that face alone lacks the whole bow. A bar pulled straight by its vises springs back to either side as likely.
 */
export interface ChancedPart {
  bow: { mean: number; deviation: number };
  /** Sideways curl of a part cut on one side only; null where both are cut. */
  curl: { mean: number; deviation: number } | null;
  /** Most the bar springs back. */
  springBack: number;
  /** What is left on each face after what is always taken from it; only faces that may fall short. */
  rooms: Partial<PerFace<number>>;
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
    parts: inputs.bow.map((bow) => getChancedPart(inputs, bow)).filter(({ rooms }) => Object.keys(rooms).length > 0),
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
  const getTerm = (row: AllowanceRow, cause: AllowanceTerm['cause']) =>
    row.terms.find((term) => term.cause === cause)?.value ?? 0;
  const spread = getNonNegative(rules.assumedBowSpread);
  const height = { mean: bow.bow.value, deviation: getBowDeviation(bow, spread) };
  const curled = Math.max(0, ...rows.map((row) => getTerm(row, 'curl')));
  const curl = curled > 0 ? { mean: curled, deviation: (curled * spread) / 2 } : null;
  const farLocating = (NEVER_BEYOND * getNonNegative(rules.locatingError)) / 2;
  const getFar = (one: { mean: number; deviation: number }) => one.mean + NEVER_BEYOND * one.deviation;
  const far = Math.max(getFar(height), curl === null ? 0 : getFar(curl)) + bow.springBack + farLocating;
  const rooms: Partial<PerFace<number>> = {};
  for (const row of rows) {
    const room = row.left - getTerm(row, 'leastCut') - getTerm(row, 'workBending') - getTerm(row, 'toolBending');
    if (room < far) rooms[row.face] = room;
  }
  return { bow: height, curl, springBack: bow.springBack, rooms };
}

function getBowDeviation(bow: BowResult, assumedSpread: number): number {
  const divisor = RANGE_TO_DEVIATION[Math.min(bow.measurements, RANGE_TO_DEVIATION.length - 1)] ?? 0;
  return bow.spread !== null && divisor > 0
    ? (bow.spread.most - bow.spread.least) / divisor
    : (bow.bow.value * assumedSpread) / 2;
}
