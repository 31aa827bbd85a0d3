import type { Part } from '../../model/plan';
import { addLine, addPath, addText, type Draft } from '../draft';
import type { Point, View } from '../marks';
import { getRectangle } from '../paths';
import { getPaperSize, placeView } from '../place-view';
import { wrapText } from '../text-width';
import { buildPart } from '../views/part-view';
import {
  addBox,
  addGap,
  addHeading,
  addParagraph,
  FLOW_TEXT,
  type Flow,
  getBottom,
  getLeft,
  getPageDraft,
  getPageRoom,
  getRight,
  startContinued,
  startPage,
} from './flow';
import { PAPERS, type Paper } from './papers';
import { getPartTitle, type SheetContext } from './sheet-context';

/** Side of the squares, mm of paper: whole in mm and whole in inch. */
const SQUARE_MM = 100;
const SQUARE_INCH = 4 * 25.4;
const TICK = 2;
/** On Letter, the narrowest paper, these leave the boxes for what was measured 34 mm. */
const SQUARES_APART = 10;
const BOXES_APART = 8;

/** What was measured of the test square, or nothing yet. */
export interface PrintCheck {
  /** Measured side of the 100 mm square, mm; null until somebody has measured. */
  measuredSquare: number | null;
}

/** Prints within this of true size count as true. A steel rule reads no finer. */
const TRUE_WITHIN = 0.25;

/** Test squares in mm and inch with room for what was measured; not to scale until someone has said so. */
export function addTrueScalePage(flow: Flow, context: SheetContext, check: PrintCheck): void {
  startPage(flow, 'True-scale test');
  addHeading(flow, 'Measure before anything on these pages is used as a template');
  addParagraph(flow, getVerdict(check), { weight: 'semibold', size: 3.2 });
  addParagraph(
    flow,
    'Measure the side of each square across and up with a steel rule. Printers shrink pages to fit unless told not to: print at 100 %.',
  );
  addGap(flow, 6);
  const draft = getPageDraft(flow);
  const top = flow.y;
  const left = getLeft() + 6;
  addSquare(draft, left, top - SQUARE_MM, SQUARE_MM, '100.00 mm', 10);
  const second = left + SQUARE_MM + SQUARES_APART;
  addSquare(draft, second, top - SQUARE_INCH, SQUARE_INCH, '4.000 in', 25.4);
  addMeasuredBoxes(draft, second + SQUARE_INCH + BOXES_APART, top, getRight(flow));
  flow.y = top - SQUARE_INCH - 10;
  addTrueScaleParts(flow, context, check);
}

function getVerdict({ measuredSquare }: PrintCheck): string {
  if (measuredSquare === null) {
    return 'NOT TO SCALE until the square has been measured and found to be 100.0 mm (4 in).';
  }
  if (isTrue(measuredSquare)) {
    return `Measured ${measuredSquare.toFixed(2)} mm: to scale on the printer and paper it was measured on.`;
  }
  const percent = (measuredSquare / SQUARE_MM) * 100;
  return (
    `NOT TO SCALE: the square measured ${measuredSquare.toFixed(2)} mm, the page is at ${percent.toFixed(1)} %. ` +
    `Print at ${(10_000 / percent).toFixed(2)} % and measure again.`
  );
}

/** The same in a few words, for beside a part that may be cut out as a template. */
function getShortVerdict({ measuredSquare }: PrintCheck): string {
  if (measuredSquare === null) return 'NOT TO SCALE until the test square has been measured';
  if (isTrue(measuredSquare)) return `to scale where the test square measured ${measuredSquare.toFixed(2)} mm`;
  return `NOT TO SCALE: printed at ${((measuredSquare / SQUARE_MM) * 100).toFixed(1)} %`;
}

function isTrue(measuredSquare: number): boolean {
  return Math.abs(measuredSquare - SQUARE_MM) <= TRUE_WITHIN;
}

/** A square with a tick at every step along two sides and its size beside them. */
function addSquare(draft: Draft, x: number, y: number, side: number, text: string, step: number): void {
  addPath(draft, 'frame', getRectangle(x, y, x + side, y + side), { pen: 'narrow' });
  for (let at = step; at < side - 1e-6; at += step) {
    addLine(
      draft,
      'frame',
      [
        { x: x + at, y },
        { x: x + at, y: y + TICK },
      ],
      { pen: 'narrow' },
    );
    addLine(
      draft,
      'frame',
      [
        { x, y: y + at },
        { x: x + TICK, y: y + at },
      ],
      { pen: 'narrow' },
    );
  }
  addText(draft, { x: x + side / 2, y: y + side / 2 - 2 }, text, { size: 5, weight: 'semibold', anchor: 'middle' });
  addText(draft, { x: x + side / 2, y: y + side / 2 - 8 }, 'line to line', { size: 2.2, anchor: 'middle' });
}

function addMeasuredBoxes(draft: Draft, left: number, top: number, right: number): void {
  const width = Math.min(46, right - left);
  let y = top - 3;
  for (const label of ['measured across, mm', 'measured up, mm', 'measured across, in', 'measured up, in']) {
    addText(draft, { x: left, y }, label, { size: 2.2 });
    addPath(draft, 'frame', getRectangle(left, y - 11, left + width, y - 2), { pen: 'wide' });
    y -= 18;
  }
  addBox(draft, { x: left, y: y - 3 }, 3.4);
  addText(draft, { x: left + 5, y: y - 2.4 }, 'to scale', { size: 2.2, weight: 'semibold' });
  addText(draft, { x: left, y: y - 9 }, 'by / date', { size: 2.2 });
  addLine(
    draft,
    'frame',
    [
      { x: left, y: y - 16 },
      { x: left + width, y: y - 16 },
    ],
    { pen: 'narrow' },
  );
}

const PART_GAP = 8;
/** More kinds of part than this are drawn bare, which takes half the paper; their sizes are in the list of parts. */
const MOST_DIMENSIONED = 6;
/** A caption is given this much room even over a short part, mm. */
const LEAST_CELL = 60;
const CAPTION_PITCH = 1.75;

interface Cell {
  view: View;
  width: number;
  height: number;
  caption: { text: string; size: number; weight: 'regular' | 'semibold' }[];
}

/** Every part in true size, in the plan's order, as many on a page as it holds; those that it does not hold are named. */
function addTrueScaleParts(flow: Flow, context: SheetContext, check: PrintCheck): void {
  const tooLarge: Cell[] = [];
  let x = getLeft();
  let rowHeight = 0;
  for (const part of context.plan.parts) {
    const cell = buildCell(context, part, check);
    if (!fitsOn(cell, context.paper)) {
      tooLarge.push(cell);
      continue;
    }
    if (x > getLeft() && x + cell.width > getRight(flow)) {
      flow.y -= rowHeight + PART_GAP;
      x = getLeft();
      rowHeight = 0;
    }
    if (flow.y - cell.height < getBottom()) {
      startPartsPage(flow);
      x = getLeft();
      rowHeight = 0;
    }
    drawCell(getPageDraft(flow), cell, { x, y: flow.y });
    x += cell.width + PART_GAP;
    rowHeight = Math.max(rowHeight, cell.height);
  }
  flow.y -= rowHeight + PART_GAP;
  addTooLarge(flow, context, tooLarge);
}

const PARTS_PAGE = 'Parts in true size';

function startPartsPage(flow: Flow): void {
  if (flow.pages.at(-1)?.name.startsWith(PARTS_PAGE)) startContinued(flow);
  else startPage(flow, PARTS_PAGE);
}

function buildCell(context: SheetContext, part: Part, check: PrintCheck): Cell {
  const dimensions = context.plan.parts.length <= MOST_DIMENSIONED;
  const view = buildPart(context.plan, part.id, { mmPerPaperMm: 1, dimensions });
  const size = getPaperSize(view);
  const width = Math.max(size.width, LEAST_CELL);
  const caption = [
    ...wrapText(getPartTitle(context, part.id), width, FLOW_TEXT.text, 'semibold', 2).map((text) => ({
      text,
      size: FLOW_TEXT.text,
      weight: 'semibold' as const,
    })),
    ...wrapText(`1:1, allowances dotted, ${getShortVerdict(check)}`, width, FLOW_TEXT.small).map((text) => ({
      text,
      size: FLOW_TEXT.small,
      weight: 'regular' as const,
    })),
  ];
  const height = caption.reduce((sum, line) => sum + line.size * CAPTION_PITCH, 0) + size.height;
  return { view, width, height, caption };
}

function drawCell(draft: Draft, { view, caption }: Cell, at: Point): void {
  let { y } = at;
  for (const { text, size, weight } of caption) {
    y -= size * CAPTION_PITCH;
    addText(draft, { x: at.x, y }, text, { size, weight });
  }
  draft.marks.push(...placeView(view, at.x, y - getPaperSize(view).height));
}

/** Whether a page of a paper holds it. */
function fitsOn({ width, height }: Cell, paper: Paper): boolean {
  const room = getPageRoom(paper);
  return width <= room.width && height <= room.height;
}

function addTooLarge(flow: Flow, { paper }: SheetContext, cells: readonly Cell[]): void {
  if (cells.length === 0) return;
  const names = cells.map((cell) => {
    const larger = Object.values(PAPERS).filter((each) => fitsOn(cell, each));
    const where = larger.map(({ name }) => name).join(' or ');
    return `${cell.view.title} (${where === '' ? 'for any paper here' : `fits on ${where}`})`;
  });
  addParagraph(flow, `Left out, too large for ${paper.name} in true size: ${names.join(', ')}.`);
  addParagraph(flow, 'The planner saves any part by itself as a drawing in true size: Sheet, One view…, Part.');
}
