import type { Evaluation } from '../../evaluate';
import type { Plan } from '../../model/plan';
import type { Shop } from '../../model/shop';
import { buildSheetContext, type SheetOptions } from './build-sheet';
import { createFlow } from './flow';
import { addOrderSection } from './order-section';
import type { SheetPage } from './page';
import { addPageFrames } from './page-frame';

/** The parts, what to buy and every cut of the saw, for whoever stands at it: those pages of the sheet and no others. */
export function buildCutListPages(
  plan: Plan,
  evaluation: Evaluation,
  shop: Shop,
  options: Pick<SheetOptions, 'paper' | 'fileName'> = {},
): SheetPage[] {
  const context = buildSheetContext(plan, evaluation, shop, options);
  const flow = createFlow(context.paper, context.units);
  addOrderSection(flow, context);
  addPageFrames(flow.pages, context);
  return flow.pages;
}
