import type { Plan } from '../../model/plan';
import { addText, buildView, createDraft } from '../draft';
import type { View } from '../marks';

/** What all views that show one blank in its vises take. */
export interface ViewOptions {
  /** Drawing mm to a mm of paper or screen: sizes text, arrows and hatches. 2 draws for 1:2. */
  mmPerPaperMm: number;
  /** Which blank of the evaluation; by default the one that grips least. */
  blankIndex?: number;
  /** Dimensions and labels; default true. */
  dimensions?: boolean;
  /** The main dimensions show the other unit in brackets as well, as on paper; default true. */
  bothUnits?: boolean;
}

export const NOTHING_TO_DRAW = 'Nothing to draw yet: the plan needs a part, a bar that fits and a vise.';

/** A view that says in words why there is nothing to draw. */
export function buildEmptyView(plan: Plan, name: View['name'], title: string, mmPerPaperMm: number): View {
  const draft = createDraft(plan.units, mmPerPaperMm);
  addText(draft, { x: 0, y: 0 }, NOTHING_TO_DRAW);
  return buildView(draft, name, title);
}
