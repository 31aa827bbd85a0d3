import { getDeepestEndMillPass } from '../end-mill-pieces';
import type { View } from '../marks';
import { getPaperSize } from '../place-view';
import { getScene } from '../scene';
import { fitText } from '../text-width';
import { buildEndSection, getSectionX } from '../views/end-section';
import { buildPlanView } from '../views/plan-view';
import { buildShelfPocket } from '../views/shelf-pocket';
import {
  addCaptionedView,
  CAPTION,
  ensureRoom,
  FLOW_TEXT,
  type Flow,
  getBottom,
  getLeft,
  getPageDraft,
  getRight,
  getTop,
  startPage,
} from './flow';
import { buildFittingView } from './scales';
import { getRecipe } from './setup-panel';
import { getBothText, type SheetContext } from './sheet-context';
import { addTable, type TableOptions } from './table';

const GAP = 6;
/** Room under which a section says nothing, mm. */
const LEAST_SECTION = 30;
/** A section drawn smaller shows no gap between holder and work, drawing mm to a mm of paper. */
const SMALLEST_SECTION = 4;

/**
 * The setup from above, near and whole, the shelf to mill, and where each vise stands.
 *
 * @param unsaid names of the lines to set that page one had no room for
 */
export function addSetupDetails(flow: Flow, context: SheetContext, unsaid: readonly string[]): void {
  const { plan, evaluation, shop, units } = context;
  startPage(flow, 'Plan view and seat');
  const width = getRight(flow) - getLeft();
  const height = flow.y - getBottom();
  const build = (extent: 'jaws' | 'table') => (mmPerPaperMm: number) =>
    buildPlanView(plan, evaluation, shop, { mmPerPaperMm, extent });
  placeBelow(
    flow,
    buildFittingView(build('jaws'), units, { width, height: height * 0.42 - CAPTION }),
    'Plan view, jaws and bar, fixed jaw below',
  );
  const top = flow.y;
  const whole = buildFittingView(build('table'), units, { width: width * 0.55, height: top - getBottom() - CAPTION });
  placeBelow(flow, whole, 'Plan view, vises on the table, fixed jaw below');
  const below = flow.y;
  flow.y = top;
  const beside = getLeft() + getPaperSize(whole).width + GAP;
  addBesidePlan(flow, context, unsaid, beside);
  const isShelf = evaluation.seat?.choice.value.kind === 'shelf';
  addEndMillSection(flow, context, beside, isShelf ? below : getBottom());
  flow.y = Math.min(flow.y, below);
  if (isShelf) {
    addShelf(flow, context);
  }
}

/** What is set in words and figures, in the room beside the plan view. */
function addBesidePlan(flow: Flow, context: SheetContext, unsaid: readonly string[], left: number): void {
  const options = { left, width: getRight(flow) - left };
  addTable(
    flow,
    [
      { title: 'to set', weight: 'semibold' },
      { title: '', flexible: true },
    ],
    getRecipe(context).filter(([name]) => unsaid.includes(name)),
    options,
  );
  addViseTable(flow, context, options);
}

/** The end section at the deepest pass of an end mill, where the holder comes nearest; left out where there is no room. */
function addEndMillSection(flow: Flow, context: SheetContext, left: number, bottom: number): void {
  const { plan, evaluation, shop, units } = context;
  const scene = getScene(plan, evaluation, shop);
  const pass = scene ? getDeepestEndMillPass(scene) : null;
  const room = { width: getRight(flow) - left, height: flow.y - Math.max(bottom, getBottom()) - CAPTION };
  if (!pass || room.width < LEAST_SECTION || room.height < LEAST_SECTION) {
    return;
  }
  const x = getSectionX(plan, evaluation, shop);
  const build = (mmPerPaperMm: number): View =>
    buildEndSection(plan, evaluation, shop, { mmPerPaperMm, x, pass: 'endMill' });
  const view = buildFittingView(build, units, room);
  const size = getPaperSize(view);
  if (size.width > room.width || size.height > room.height || view.mmPerPaperMm > SMALLEST_SECTION) {
    return;
  }
  const draft = getPageDraft(flow);
  const title = fitText(`Section A–A, "${pass.cutName}"`, room.width * 0.7, FLOW_TEXT.text, 'semibold');
  addCaptionedView(draft.marks, draft, view, { x: left, y: flow.y }, title);
  flow.y -= size.height + CAPTION + GAP;
}

function addShelf(flow: Flow, context: SheetContext): void {
  const { plan, evaluation, shop, units } = context;
  const room = { width: getRight(flow) - getLeft(), height: (getTop(flow) - getBottom()) * 0.55 };
  const shelf = buildFittingView(
    (mmPerPaperMm) => buildShelfPocket(plan, evaluation, shop, { mmPerPaperMm, fromAbove: false }),
    units,
    room,
  );
  placeBelow(flow, shelf, 'Jaw shelf, milled with the jaws closed on the spacer');
}

/** Each vise with its place, so that no figure has to be read off a drawing. */
function addViseTable(flow: Flow, context: SheetContext, options: TableOptions): void {
  const { evaluation } = context;
  const blank = evaluation.blanks[evaluation.governingBlank];
  const rows = (evaluation.vises?.centres.value ?? []).map((centre, index) => {
    const contact = blank?.contacts.find((each) => each.viseIndex === index);
    return [
      `vise ${index + 1}`,
      getBothText(context, centre),
      contact
        ? `${getBothText(context, contact.from)} to ${getBothText(context, contact.to)}`
        : 'does not touch the blank',
    ];
  });
  addTable(
    flow,
    [
      { title: 'vise' },
      { title: 'centre from the stop', align: 'end' },
      { title: 'touches the governing blank, X', align: 'end' },
    ],
    rows,
    options,
  );
}

function placeBelow(flow: Flow, view: View, title: string): void {
  const size = getPaperSize(view);
  ensureRoom(flow, size.height + CAPTION);
  const draft = getPageDraft(flow);
  addCaptionedView(draft.marks, draft, view, { x: getLeft(), y: flow.y }, title);
  flow.y -= size.height + CAPTION + GAP;
}
