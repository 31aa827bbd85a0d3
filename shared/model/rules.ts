import type { QuantityKind } from '../units/quantity';

/** One house rule: a number the shop may change, with what it is and where its first value comes from. */
export interface RuleEntry {
  label: string;
  kind: QuantityKind;
  value: number;
  least: number;
  most: number;
  source: string;
}

const practice = 'common practice, no source';
const inch = 25.4;

function lengthRule(label: string, value: number, least: number, most: number, source = practice): RuleEntry {
  return { label, kind: 'length', value, least, most, source };
}

function ratioRule(label: string, value: number, least: number, most: number, source = practice): RuleEntry {
  return { label, kind: 'ratio', value, least, most, source };
}

/** Every house rule with its first value. Lengths are mm. Graded D in the project's terms unless a source is named: defaults, never laws. */
export const RULE_BOOK = {
  shelfStepInch: lengthRule(
    'Shelf depth is rounded down to a multiple of this in inch plans',
    0.01 * inch,
    0.001,
    12.7,
  ),
  shelfStepMm: lengthRule('Shelf depth is rounded down to a multiple of this in mm plans', 0.25, 0.001, 12.7),
  nudgeStepInch: lengthRule('One arrow key moves this far in inch plans', 0.05 * inch, 0.001, 100),
  nudgeStepMm: lengthRule('One arrow key moves this far in mm plans', 1, 0.001, 100),
  jawFloor: lengthRule('Jaw kept below a shelf', 0.25 * inch, 0, 50),
  counterboreLand: lengthRule('Jaw kept between the shelf floor and the screw counterbores', 0.06 * inch, 0, 25),
  wallBehindLedge: lengthRule('Jaw kept behind the shelf wall', 0.2 * inch, 0, 50),
  ledge: lengthRule('Ledge aimed at on each jaw', 0.125 * inch, 0.1, 25),
  leastLedge: lengthRule('Least ledge that carries a bar', 0.06 * inch, 0, 25),
  spacerStepInch: lengthRule('Spacers come in steps of this in inch plans', (1 / 16) * inch, 0.001, 25),
  spacerStepMm: lengthRule('Spacers come in steps of this in mm plans', 1, 0.001, 25),
  spacerBelowFloor: lengthRule('Spacer stays below the shelf floor by this', 0.03 * inch, 0, 25),
  fingerRoom: lengthRule('Room kept between two parallels', 0.06 * inch, 0, 50),
  clearance: lengthRule('Gap between the cut-off cutter and the jaw tops', 0.05 * inch, 0, 25),
  runningClearance: lengthRule('Running clearance between neck or shank and the work', 0.01 * inch, 0, 10),
  holderClearance: lengthRule('Running clearance between holder and anything', 0.06 * inch, 0, 25),
  leastRib: lengthRule('Thinnest rib aimed at', 0.01 * inch, 0, 5),
  ribTarget: lengthRule('Rib aimed at', 0.03 * inch, 0.01, 5),
  mostRib: lengthRule('Thickest rib that still snaps off', 0.04 * inch, 0.01, 10),
  tabLength: lengthRule('Length of a tab', 0.25 * inch, 0.1, 100),
  tabSpan: lengthRule('Longest span without a tab', 3 * inch, 1, 2000),
  tabEndOverhang: lengthRule('Longest end without a tab', 1 * inch, 0.1, 2000),
  sawnEndCleanup: lengthRule('Taken off each sawn end', 0.06 * inch, 0, 50),
  gangGap: lengthRule('Extra gap between ganged parts beyond the cutter and the allowances', 0, 0, 100),
  locatingError: lengthRule('Locating error of an edge-finding indicator', 0.002 * inch, 0, 5),
  slotOversize: lengthRule(
    'A cut-off slot may come out wider than its cutter by up to this',
    0.002 * inch,
    0,
    2,
    'typical runout, from memory: measure your own',
  ),
  leastFinishingCut: lengthRule('Least finishing cut that cleans up', 0.005 * inch, 0, 5),
  deflectionLimit: lengthRule('Most the work may bend under the cut', 0.001 * inch, 0.0001, 5),
  toolDeflectionLimit: lengthRule('Most a tool may bend under the cut', 0.002 * inch, 0.0001, 5),
  edgeDistance: lengthRule('Least distance of a cut from the end of the blank', 0, 0, 100),
  viseGap: lengthRule('Least gap between vise bodies', 0.1 * inch, 0, 500),
  leastRemnant: lengthRule('Shortest drop that is kept', 6 * inch, 0, 6000),
  zeroMargin: lengthRule('A cut that leaves less than this is flagged as exact', 0.06 * inch, 0, 10),
  deepStepDown: lengthRule('Deep profiles are stepped down this much at a time', 0.3 * inch, 0.1, 50),
  bowReference: lengthRule('Bow assumed for a part of the reference length and height', 0.0075 * inch, 0, 10),
  bowReferenceLength: lengthRule('Length of the part the assumed bow belongs to', 6 * inch, 1, 3000),
  bowReferenceHeight: lengthRule('Height of the part the assumed bow belongs to', 1 * inch, 1, 500),
  oneSidedRatio: ratioRule('Removal from one side over the other above which it counts as one-sided', 2, 1, 100),
  holdFactorStop: ratioRule(
    'Hold factor below which the setup is stopped',
    1.5,
    1,
    10,
    'textbook range 1.5-2.5, from memory',
  ),
  holdFactorCheck: ratioRule(
    'Hold factor below which the setup is checked',
    2.5,
    1,
    20,
    'textbook range 1.5-2.5, from memory',
  ),
  radialForceRatio: ratioRule('Radial over tangential cutting force', 0.4, 0, 2),
  clampScatter: ratioRule(
    'Clamp force may be this fraction under what the torque says',
    0.17,
    0,
    0.9,
    'ten lubricated bolts at one torque, two standard deviations: Shigley, Mechanical Engineering Design, 9th ed., Table 8-14',
  ),
  assumedBowSpread: ratioRule(
    'A bow nobody has measured may be this fraction over or under what is assumed',
    1 / 3,
    0,
    1,
    'common practice, no source: 0.005 to 0.010 in where 0.0075 in is assumed',
  ),
  stickOutComfortHss: ratioRule('Stick-out over diameter that is comfortable, high-speed steel', 4, 1, 20),
  stickOutLimitHss: ratioRule('Stick-out over diameter that is the limit, high-speed steel', 6, 1, 30),
  stickOutComfortCarbide: ratioRule('Stick-out over diameter that is comfortable, carbide', 5, 1, 20),
  stickOutLimitCarbide: ratioRule('Stick-out over diameter that is the limit, carbide', 8, 1, 30),
  equivalentDiameterFactor: ratioRule(
    'Equivalent diameter of the fluted length over the cutter diameter',
    0.8,
    0.5,
    1,
    'Kops & Vo, Determination of the equivalent diameter of an end mill based on its compliance, CIRP Annals 39 (1990)',
  ),
  jawPressureFraction: ratioRule('Jaw pressure allowed as a fraction of the softer yield strength', 0.5, 0.05, 1),
  ribStressFraction: ratioRule('Rib bending stress allowed as a fraction of yield', 0.5, 0.05, 1),
  handSnapForce: {
    label: 'A hand snaps off up to this force at the top of the part',
    kind: 'force',
    value: 150,
    least: 1,
    most: 2000,
    source: practice,
  },
  malletSnapForce: {
    label: 'A soft mallet snaps off up to this force',
    kind: 'force',
    value: 800,
    least: 1,
    most: 10000,
    source: practice,
  },
  prySnapForce: {
    label: 'A pry bar snaps off up to this force',
    kind: 'force',
    value: 2500,
    least: 1,
    most: 50000,
    source: practice,
  },
} as const satisfies Record<string, RuleEntry>;

export type RuleKey = keyof typeof RULE_BOOK;

/** The shop's house rules: a number for each key of the rule book. */
export type Rules = Record<RuleKey, number>;

/** The first values of the rule book. */
export function getDefaultRules(): Rules {
  return Object.fromEntries(Object.entries(RULE_BOOK).map(([key, rule]) => [key, rule.value])) as Rules;
}
