import type { SectionResult, SectionRow } from '../engine/results';
import { SAME_LENGTH } from '../engine/rounding';
import type { Setup } from '../engine/setup';
import type { NestTotals } from '../nest/types';
import { formatLength } from '../units/format';
import type { PlanJob } from './plan-job';
import type { Fit } from './section-fit';

type Judged = Pick<SectionRow, 'verdict' | 'weakest'>;

/** What was found out about a section. */
export interface SectionFindings {
  fit: Fit;
  setup: Setup | null;
  holdFactor: number | null;
  totals: NestTotals | null;
  isStocked: boolean;
}

/** The weakest thing about a section, in a few words; what stops it comes first. */
export function judgeSection(job: PlanJob, section: SectionResult, found: SectionFindings): Judged {
  const { fit, setup, totals } = found;
  if (!fit.fitsWorst) return { verdict: 'stop', weakest: fit.reason };
  if (setup === null) return { verdict: 'check', weakest: 'no vise to hold it in' };
  if (totals !== null && totals.partsMissing > 0) {
    return { verdict: 'stop', weakest: 'not every blank comes out of the bars on offer' };
  }
  const stop = getSeatStop(job, setup) || getHoldStop(job, setup, found.holdFactor);
  if (stop !== '') return { verdict: 'stop', weakest: stop };
  const check = getGripCheck(job, section, setup, found.holdFactor) || getBuyingCheck(found);
  if (check !== '') return { verdict: 'check', weakest: check };
  return { verdict: 'good', weakest: totals !== null && !totals.isPriced ? 'price not known' : '' };
}

type Say = (mm: number) => string;

function getSay({ context }: PlanJob): Say {
  return (mm) => formatLength(mm, context.units, { unit: true });
}

/** What a seat, as it is pinned or as it comes out, has against this bar. */
function getSeatStop(job: PlanJob, { seat, blanks, cutter }: Setup): string {
  const { jawSet, rules } = job.context;
  const say = getSay(job);
  const shortBy = Math.max(0, ...blanks.map(({ stack }) => stack.shortBy));
  if (shortBy > SAME_LENGTH) return `${say(shortBy)} too low for the stack and ${say(seat.grip)} of grip`;
  if (cutter.clearance.value > 0 && blanks.some(({ stack }) => stack.clearance <= 0))
    return 'no clearance between the cut-off and the jaws';
  if (jawSet !== null && seat.flatGrip < jawSet.leastFlatGrip - SAME_LENGTH) {
    return `${say(seat.flatGrip)} of flat grip, under ${say(jawSet.leastFlatGrip)}`;
  }
  if (seat.choice.value.kind !== 'shelf') return '';
  const tooDeep = seat.shelfDepth.value - seat.deepestLegalShelf.value;
  if (tooDeep > SAME_LENGTH) return `shelf ${say(tooDeep)} deeper than the jaws allow`;
  if (seat.ledge.value <= 0) return 'no ledge: the spacer is as wide as the bar';
  const overFloor = seat.spacerHeight.value - (seat.jawHeight - seat.shelfDepth.value - rules.spacerBelowFloor);
  return overFloor > SAME_LENGTH ? `the spacer stands ${say(overFloor)} too high for the shelf` : '';
}

function getHoldStop(job: PlanJob, { vises, blanks }: Setup, holdFactor: number | null): string {
  if (vises.clash !== '') return 'the vises clash';
  if (blanks.some(({ contacts }) => contacts.length === 0)) return 'a blank that no vise touches';
  if (holdFactor !== null && holdFactor < job.context.rules.holdFactorStop) return sayHold(holdFactor);
  return '';
}

function getGripCheck(job: PlanJob, section: SectionResult, { seat }: Setup, holdFactor: number | null): string {
  const { jawSet, rules } = job.context;
  const { grip, targetGrip, choice } = seat;
  const say = getSay(job);
  if (grip < targetGrip.value - SAME_LENGTH) return `${say(grip)} of grip, ${say(targetGrip.value)} is comfortable`;
  if (choice.value.kind === 'parallels') {
    const { parallelId } = choice.value;
    const row = seat.parallels.find((parallel) => parallel.parallelId === parallelId);
    if (row?.fits !== true) return `the parallels do not serve${row === undefined ? '' : `: ${row.reason}`}`;
  }
  if (holdFactor !== null && holdFactor < rules.holdFactorCheck) return sayHold(holdFactor);
  const toGrip = grip > 0 ? (section.height.nominal - grip) / grip : 0;
  if (jawSet !== null && toGrip > jawSet.maxProudToGrip) {
    return `stands ${toGrip.toFixed(1)} times its grip above the jaws`;
  }
  return '';
}

/** A run to order is dearer and slower than its price says. */
function getBuyingCheck({ isStocked }: SectionFindings): string {
  return isStocked ? '' : 'not stocked, run to order';
}

function sayHold(factor: number): string {
  return `hold factor ${factor.toFixed(1)}`;
}
