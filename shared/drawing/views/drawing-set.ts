import type { Evaluation } from '../../evaluate';
import type { Plan } from '../../model/plan';
import type { Shop } from '../../model/shop';
import type { Mark, View } from '../marks';
import { placeMarks } from '../place-view';
import { measureBounds } from '../sinks/bounds';
import { buildElevation } from './elevation';
import { buildEndSection, getSectionX } from './end-section';
import { buildPart } from './part-view';
import { buildPlanView } from './plan-view';
import { buildShelfPocket } from './shelf-pocket';

/** Room between two views, mm of paper at the set's scale. */
const GAP = 20;

/**
 * Every view of a setup in one drawing, in true size and without overlap: the elevation with its own origin (the stop
 * and the jaw tops), the end section beside it, the plan below in line, then the jaw shelf and the parts.
 */
export function buildDrawingSet(plan: Plan, evaluation: Evaluation, shop: Shop, mmPerPaperMm: number): View {
  const options = { mmPerPaperMm };
  const sectionX = getSectionX(plan, evaluation, shop);
  const elevation = buildElevation(plan, evaluation, shop, { ...options, sectionX });
  const section = buildEndSection(plan, evaluation, shop, { ...options, x: sectionX });
  const planView = buildPlanView(plan, evaluation, shop, options);
  const isShelf = evaluation.seat?.choice.value.kind === 'shelf';
  const rest = [
    ...(isShelf ? [buildShelfPocket(plan, evaluation, shop, options)] : []),
    ...plan.parts.map((part) => buildPart(plan, part.id, options)),
  ];
  const gap = GAP * mmPerPaperMm;
  const marks: Mark[] = [...elevation.marks];
  marks.push(...placeMarks(section.marks, 1, elevation.bounds.right + gap - section.bounds.left, 0));
  let bottom = Math.min(elevation.bounds.bottom, section.bounds.bottom) - gap;
  marks.push(...placeMarks(planView.marks, 1, 0, bottom - planView.bounds.top));
  bottom -= planView.bounds.top - planView.bounds.bottom + gap;
  for (const view of rest) {
    marks.push(...placeMarks(view.marks, 1, elevation.bounds.left - view.bounds.left, bottom - view.bounds.top));
    bottom -= view.bounds.top - view.bounds.bottom + gap;
  }
  return {
    name: 'elevation',
    title: plan.name || 'Fixture',
    bounds: measureBounds(marks, mmPerPaperMm),
    mmPerPaperMm,
    marks,
  };
}
