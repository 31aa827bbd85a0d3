import type { SizeClass } from '../model/shop';
import type { EngineContext } from './context';
import { getLengthInput } from './decide';
import type { Figure } from './figure';
import type { SectionResult } from './results';
import { COMMON_PRACTICE, getFigure, getInput } from './workings';

/**
 * Bow of a bar as delivered that its class still allows over a length: the figure in proportion to length or the one
 * that grows with its square, whichever is larger (a guarantee, not a guess).
 *
 * @param span length the bow is measured over, mm
 * @returns bow, mm; 0 for a class without a straightness
 */
export function getClassBow(sizeClass: SizeClass | null, span: number): number {
  if (sizeClass === null) return 0;
  const { perLength, bow, overLength } = sizeClass.straightness;
  const squared = overLength > 0 ? bow * (span / overLength) ** 2 : 0;
  return Math.max(perLength * span, squared);
}

/**
 * Bow of the bar as it comes, over one blank: measured where the plan has it, else what the class allows.
 *
 * @param span blank length, mm
 */
export function computeStraightness(context: EngineContext, section: SectionResult, span: number): Figure {
  const { measuredBow } = context.plan.stock;
  if (measuredBow !== null && Number.isFinite(measuredBow)) {
    return getFigure('length', Math.max(0, measuredBow), {
      rule: 'Bow of the bar as measured',
      formula: 'bow = measured',
      inputs: [getLengthInput('measured bow', measuredBow)],
      source: 'measured',
    });
  }
  const sizeClass = context.sizeClassById.get(section.sizeClassId) ?? null;
  const straightness = sizeClass?.straightness;
  return getFigure('length', getClassBow(sizeClass, span), {
    rule: 'Most the bar may be bent as delivered: the length-proportional or the squared figure, the larger',
    formula: 'bow = max(p L, b (L / Lref)^2)',
    inputs: [
      getLengthInput('L', span),
      getInput('p', straightness?.perLength ?? 0, 'ratio'),
      getLengthInput('b', straightness?.bow ?? 0),
      getLengthInput('Lref', straightness?.overLength ?? 0),
    ],
    source: straightness?.source ?? COMMON_PRACTICE,
  });
}
