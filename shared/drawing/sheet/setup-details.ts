import type { View } from '../marks';
import { getPaperSize } from '../place-view';
import { buildElevation } from '../views/elevation';
import { buildPlanView } from '../views/plan-view';
import { buildShelfPocket } from '../views/shelf-pocket';
import { buildStack } from '../views/stack-view';
import {
  addCaptionedView,
  addParagraph,
  CAPTION,
  ensureRoom,
  FLOW_TEXT,
  type Flow,
  getBottom,
  getLeft,
  getPageDraft,
  getRight,
  startPage,
} from './flow';
import { buildFittingView } from './scales';
import { getRecipe } from './setup-panel';
import { getBothText, getPartTitle, type SheetContext } from './sheet-context';
import { addTable } from './table';

const GAP = 6;

/** The setup from above, the shelf to mill, and what to set in full. */
export function addSetupDetails(flow: Flow, context: SheetContext): void {
  const { plan, evaluation, shop, units } = context;
  startPage(flow, 'Plan view and seat');
  const width = getRight(flow) - getLeft();
  const height = flow.y - getBottom();
  const isShelf = evaluation.seat?.choice.value.kind === 'shelf';
  const planView = buildFittingView((mmPerPaperMm) => buildPlanView(plan, evaluation, shop, { mmPerPaperMm }), units, {
    width,
    height: height * (isShelf ? 0.45 : 0.6) - CAPTION,
  });
  placeBelow(flow, planView);
  if (isShelf) {
    const shelf = buildFittingView(
      (mmPerPaperMm) => buildShelfPocket(plan, evaluation, shop, { mmPerPaperMm, fromAbove: false }),
      units,
      { width, height: Math.max(40, flow.y - getBottom() - CAPTION - GAP) },
    );
    placeBelow(flow, shelf);
  }
  addTable(
    flow,
    [
      { title: 'to set', weight: 'semibold' },
      { title: '', flexible: true },
    ],
    getRecipe(context),
  );
  addViseTable(flow, context);
}

/** Each vise with its place, so that no figure has to be read off a drawing. */
function addViseTable(flow: Flow, context: SheetContext): void {
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
  );
}

function placeBelow(flow: Flow, view: View): void {
  const size = getPaperSize(view);
  ensureRoom(flow, size.height + CAPTION);
  const draft = getPageDraft(flow);
  addCaptionedView(draft.marks, draft, view, { x: getLeft(), y: flow.y });
  flow.y -= size.height + CAPTION + GAP;
}

/** The other kinds of blank, each with its elevation and its stack: same vises, other parts. */
export function addOtherBlanks(flow: Flow, context: SheetContext): void {
  const { evaluation } = context;
  const others = evaluation.blanks.map((_blank, index) => index).filter((index) => index !== evaluation.governingBlank);
  for (const [order, index] of others.entries()) {
    if (order === 0) {
      startPage(flow, 'Other blanks');
    }
    addOtherBlank(flow, context, index);
  }
}

function addOtherBlank(flow: Flow, context: SheetContext, blankIndex: number): void {
  const { plan, evaluation, shop, units } = context;
  const blank = evaluation.blanks[blankIndex];
  if (!blank) {
    return;
  }
  const pageHeight = flow.paper.height * 0.5 - 24;
  const stack = buildFittingView(
    (mmPerPaperMm) => buildStack(plan, evaluation, shop, { mmPerPaperMm, blankIndex }),
    units,
    { width: 90, height: pageHeight },
  );
  const stackSize = getPaperSize(stack);
  const width = getRight(flow) - getLeft() - stackSize.width - GAP;
  const elevation = buildFittingView(
    (mmPerPaperMm) => buildElevation(plan, evaluation, shop, { mmPerPaperMm, blankIndex, base: 'bed' }),
    units,
    { width, height: pageHeight },
  );
  const size = getPaperSize(elevation);
  const height = Math.max(size.height, stackSize.height) + CAPTION;
  ensureRoom(flow, height + 8);
  const names = [...new Set(blank.parts.map((part) => getPartTitle(context, part.partId)))].join(', ');
  addParagraph(
    flow,
    `Blank ${blank.label}: ${blank.count} of it, ${getBothText(context, blank.length)} long, with ${names}`,
    {
      weight: 'semibold',
      mostLines: 2,
      size: FLOW_TEXT.text,
    },
  );
  const draft = getPageDraft(flow);
  addCaptionedView(draft.marks, draft, elevation, { x: getLeft(), y: flow.y });
  addCaptionedView(draft.marks, draft, stack, { x: getRight(flow) - stackSize.width, y: flow.y });
  flow.y -= height + GAP;
}
