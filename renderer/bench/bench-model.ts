import type { View } from '../../shared/drawing/marks';
import { getScene, type Scene } from '../../shared/drawing/scene';
import { buildElevation } from '../../shared/drawing/views/elevation';
import { buildEndSection, getSectionX } from '../../shared/drawing/views/end-section';
import { buildPlanView } from '../../shared/drawing/views/plan-view';
import { buildStack } from '../../shared/drawing/views/stack-view';
import type { Evaluation } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import type { SectionPass } from '../state/view';
import type { Setting } from './gestures/mover';
import type { PaneName } from './panes';

/** What is on the Bench: one blank of a plan as evaluated. */
export interface BenchSubject {
  readonly plan: Plan;
  readonly evaluation: Evaluation;
  readonly shop: Shop;
  readonly blankIndex: number;
  readonly sectionX: number;
  /** Which tool the section shows at its work; the cut-off cutter when left out. */
  readonly sectionPass?: SectionPass;
}

/** How much of the vises the views show, decided by the room there is. */
export interface ViewLook {
  readonly base: 'table' | 'bed';
  readonly planDimensions: boolean;
}

/** The blank in view: the one asked for while there is one, else the one that grips least. */
export function getBlankIndex(evaluation: Evaluation, wanted: string | null): number {
  const found = evaluation.blanks.findIndex((blank) => blank.templateId === wanted);
  return found === -1 ? evaluation.governingBlank : found;
}

/** Where the section is taken: where the user put it, while that still cuts the bar, else where the drawing would. */
export function getShownSectionX(
  { plan, evaluation, shop, blankIndex }: Omit<BenchSubject, 'sectionX' | 'sectionPass'>,
  wanted: number | null,
): number {
  return wanted ?? getSectionX(plan, evaluation, shop, blankIndex);
}

/** What the Bench shows first: the blank that grips least, cut where it matters most. */
export function getFirstSubject(plan: Plan, evaluation: Evaluation, shop: Shop): BenchSubject {
  const blankIndex = getBlankIndex(evaluation, null);
  const sectionX = getShownSectionX({ plan, evaluation, shop, blankIndex }, null);
  return { plan, evaluation, shop, blankIndex, sectionX };
}

export function buildBenchView(pane: PaneName, subject: BenchSubject, look: ViewLook, mmPerPaperMm: number): View {
  const { plan, evaluation, shop, blankIndex, sectionX, sectionPass } = subject;
  const options = { mmPerPaperMm, blankIndex, bothUnits: false };
  switch (pane) {
    case 'elevation':
      return buildElevation(plan, evaluation, shop, { ...options, sectionX, base: look.base });
    case 'plan':
      return buildPlanView(plan, evaluation, shop, { ...options, extent: 'jaws', dimensions: look.planDimensions });
    case 'section':
      return buildEndSection(plan, evaluation, shop, {
        ...options,
        x: sectionX,
        extent: 'jaws',
        pass: sectionPass ?? 'cutOff',
      });
    case 'stack':
      return buildStack(plan, evaluation, shop, options);
    default:
      return pane satisfies never;
  }
}

/** The scene that gestures work on; null while there is nothing to draw. */
export function getSetting({ plan, evaluation, shop, blankIndex, sectionX }: BenchSubject): Setting | null {
  const scene: Scene | null = getScene(plan, evaluation, shop, blankIndex);
  return scene === null ? null : { scene, blankIndex, sectionX };
}
