import type { Decided } from '../../engine/figure';
import type { Evaluation } from '../../evaluate';
import { type Choice, getPinned, isPinned } from '../../model/choice';
import type { PaperSize, Plan } from '../../model/plan';
import type { Shop } from '../../model/shop';
import type { LengthUnits } from '../../units/length-units';
import { PAPERS } from './papers';
import { getScaleText } from './scales';
import { getAutoScales } from './setup-page';

const USUAL_PAPER: Readonly<Record<LengthUnits, PaperSize>> = { in: 'letter', mm: 'a4' };

/** What the sheet is printed on, and why. */
export function computePaper(plan: Plan): Decided<PaperSize> {
  const auto = USUAL_PAPER[plan.units];
  const rule = 'Plans in inches print on Letter, plans in millimetres on A4.';
  return getDecided(plan.sheet.paper, auto, {
    rule,
    formula: '',
    inputs: [{ name: 'units', value: plan.units, kind: 'text' }],
    source: 'common practice, no source',
  });
}

export interface DecidedScales {
  section: Decided<number>;
  elevation: Decided<number>;
}

/**
 * The scales of page one, and why.
 *
 * @returns null while there is nothing to draw
 */
export function computeScales(plan: Plan, evaluation: Evaluation, shop: Shop): DecidedScales | null {
  if (evaluation.blanks.length === 0) return null;
  const paper = PAPERS[computePaper(plan).value];
  const auto = getAutoScales(plan, evaluation, shop, paper);
  const why = (scale: number) => ({
    rule: `The largest of the standard scales, true size at most, at which section, stack and elevation stand on one page of ${paper.name}.`,
    formula: '',
    inputs: [{ name: 'scale', value: getScaleText(scale), kind: 'text' as const }],
    source:
      plan.units === 'mm'
        ? 'ISO 5455; its reductions are from memory'
        : 'scales of inch drawings as ASME practice has them, from memory',
  });
  return {
    section: getDecided(plan.sheet.sectionScale, auto.section, why(auto.section)),
    elevation: getDecided(plan.sheet.elevationScale, auto.elevation, why(auto.elevation)),
  };
}

function getDecided<T>(choice: Choice<T>, auto: T, why: Decided<T>['why']): Decided<T> {
  return { value: getPinned(choice) ?? auto, pinned: isPinned(choice), auto, why };
}
