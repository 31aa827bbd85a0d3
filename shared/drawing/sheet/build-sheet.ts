import type { Evaluation } from '../../evaluate';
import { getPinned } from '../../model/choice';
import type { PaperSize, Plan } from '../../model/plan';
import type { Shop } from '../../model/shop';
import { addAllowanceSection } from './allowance-section';
import { addChecksSection } from './checks-section';
import { createFlow } from './flow';
import { addOrderSection } from './order-section';
import { addOtherBlanks } from './other-blanks';
import type { SheetPage } from './page';
import { addPageFrames } from './page-frame';
import { PAPERS } from './papers';
import { addSetupDetails } from './setup-details';
import { addSetupPage, type SetupScale } from './setup-page';
import { computePaper } from './sheet-choice';
import type { SheetContext } from './sheet-context';
import { addSourcesSection } from './sources-section';
import { getPlanStamp } from './stamp';
import { addTrueScalePage, type PrintCheck } from './true-scale-page';
import { addWorkSection } from './work-section';
import { addWorkingsSection } from './workings-section';

export interface SheetOptions {
  /** Paper and scales for this once, instead of what the plan says. */
  paper?: PaperSize | undefined;
  scale?: SetupScale | undefined;
  /** Name of the plan's file, for the foot of each page. */
  fileName?: string;
  printCheck?: PrintCheck;
  /** Every figure with its formula, its numbers and its source on pages of their own; default false. */
  workings?: boolean;
}

/**
 * The fixture sheet as pages of marks in mm of paper: the setup first, then parts, order and cut list, tools and order
 * of work, allowances, checks with findings and cautions, sources, and the true-scale test.
 */
export function buildSheet(plan: Plan, evaluation: Evaluation, shop: Shop, options: SheetOptions = {}): SheetPage[] {
  const context = buildSheetContext(plan, evaluation, shop, options);
  const flow = createFlow(context.paper, context.units);
  const unsaid = addSetupPage(flow, context, getScale(plan, options.scale ?? {}));
  addSetupDetails(flow, context, unsaid);
  addOtherBlanks(flow, context);
  addOrderSection(flow, context);
  addWorkSection(flow, context);
  addAllowanceSection(flow, context);
  addChecksSection(flow, context);
  addSourcesSection(flow, context);
  if (options.workings ?? false) addWorkingsSection(flow, context);
  addTrueScalePage(flow, context, options.printCheck ?? { measuredSquare: null });
  addPageFrames(flow.pages, context);
  return flow.pages;
}

/** What every section of a sheet reads. */
export function buildSheetContext(
  plan: Plan,
  evaluation: Evaluation,
  shop: Shop,
  options: Pick<SheetOptions, 'paper' | 'fileName'>,
): SheetContext {
  return {
    plan,
    evaluation,
    shop,
    units: plan.units,
    paper: PAPERS[options.paper ?? computePaper(plan).value],
    stamp: getPlanStamp(plan),
    fileName: options.fileName ?? '',
  };
}

function getScale({ sheet }: Plan, asked: SetupScale): SetupScale {
  return {
    section: asked.section ?? getPinned(sheet.sectionScale) ?? null,
    elevation: asked.elevation ?? getPinned(sheet.elevationScale) ?? null,
  };
}
