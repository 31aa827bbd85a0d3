import type { Evaluation } from '../../evaluate';
import type { Plan } from '../../model/plan';
import type { Shop } from '../../model/shop';
import type { View } from '../marks';
import { buildFittingView } from '../sheet/scales';
import { buildElevation } from './elevation';
import { buildEndSection, getSectionX } from './end-section';
import { buildPart } from './part-view';
import { buildPlanView } from './plan-view';
import { buildShelfPocket } from './shelf-pocket';
import { buildStack } from './stack-view';

/** One view of a plan, to be drawn by itself. */
export interface ViewChoice {
  view: 'elevation' | 'section' | 'plan' | 'stack' | 'shelf' | 'part';
  /** Which part, for `part`; '' otherwise. */
  partId: string;
  /** Place of the blank in the evaluation; null for the one that grips least. */
  blankIndex: number | null;
  /** X of the end section from the stop, mm; null where the sheet has it. */
  sectionX: number | null;
  /** Which tool the end section shows at its work. */
  sectionPass: 'cutOff' | 'endMill';
}

/** Room a view by itself is lettered for, mm of paper: a lying A4 page inside its margins. */
const ROOM = { width: 277, height: 190 };

/** The view of a choice, lettered for the largest scale of the standard series at which an A4 page holds it. */
export function buildChosenView(plan: Plan, evaluation: Evaluation, shop: Shop, choice: ViewChoice): View {
  return buildFittingView(
    (mmPerPaperMm) => buildAtScale(plan, evaluation, shop, choice, mmPerPaperMm),
    plan.units,
    ROOM,
  );
}

function buildAtScale(plan: Plan, evaluation: Evaluation, shop: Shop, choice: ViewChoice, mmPerPaperMm: number): View {
  const blankIndex = choice.blankIndex ?? evaluation.governingBlank;
  const options = { mmPerPaperMm, blankIndex };
  const x = choice.sectionX ?? getSectionX(plan, evaluation, shop, blankIndex);
  switch (choice.view) {
    case 'elevation':
      return buildElevation(plan, evaluation, shop, { ...options, sectionX: x });
    case 'section':
      return buildEndSection(plan, evaluation, shop, { ...options, x, pass: choice.sectionPass });
    case 'plan':
      return buildPlanView(plan, evaluation, shop, options);
    case 'stack':
      return buildStack(plan, evaluation, shop, options);
    case 'shelf':
      return buildShelfPocket(plan, evaluation, shop, options);
    case 'part':
      return buildPart(plan, choice.partId, { mmPerPaperMm });
    default:
      return choice.view satisfies never;
  }
}
