import type { Figure } from '../engine/figure';
import type { LaidBlank } from '../engine/layout';
import type { SparesRow } from '../engine/results';
import { computeChanceOfEnough, getSpareShare } from '../engine/spares';
import { getFigure, getInput } from '../engine/workings';
import type { Part, SpareRule } from '../model/plan';
import type { PlanJob } from './plan-job';

/** What is made of each part beside what was ordered, after rounding up to whole blanks. */
export function buildSparesRows(job: PlanJob, blanks: readonly LaidBlank[]): SparesRow[] {
  return job.context.parts.map((part) => {
    const decision = job.spares.get(part.id);
    const make = decision?.make ?? part.quantity;
    const { blankCount, made } = countMade(part, blanks);
    return {
      partId: part.id,
      ordered: part.quantity,
      spares: make - part.quantity,
      make,
      blanks: blankCount,
      made,
      chanceOfEnough: getChance(job, part, made),
      why:
        decision?.why ??
        getFigure('count', make, { rule: 'As ordered', formula: '', inputs: [], source: 'common practice, no source' }),
    };
  });
}

function countMade(part: Part, blanks: readonly LaidBlank[]): { blankCount: number; made: number } {
  let blankCount = 0;
  let made = 0;
  for (const blank of blanks) {
    const onBlank = blank.onIt.filter((laid) => laid.part.id === part.id).length;
    if (onBlank === 0) continue;
    blankCount += blank.count;
    made += onBlank * blank.count;
  }
  return { blankCount, made };
}

/** Only where a rule says how many pieces go wrong can a chance be given. */
function getChance(job: PlanJob, part: Part, made: number): Figure | null {
  const scrap = getScrapRate(job.context.plan.order.spares, part);
  if (scrap === null) return null;
  return getFigure('fraction', computeChanceOfEnough(part.quantity, made, scrap.rate), {
    rule: scrap.rule,
    formula: 'P(Bin(made, 1 - p) >= ordered)',
    inputs: [
      getInput('made', made, 'count'),
      getInput('ordered', part.quantity, 'count'),
      getInput('p', scrap.rate, 'fraction'),
    ],
    source: 'binomial distribution',
  });
}

function getScrapRate(spares: SpareRule, part: Part): { rate: number; rule: string } | null {
  switch (spares.kind) {
    case 'scrapRate':
      return { rate: spares.scrapRate, rule: 'Chance that enough pieces come out well' };
    case 'byLength': {
      const extra = getSpareShare(part.length);
      return {
        rate: extra / (1 + extra),
        rule: 'Chance that enough pieces come out well if as many are scrapped, on average, as the extra by length stands for',
      };
    }
    case 'pieces':
    case 'none':
      return null;
    default:
      return spares satisfies never;
  }
}
