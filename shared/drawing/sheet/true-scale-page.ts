import { addLine, addPath, addText, type Draft } from '../draft';
import { getRectangle } from '../paths';
import { getPaperSize, placeView } from '../place-view';
import { buildPart } from '../views/part-view';
import {
  addBox,
  addGap,
  addHeading,
  addParagraph,
  type Flow,
  getBottom,
  getLeft,
  getPageDraft,
  getRight,
  startPage,
} from './flow';
import type { SheetContext } from './sheet-context';

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
  addTrueScaleParts(flow, context);
}

function getVerdict({ measuredSquare }: PrintCheck): string {
  if (measuredSquare === null) {
    return 'NOT TO SCALE until the square has been measured and found to be 100.0 mm (4 in).';
  }
  if (Math.abs(measuredSquare - SQUARE_MM) <= TRUE_WITHIN) {
    return `Measured ${measuredSquare.toFixed(2)} mm: to scale on the printer and paper it was measured on.`;
  }
  const percent = (measuredSquare / SQUARE_MM) * 100;
  return (
    `NOT TO SCALE: the square measured ${measuredSquare.toFixed(2)} mm, the page is at ${percent.toFixed(1)} %. ` +
    `Print at ${(10_000 / percent).toFixed(2)} % and measure again.`
  );
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
/** More kinds of part than this would be a book of outlines. */
const MOST_OUTLINES = 6;

/** Each part in true size where the paper holds it. */
function addTrueScaleParts(flow: Flow, context: SheetContext): void {
  if (context.plan.parts.length > MOST_OUTLINES) {
    addParagraph(
      flow,
      `Outlines of the parts in true size are left out beyond ${MOST_OUTLINES} kinds: save the parts as drawings.`,
    );
    return;
  }
  const tooLong: string[] = [];
  for (const part of context.plan.parts) {
    const view = buildPart(context.plan, part.id, { mmPerPaperMm: 1 });
    const size = getPaperSize(view);
    const roomWidth = getRight(flow) - getLeft();
    if (size.width > roomWidth || size.height + 14 > flow.paper.height - 50) {
      tooLong.push(part.name);
      continue;
    }
    if (flow.y - size.height - 14 < getBottom()) {
      startPage(flow, 'Parts in true size');
    }
    addParagraph(flow, `${part.name}   1:1, allowances dotted, NOT TO SCALE until the test square has been measured`, {
      weight: 'semibold',
      mostLines: 2,
    });
    getPageDraft(flow).marks.push(...placeView(view, getLeft(), flow.y - size.height));
    flow.y -= size.height + PART_GAP;
  }
  if (tooLong.length > 0) {
    addParagraph(flow, `Too large for this paper in true size: ${tooLong.join(', ')}.`, { mostLines: 4 });
  }
}
