import { getUsableLengths } from '../engine/bar-prices';
import type { SectionResult, SectionRow } from '../engine/results';
import { SAME_LENGTH } from '../engine/rounding';
import type { Setup } from '../engine/setup';
import type { BarOffer } from '../model/shop';
import type { NestTotals } from '../nest/types';
import { formatLength } from '../units/format';
import type { PlanJob } from './plan-job';
import type { Fit } from './section-fit';

type Judged = Pick<SectionRow, 'verdict' | 'weakest'>;

/** What was found out about a section. */
export interface SectionFindings {
  bar: BarOffer;
  fit: Fit;
  setup: Setup | null;
  holdFactor: number | null;
  totals: NestTotals | null;
}

/** The weakest thing about a section, in a few words; what stops it comes first. */
export function judgeSection(
  { context }: PlanJob,
  section: SectionResult,
  { bar, fit, setup, holdFactor, totals }: SectionFindings,
): Judged {
  const { rules, jawSet } = context;
  const show = (mm: number): string => formatLength(mm, context.units, { unit: true });
  const stop = (weakest: string): Judged => ({ verdict: 'stop', weakest });
  const check = (weakest: string): Judged => ({ verdict: 'check', weakest });
  if (!fit.fitsWorst) return stop(fit.reason);
  if (setup === null) return check('no vise to hold it in');
  if (totals !== null && totals.partsMissing > 0) return stop('not every blank comes out of the bars on offer');
  const { flatGrip, grip, targetGrip } = setup.seat;
  if (jawSet !== null && flatGrip < jawSet.leastFlatGrip - SAME_LENGTH) {
    return stop(`${show(flatGrip)} of flat grip, under ${show(jawSet.leastFlatGrip)}`);
  }
  if (holdFactor !== null && holdFactor < rules.holdFactorStop) return stop(`hold factor ${holdFactor.toFixed(1)}`);
  if (grip < targetGrip.value - SAME_LENGTH)
    return check(`${show(grip)} of grip, ${show(targetGrip.value)} is comfortable`);
  if (holdFactor !== null && holdFactor < rules.holdFactorCheck) return check(`hold factor ${holdFactor.toFixed(1)}`);
  const toGrip = grip > 0 ? (section.height.nominal - grip) / grip : 0;
  if (jawSet !== null && toGrip > jawSet.maxProudToGrip)
    return check(`stands ${toGrip.toFixed(1)} times its grip above the jaws`);
  if (totals !== null && !totals.isPriced) return { verdict: 'good', weakest: 'price not known' };
  const isRunToOrder = !getUsableLengths(bar).some(({ stocked }) => stocked);
  return { verdict: 'good', weakest: isRunToOrder ? 'not stocked, run to order' : '' };
}
