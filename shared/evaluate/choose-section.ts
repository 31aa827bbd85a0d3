import { getDecided } from '../engine/decide';
import type { Why } from '../engine/figure';
import { SAME_LENGTH } from '../engine/rounding';
import type { SectionDecision } from '../engine/section';
import { getInput, getTextInput } from '../engine/workings';
import { getPinned } from '../model/choice';
import type { PlanJob } from './plan-job';
import type { SectionTrial } from './section-trial';

/** The section a plan takes, and why. */
export interface ChosenSection {
  trial: SectionTrial;
  decision: SectionDecision;
}

/** How good a section is, best first; the rule says it in words. */
const CLASSES = [
  {
    rule: 'Cheapest bar whose smallest size fits with the grip aimed at and nothing that stops it',
    holds: (trial: SectionTrial): boolean => trial.row.verdict === 'good',
  },
  {
    rule: 'No bar on offer is comfortable: the cheapest whose smallest size fits and nothing stops it',
    holds: (trial: SectionTrial): boolean => trial.row.verdict === 'check',
  },
  {
    rule: 'Every bar on offer is stopped by something: the cheapest whose smallest size fits',
    holds: (trial: SectionTrial): boolean => trial.row.fitsWorst,
  },
  {
    rule: 'No bar on offer fits: the one that comes nearest',
    holds: (): boolean => true,
  },
] as const;

/**
 * The bar and its way up: pinned ones are kept; auto takes the cheapest comfortable bar (DESIGN 4.14), on ties the lighter.
 *
 * @returns null when no bar is on offer
 */
export function chooseSection(job: PlanJob, trials: readonly SectionTrial[]): ChosenSection | null {
  const { stock } = job.context.plan;
  const pinnedBar = getPinned(stock.barId);
  const pinnedWayUp = getPinned(stock.wayUp);
  const best = takeBest(trials);
  if (best === null) return null;
  const ofBar = trials.filter(({ option }) => pinnedBar === undefined || option.bar.id === pinnedBar);
  const isKnown = ofBar.length > 0;
  const pool = isKnown ? ofBar : trials;
  // A square bar has only one way up, so the other is the same.
  const ofWayUp = pool.filter(({ option }) => pinnedWayUp === undefined || option.wayUp === pinnedWayUp);
  const taken = takeBest(ofWayUp.length > 0 ? ofWayUp : pool);
  if (taken === null) return null;
  const bestOfBar = takeBest(pool.filter(({ option }) => option.bar.id === taken.trial.option.bar.id)) ?? taken;
  return {
    trial: taken.trial,
    decision: {
      barId: getDecided(
        isKnown ? stock.barId : 'auto',
        getBestBarId(best, pinnedBar, taken),
        getWhy(job, trials, best),
      ),
      wayUp: {
        value: taken.trial.option.wayUp,
        pinned: pinnedWayUp !== undefined,
        auto: bestOfBar.trial.option.wayUp,
        why: getWhy(job, trials, bestOfBar),
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

function takeBest(trials: readonly SectionTrial[]): Best | null {
  for (const [index, { rule, holds }] of CLASSES.entries()) {
    const pool = trials.filter(holds);
    const first = pool[0];
    if (first === undefined) continue;
    const isFitting = index < CLASSES.length - 1;
    const trial = pool.reduce((best, next) => ((isFitting ? isCheaper : isNearer)(next, best) ? next : best), first);
    return { trial, rule };
  }
  return null;
}

function isCheaper(next: SectionTrial, than: SectionTrial): boolean {
  const [a, b] = [next.row, than.row];
  if ((a.cost === null) !== (b.cost === null)) return a.cost !== null;
  if (a.cost !== null && b.cost !== null && Math.abs(a.cost - b.cost) > 0.005) return a.cost < b.cost;
  const massA = a.massKg ?? Number.POSITIVE_INFINITY;
  const massB = b.massKg ?? Number.POSITIVE_INFINITY;
  if (massA !== massB) return massA < massB;
  return a.gripLeast > b.gripLeast + SAME_LENGTH;
}

function isNearer(next: SectionTrial, than: SectionTrial): boolean {
  return Math.abs(next.shortBy - than.shortBy) > SAME_LENGTH
    ? next.shortBy < than.shortBy
    : next.section.massKgPerM < than.section.massKgPerM;
}

/** The choice in numbers: what is taken, and the cheaper bars it was taken over. */
function getWhy(job: PlanJob, trials: readonly SectionTrial[], { trial, rule }: Best): Why {
  const { row } = trial;
  const cheaper = trials
    .filter((other) => other !== trial && isCheaper(other, trial))
    .filter((other) => other.row.cost !== null && other.row.weakest !== '')
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
      ...cheaper.map((other) => getTextInput(`cheaper: ${other.row.name}`, other.row.weakest)),
    ],
    source: 'comparison of every bar on offer, both ways up',
  };
}
