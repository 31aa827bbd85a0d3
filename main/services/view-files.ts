import type { ViewChoice } from '../../shared/contract/host';
import { toDxf } from '../../shared/drawing/sinks/dxf';
import { toSvg } from '../../shared/drawing/sinks/svg';
import { buildChosenView } from '../../shared/drawing/views/chosen-view';
import { evaluate, THOROUGH } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import { ExpectedProblem } from './expected-problem';

export interface ViewOrder {
  plan: Plan;
  shop: Shop;
  choice: ViewChoice;
  format: 'svg' | 'dxf';
}

/**
 * One view of a plan as the text of a file, in true size.
 *
 * @throws ExpectedProblem `no-view` when there is nothing of that kind to draw
 */
export function renderViewFile({ plan, shop, choice, format }: ViewOrder): string {
  const evaluation = evaluate(plan, shop, THOROUGH);
  const view = buildChosenView(plan, evaluation, shop, choice);
  if (view.marks.every(({ kind }) => kind === 'text')) {
    throw new ExpectedProblem('no-view', 'There is nothing to draw of that kind in this plan.', choice.view);
  }
  switch (format) {
    case 'svg':
      return toSvg(view);
    case 'dxf':
      return toDxf(view);
    default:
      return format satisfies never;
  }
}
