import type { StackSlice } from '../../engine/results';
import type { View } from '../marks';
import { getPaperSize } from '../place-view';
import { buildElevation } from '../views/elevation';
import { buildPlanView } from '../views/plan-view';
import { buildShelfPocket } from '../views/shelf-pocket';
import {
  addCaptionedView,
  addParagraph,
  CAPTION,
  ensureRoom,
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
import { getBothText, getPartTitle, type SheetContext } from './sheet-context';
import { addTable, type TableOptions } from './table';

const GAP = 6;

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
  addBesidePlan(flow, context, unsaid, getLeft() + getPaperSize(whole).width + GAP);
  flow.y = Math.min(flow.y, below);
  if (evaluation.seat?.choice.value.kind === 'shelf') {
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

/** The other kinds of blank, each with its elevation, then their stacks in figures: same vises, other parts. */
export function addOtherBlanks(flow: Flow, context: SheetContext): void {
  const { evaluation } = context;
  const others = evaluation.blanks.map((_blank, index) => index).filter((index) => index !== evaluation.governingBlank);
  if (others.length === 0) {
    return;
  }
  startPage(flow, 'Other blanks');
  const perPage = others.length > 1 ? 2 : 1;
  const height = (flow.y - getBottom()) / perPage - CAPTION - GAP - 6;
  for (const index of others) {
    addOtherBlank(flow, context, index, Math.min(height, 110));
  }
  addStackTable(flow, context, others);
}

function addOtherBlank(flow: Flow, context: SheetContext, blankIndex: number, height: number): void {
  const { plan, evaluation, shop, units } = context;
  const blank = evaluation.blanks[blankIndex];
  if (!blank) {
    return;
  }
  const view = buildFittingView(
    (mmPerPaperMm) => buildElevation(plan, evaluation, shop, { mmPerPaperMm, blankIndex, base: 'bed', vises: false }),
    units,
    { width: getRight(flow) - getLeft(), height },
  );
  ensureRoom(flow, getPaperSize(view).height + CAPTION + 6);
  const names = [...new Set(blank.parts.map((part) => getPartTitle(context, part.partId)))].join(', ');
  addParagraph(
    flow,
    `Blank ${blank.label}: ${blank.count} of it, ${getBothText(context, blank.length)} long, with ${names}`,
    {
      weight: 'semibold',
      mostLines: 1,
    },
  );
  placeBelow(flow, view, 'Elevation along X');
}

/** Each blank's height from the top down, a row a blank. */
function addStackTable(flow: Flow, context: SheetContext, blanks: readonly number[]): void {
  const rows = blanks.flatMap((index) => {
    const blank = context.evaluation.blanks[index];
    if (!blank) {
      return [];
    }
    const heights = STACK_COLUMNS.map(([kind]) => blank.stack.slices.find((slice) => slice.kind === kind)?.height ?? 0);
    const sum = blank.stack.slices.reduce((total, slice) => total + slice.height, 0);
    return [[blank.label, ...heights.map((height) => getBothText(context, height)), getBothText(context, sum)]];
  });
  addTable(
    flow,
    [
      { title: 'height stack of blank', weight: 'semibold' },
      ...STACK_COLUMNS.map(([, title]) => ({ title, align: 'end' as const })),
      { title: 'sum = bar', align: 'end' },
    ],
    rows,
    { mostLines: 2 },
  );
}

const STACK_COLUMNS: readonly (readonly [StackSlice['kind'], string])[] = [
  ['cleanup', 'cleanup'],
  ['allowanceTop', 'top allowance'],
  ['part', 'part'],
  ['allowanceBottom', 'bottom allowance'],
  ['kerf', 'cut-off kerf'],
  ['clearance', 'clearance'],
  ['grip', 'grip'],
];
