import type { BlankResult, StackSlice } from '../../engine/results';
import type { View } from '../marks';
import { getPaperSize } from '../place-view';
import { fitText } from '../text-width';
import { buildElevation } from '../views/elevation';
import { addInColumns, type Block, getColumnWidth } from './columns';
import { addCaptionedView, addHeading, CAPTION, FLOW_TEXT, type Flow, getBottom, startSection } from './flow';
import { buildFittingView, getScaleText } from './scales';
import { getBothText, getLengthText, type SheetContext } from './sheet-context';
import { addTable } from './table';

const GAP = 6;
/** A picture is no higher than this, mm of paper: as wide as the page, and in one of two columns. */
const HIGHEST = { wide: 110, narrow: 60 };
/** With more kinds of blank than this beside that of page one, those that differ along X alone share a picture. */
const MOST_PICTURES = 12;
/** Up to so many pictures are as wide as the page. */
const WIDE_PICTURES = 2;

/**
 * The other kinds of blank: their elevations, where each part stands on them, and their stacks in figures. Same vises,
 * other parts.
 */
export function addOtherBlanks(flow: Flow, context: SheetContext): void {
  const { blanks, governingBlank } = context.evaluation;
  const governing = blanks[governingBlank];
  if (!governing || blanks.length < 2) {
    return;
  }
  startSection(flow, 'Other blanks');
  const others = blanks.filter((blank) => blank !== governing);
  const groups = others.length > MOST_PICTURES ? getAlike(blanks) : others.map((blank) => [blank]);
  const drawn = groups.filter((group) => !group.includes(governing));
  addPictures(flow, context, drawn);
  addHeading(flow, 'Where the parts stand, from the stop', 12);
  addPlaceTable(flow, context, others);
  addHeading(flow, 'Their height stacks', 12);
  addStackTable(flow, context, others.length > MOST_PICTURES ? groups : drawn);
}

/** Blanks with as many parts and the same heights all through: they are set alike and differ along X alone. */
function getAlike(blanks: readonly BlankResult[]): BlankResult[][] {
  const groups = new Map<string, BlankResult[]>();
  for (const blank of blanks) {
    const heights = blank.stack.slices.map(({ kind, height }) => `${kind} ${height.toFixed(4)}`);
    const key = [String(blank.parts.length), ...heights].join();
    groups.set(key, [...(groups.get(key) ?? []), blank]);
  }
  return [...groups.values()];
}

function addPictures(flow: Flow, context: SheetContext, groups: readonly (readonly BlankResult[])[]): void {
  const columns = groups.length > WIDE_PICTURES ? 2 : 1;
  const width = getColumnWidth(flow, columns);
  const free = (flow.y - getBottom()) / Math.max(1, groups.length) - CAPTION - GAP;
  const height = columns === 1 ? Math.min(HIGHEST.wide, free) : HIGHEST.narrow;
  addInColumns(
    flow,
    groups.flatMap((group) => buildPicture(context, group, { width, height })),
    columns,
  );
}

function buildPicture(
  context: SheetContext,
  group: readonly BlankResult[],
  room: { width: number; height: number },
): Block[] {
  const { plan, evaluation, shop, units } = context;
  const [blank] = group;
  if (blank === undefined) {
    return [];
  }
  const blankIndex = evaluation.blanks.indexOf(blank);
  const view = buildFittingView(
    (mmPerPaperMm): View =>
      buildElevation(plan, evaluation, shop, { mmPerPaperMm, blankIndex, base: 'bed', setup: false }),
    units,
    room,
  );
  const scale = getScaleText(view.mmPerPaperMm);
  const alike = group.length > 1 ? `, and ${group.length - 1} more that differ along X alone` : '';
  const titleRoom = room.width - 6 * FLOW_TEXT.text - scale.length * FLOW_TEXT.text;
  const title = fitText(`Blank ${blank.label}${alike}`, titleRoom, FLOW_TEXT.text, 'semibold');
  return [
    {
      height: getPaperSize(view).height + CAPTION + GAP,
      draw: (draft, x, y) => void addCaptionedView(draft.marks, draft, view, { x, y }, title),
    },
  ];
}

/** Each blank's length and where its parts begin, so that no figure has to be read off a picture. */
function addPlaceTable(flow: Flow, context: SheetContext, blanks: readonly BlankResult[]): void {
  addTable(
    flow,
    [
      { title: 'blank', weight: 'semibold' },
      { title: 'of it', align: 'end' },
      { title: 'length', align: 'end' },
      { title: 'blank from', align: 'end' },
      { title: 'left ends of the parts' },
    ],
    blanks.map((blank) => [
      blank.label,
      String(blank.count),
      getBothText(context, blank.length),
      getLengthText(context, blank.x),
      blank.parts.map((part) => getLengthText(context, blank.x + part.x)).join(', '),
    ]),
    { mostLines: 4 },
  );
}

/** Heights from the top down, a row for blanks that share them. */
function addStackTable(flow: Flow, context: SheetContext, groups: readonly (readonly BlankResult[])[]): void {
  const rows = groups.flatMap((group) => {
    const [first] = group;
    if (first === undefined) {
      return [];
    }
    const { slices } = first.stack;
    const heights = STACK_COLUMNS.map(([kind]) => slices.find((slice) => slice.kind === kind)?.height ?? 0);
    const sum = slices.reduce((total, slice) => total + slice.height, 0);
    const name = group.length === 1 ? first.label : group.map(({ label }) => label.split(':')[0] ?? label).join(', ');
    return [[name, ...heights.map((height) => getBothText(context, height)), getBothText(context, sum)]];
  });
  addTable(
    flow,
    [
      { title: 'blank', weight: 'semibold' },
      ...STACK_COLUMNS.map(([, title]) => ({ title, align: 'end' as const })),
      { title: 'sum = bar', align: 'end' },
    ],
    rows,
    { mostLines: 6 },
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
