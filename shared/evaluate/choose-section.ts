import { getDecided } from '../engine/decide';
import type { Why } from '../engine/figure';
import { clamp, SAME_LENGTH } from '../engine/rounding';
import type { SectionDecision } from '../engine/section';
import { getInput, getTextInput } from '../engine/workings';
import { getPinned } from '../model/choice';
import { getBarMeasure } from './bar-measure';
import type { PlanJob } from './plan-job';
import type { SectionTrial } from './section-trial';

/** The section a plan takes, and why. */
export interface ChosenSection {
  trial: SectionTrial;
  decision: SectionDecision;
}

/** What stops the plan with one section and may not with another. Words, '' when nothing does. */
export interface SectionLook {
  /** Looks closely; the answer is kept. */
  getStop: (trial: SectionTrial) => string;
  /** The answer where it was asked for before; else ''. */
  getKnownStop: (trial: SectionTrial) => string;
}

interface SectionClass {
  /** Why the best of the class is taken. */
  rule: string;
  holds: (trial: SectionTrial) => boolean;
  order: (a: SectionTrial, b: SectionTrial) => number;
  /** True where each section is looked at closely before it is taken: what stops it does not all show in the comparison. */
  isProved: boolean;
}

const isComfortable = ({ row }: SectionTrial): boolean => row.verdict === 'good';
const isPassable = ({ row }: SectionTrial): boolean => row.verdict === 'check';

/** How good a section is, best first; the rule says it in words. */
const CLASSES: readonly SectionClass[] = [
  {
    rule: 'Cheapest bar whose smallest size fits with the grip aimed at and nothing that stops it',
    holds: (trial) => isComfortable(trial) && !trial.isOtherMeasure,
    order: compareCost,
    isProved: true,
  },
  {
    rule: 'No bar sized in the plan’s units is comfortable: the cheapest of the others that fits with the grip aimed at and nothing that stops it',
    holds: isComfortable,
    order: compareCost,
    isProved: true,
  },
  {
    rule: 'No bar on offer is comfortable: the cheapest from stock whose smallest size fits and nothing stops it',
    holds: (trial) => isPassable(trial) && trial.isStocked && !trial.isOtherMeasure,
    order: compareCost,
    isProved: true,
  },
  {
    rule: 'No bar on offer is comfortable, and none sized in the plan’s units serves: the cheapest of the others from stock whose smallest size fits and nothing stops it',
    holds: (trial) => isPassable(trial) && trial.isStocked,
    order: compareCost,
    isProved: true,
  },
  {
    rule: 'No bar from stock serves: the cheapest run to order whose smallest size fits and nothing stops it',
    holds: isPassable,
    order: compareCost,
    isProved: true,
  },
  {
    rule: 'Every bar on offer is stopped by something: the cheapest whose smallest size fits',
    holds: ({ row }) => row.fitsWorst,
    order: compareCost,
    isProved: false,
  },
  {
    rule: 'No bar on offer fits: the one that comes nearest',
    holds: () => true,
    order: compareShort,
    isProved: false,
  },
];

/**
 * The bar and its way up: pinned ones are kept; auto takes the cheapest comfortable bar, on ties the lighter.
 * What else the plan pins is kept too, so a bar is only taken by itself where nothing of the plan stops it with that bar.
 *
 * A bar from stock goes before one that is run to order, which is dearer and slower than its price says, and a bar sized in
 * the plan's units before the others: 12 mm passes for 1/2 in until it is 0.7 mm short.
 *
 * @param look asked of as few sections as will do
 * @returns null when no bar is on offer
 */
export function chooseSection(job: PlanJob, trials: readonly SectionTrial[], look: SectionLook): ChosenSection | null {
  const { stock } = job.context.plan;
  const pinnedBar = getPinned(stock.barId);
  const pinnedWayUp = getPinned(stock.wayUp);
  const best = takeBest(job, trials, look);
  if (best === null) return null;
  const ofBar = trials.filter(({ option }) => pinnedBar === undefined || option.bar.id === pinnedBar);
  const isKnown = ofBar.length > 0;
  const pool = isKnown ? ofBar : trials;
  // A square bar has only one way up, so the other is the same.
  const ofWayUp = pool.filter(({ option }) => pinnedWayUp === undefined || option.wayUp === pinnedWayUp);
  const taken = takeBest(job, ofWayUp.length > 0 ? ofWayUp : pool, look);
  if (taken === null) return null;
  const sameBar = pool.filter(({ option }) => option.bar.id === taken.trial.option.bar.id);
  const bestOfBar = takeBest(job, sameBar, look) ?? taken;
  return {
    trial: taken.trial,
    decision: {
      barId: getDecided(
        isKnown ? stock.barId : 'auto',
        getBestBarId(best, pinnedBar, taken),
        getWhy(job, trials, best, look),
      ),
      wayUp: {
        value: taken.trial.option.wayUp,
        pinned: pinnedWayUp !== undefined,
        auto: bestOfBar.trial.option.wayUp,
        why: getWhy(job, trials, bestOfBar, look),
      },
    },
  };
}

function getBestBarId(best: Best, pinnedBar: string | undefined, taken: Best): string {
  return pinnedBar === undefined ? taken.trial.option.bar.id : best.trial.option.bar.id;
}

interface Best {
  trial: SectionTrial;
  rule: string;
}

/**
 * How many bars may be looked at closely, the cheapest first: more would be felt while typing. Each look goes through every
 * part, so a plan of many parts gets fewer.
 */
function getMostLooks({ context }: PlanJob): number {
  return clamp(Math.floor(240 / Math.max(1, context.parts.length)), 6, 24);
}

const ALL_STOPPED = 'On a close look something stops each of the cheapest bars that fit: the cheapest of them';

function takeBest(job: PlanJob, trials: readonly SectionTrial[], look: SectionLook): Best | null {
  const looked = new Set<SectionTrial>();
  for (const { rule, holds, order, isProved } of CLASSES) {
    const pool = trials.filter((trial) => holds(trial) && !looked.has(trial)).sort(order);
    const first = pool[0];
    if (first === undefined) continue;
    if (!isProved || trials.length === 1) return looked.size > 0 ? takeFirst(looked) : { trial: first, rule };
    for (const trial of pool.slice(0, getMostLooks(job) - looked.size)) {
      if (look.getStop(trial) === '') return { trial, rule };
      looked.add(trial);
    }
  }
  return takeFirst(looked);
}

function takeFirst(looked: ReadonlySet<SectionTrial>): Best | null {
  const [trial] = looked;
  return trial === undefined ? null : { trial, rule: ALL_STOPPED };
}

/** Cheaper first, then lighter, then with more grip. */
function compareCost({ row: a }: SectionTrial, { row: b }: SectionTrial): number {
  if (a.cost !== null && b.cost !== null && Math.abs(a.cost - b.cost) > 0.005) return a.cost - b.cost;
  if ((a.cost === null) !== (b.cost === null)) return a.cost === null ? 1 : -1;
  const byMass = compareNumbers(a.massKg ?? Number.POSITIVE_INFINITY, b.massKg ?? Number.POSITIVE_INFINITY);
  if (byMass !== 0) return byMass;
  return Math.abs(a.gripLeast - b.gripLeast) > SAME_LENGTH ? b.gripLeast - a.gripLeast : 0;
}

/** Least short of size first, then lighter. */
function compareShort(a: SectionTrial, b: SectionTrial): number {
  return Math.abs(a.shortBy - b.shortBy) > SAME_LENGTH
    ? a.shortBy - b.shortBy
    : compareNumbers(a.section.massKgPerM, b.section.massKgPerM);
}

function compareNumbers(a: number, b: number): number {
  return a === b ? 0 : a < b ? -1 : 1;
}

/** The choice in numbers: what is taken, and the cheaper bars it was taken over. */
function getWhy(job: PlanJob, trials: readonly SectionTrial[], { trial, rule }: Best, look: SectionLook): Why {
  const { row } = trial;
  const cheaper = trials
    .filter((other) => other.row.cost !== null && compareCost(other, trial) < 0)
    .map((other) => ({ row: other.row, reason: getReason(other, trial, look) }))
    .filter(({ reason }) => reason !== '')
    .sort((a, b) => (b.row.cost ?? 0) - (a.row.cost ?? 0))
    .slice(0, 3);
  return {
    rule,
    formula: 'least cost over the bars whose Hmin and Tmin hold the stack, the width and the grip',
    inputs: [
      getTextInput('taken', row.name),
      ...(row.cost === null ? [] : [getInput('cost', row.cost, 'money')]),
      getInput('grip with the smallest bar', row.gripLeast, 'length'),
      getInput('bars on offer', job.context.bars.length, 'count'),
      getInput('ways that fit', trials.filter((other) => other.row.fitsWorst).length, 'count'),
      ...cheaper.map((other) => getTextInput(`cheaper: ${other.row.name}`, other.reason)),
    ],
    source: 'comparison of every bar on offer, both ways up',
  };
}

/** Why a cheaper bar was passed over; '' when nothing is known against it. */
function getReason(cheaper: SectionTrial, taken: SectionTrial, look: SectionLook): string {
  const against = cheaper.row.weakest === '' ? look.getKnownStop(cheaper) : cheaper.row.weakest;
  if (against !== '' || !cheaper.isOtherMeasure || taken.isOtherMeasure) return against;
  return `sized in ${getBarMeasure(cheaper.option.bar) === 'in' ? 'inches' : 'mm'}`;
}
