import { CAUTION_LINE } from '../../findings/cautions';
import type { Finding } from '../../findings/finding';
import { addPath, addText, createDraft, type Draft } from '../draft';
import { addSeverityMark } from '../furniture';
import type { Point } from '../marks';
import { getRectangle } from '../paths';
import { getEntry } from '../scene';
import { fitText, getTextWidth, wrapText } from '../text-width';
import { addRule, FIRST_HEAD, FOOT, NEXT_HEAD, PAGE_MARGIN } from './flow';
import type { SheetPage } from './page';
import { getBothText, type SheetContext } from './sheet-context';

const NAME = { first: 4.5, next: 2.5 };
const UNTITLED = 'Untitled plan';
const TITLE_SIZES = [NAME.first, 3.5];
const TWO_LINES = { size: 2.6, first: 2.4, pitch: 3.8 };
/** Between the words of the head and the boxes beside them, mm. */
const HEAD_GAP = 6;
const UNITS = { width: 30, height: 12, text: 4.5 };
const SMALL = 1.8;
const LINE = 2.2;
const HEAD_SIZES = [LINE, 2, SMALL];
const HEAD_LEAD = 2.7;

/** Head and foot of every page, once it is known how many there are. */
export function addPageFrames(pages: readonly SheetPage[], context: SheetContext): void {
  for (const [index, page] of pages.entries()) {
    const draft: Draft = { ...createDraft(context.units, 1), marks: page.marks };
    if (index === 0) {
      addFirstHead(draft, page, context);
    } else {
      addNextHead(draft, page, context);
    }
    addFoot(draft, page, context, `page ${index + 1} of ${pages.length}`);
  }
}

interface Title {
  size: number;
  lines: string[];
}

/** The plan's name on one line, smaller, or small on two; what is cut then is whole among the parts. */
function getTitle({ plan }: SheetContext, room: number): Title {
  const name = plan.name || UNTITLED;
  const size = TITLE_SIZES.find((each) => getTextWidth(name, each, 'semibold') <= room);
  return size === undefined
    ? { size: TWO_LINES.size, lines: wrapText(name, room, TWO_LINES.size, 'semibold', 2) }
    : { size, lines: [name] };
}

function addTitle(draft: Draft, { x, y }: Point, { size, lines }: Title): void {
  for (const [index, line] of lines.entries()) {
    const down = lines.length === 1 ? NAME.first : TWO_LINES.first + index * TWO_LINES.pitch;
    addText(draft, { x, y: y - down }, line, { size, weight: 'semibold' });
  }
}

/** Whether the head of page one has no room for all of the name, number, revision, date and author. */
export function isHeadCut(context: SheetContext): boolean {
  const boxes = UNITS.width + 4 + (isVerdictShown(context) ? VERDICT.width : 0);
  const room = context.paper.width - 2 * PAGE_MARGIN - boxes - HEAD_GAP;
  const isNameCut = getTitle(context, room).lines.join(' ') !== (context.plan.name || UNTITLED);
  return isNameCut || getTextWidth(join(getIdentity(context)), SMALL) > room;
}

function addFirstHead(draft: Draft, page: SheetPage, context: SheetContext): void {
  const left = PAGE_MARGIN;
  const right = page.width - PAGE_MARGIN;
  const top = page.height - PAGE_MARGIN;
  const unitsLeft = right - UNITS.width;
  addPath(draft, 'frame', getRectangle(unitsLeft, top - UNITS.height, right, top), { pen: 'wide' });
  addText(draft, { x: unitsLeft + UNITS.width / 2, y: top - 7 }, context.units === 'in' ? 'INCH' : 'MM', {
    size: UNITS.text,
    weight: 'semibold',
    anchor: 'middle',
  });
  addText(draft, { x: unitsLeft + UNITS.width / 2, y: top - 10.6 }, context.units === 'in' ? '[mm]' : '[inch]', {
    size: SMALL,
    anchor: 'middle',
  });
  const verdictLeft = addVerdict(draft, context, unitsLeft - 4, top);
  const room = verdictLeft - left - HEAD_GAP;
  addTitle(draft, { x: left, y: top }, getTitle(context, room));
  addHeadLine(draft, { x: left, y: top - 9.2 }, join(getIdentity(context)), room);
  addStock(draft, { x: left, y: top - 14 }, getStock(context), room);
  const y = top - FIRST_HEAD + 2;
  addRule(draft, { left, right, y }, 'wide');
}

const VERDICT = { width: 40, height: 12, text: 3.5 };

/** Says on page one that findings stand, a stop in a box that cannot be overlooked. Returns its left edge. */
function addVerdict(draft: Draft, context: SheetContext, right: number, top: number): number {
  if (!isVerdictShown(context)) {
    return right;
  }
  const [stops, checks] = [countOpen(context, 'stop'), countOpen(context, 'check')];
  const left = right - VERDICT.width;
  const severity = stops > 0 ? 'stop' : 'check';
  addPath(draft, 'frame', getRectangle(left, top - VERDICT.height, right, top), { pen: stops > 0 ? 'wide' : 'narrow' });
  addSeverityMark(draft, { x: left + 5.5, y: top - VERDICT.height / 2 }, severity, 6, null);
  addText(draft, { x: left + 10.5, y: top - 6.2 }, stops > 0 ? 'STOP' : 'CHECK', {
    size: VERDICT.text,
    weight: 'semibold',
  });
  const counts = [stops > 0 ? getCount(stops, 'stop') : '', checks > 0 ? getCount(checks, 'check') : ''];
  const text = counts.filter((count) => count !== '').join(', ');
  const room = VERDICT.width - 12;
  const whole = `${text} open`;
  const shown = getTextWidth(whole, SMALL) <= room ? whole : fitText(text, room, SMALL);
  addText(draft, { x: left + 10.5, y: top - 10 }, shown, { size: SMALL });
  return left;
}

function countOpen({ evaluation }: SheetContext, severity: Finding['severity']): number {
  return evaluation.findings.filter((finding) => !finding.accepted && finding.severity === severity).length;
}

function isVerdictShown(context: SheetContext): boolean {
  return countOpen(context, 'stop') + countOpen(context, 'check') > 0;
}

function getCount(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? '' : 's'}`;
}

/** A line that is set smaller before it is cut. */
function addHeadLine(draft: Draft, at: Point, text: string, room: number): void {
  const size = HEAD_SIZES.find((each) => getTextWidth(text, each) <= room) ?? SMALL;
  addText(draft, at, fitText(text, room, size), { size });
}

/** The stock on one line, or on two closer ones with no fact torn apart: which bar to accept must stand there whole. */
function addStock(draft: Draft, at: Point, pieces: readonly string[], room: number): void {
  if (getTextWidth(join(pieces), SMALL) <= room) {
    addHeadLine(draft, at, join(pieces), room);
    return;
  }
  const fitting = pieces.findLastIndex(
    (_piece, index) => getTextWidth(join(pieces.slice(0, index + 1)), SMALL) <= room,
  );
  const first = Math.max(1, fitting + 1);
  for (const [index, line] of [pieces.slice(0, first), pieces.slice(first)].entries()) {
    const y = at.y + HEAD_LEAD * (0.5 - index);
    addText(draft, { x: at.x, y }, fitText(join(line), room, SMALL), { size: SMALL });
  }
}

function join(pieces: readonly string[]): string {
  return pieces.join('  ·  ');
}

/** Number, revision, date, author and what is made; what is not known is left out. */
export function getIdentity({ plan }: SheetContext): string[] {
  return [
    plan.number && `no. ${plan.number}`,
    plan.revision && `rev. ${plan.revision}`,
    plan.date,
    plan.author && `by ${plan.author}`,
    plan.parts.map((part) => `${part.quantity} × ${part.name}`).join(', '),
  ].filter((piece) => piece !== '');
}

function getStock(context: SheetContext): string[] {
  const { plan, shop, evaluation } = context;
  const material = getEntry(plan.library.materials, shop.materials, plan.stock.materialId);
  const { section } = evaluation;
  const sizeClass = section ? getEntry(plan.library.sizeClasses, shop.sizeClasses, section.sizeClassId) : null;
  const size = section
    ? `bar ${getBothText(context, section.height.nominal)} × ${getBothText(context, section.thickness.nominal)}`
    : 'no bar fits';
  const least = section
    ? `smallest accepted ${getBothText(context, section.height.least)} × ${getBothText(context, section.thickness.least)}`
    : '';
  return [
    material?.designation || material?.name || '',
    sizeClass?.name ?? '',
    size,
    least,
    plan.stock.heatMark && `heat ${plan.stock.heatMark}`,
  ].filter((piece) => piece !== '');
}

function addNextHead(draft: Draft, page: SheetPage, context: SheetContext): void {
  const { plan } = context;
  const left = PAGE_MARGIN;
  const right = page.width - PAGE_MARGIN;
  const y = page.height - PAGE_MARGIN - NAME.next - 1;
  const units = context.units === 'in' ? 'INCH' : 'MM';
  const unitsWidth = getTextWidth(units, NAME.next, 'semibold');
  addText(draft, { x: right, y }, units, { size: NAME.next, weight: 'semibold', anchor: 'end' });
  const room = right - left - unitsWidth - 6;
  const mark = [plan.number && `no. ${plan.number}`, plan.revision && `rev. ${plan.revision}`]
    .filter(Boolean)
    .join('  ');
  // A long name gives way before what the page is.
  const rest = join(['', mark, page.name].filter((piece, index) => index === 0 || piece !== ''));
  const nameRoom = Math.max(room / 3, room - getTextWidth(rest, NAME.next, 'semibold'));
  const text = `${fitText(plan.name || UNTITLED, nameRoom, NAME.next, 'semibold')}${rest}`;
  addText(draft, { x: left, y }, fitText(text, room, NAME.next, 'semibold'), { size: NAME.next, weight: 'semibold' });
  const line = page.height - PAGE_MARGIN - NEXT_HEAD + 3;
  addRule(draft, { left, right, y: line }, 'wide');
}

/** The caution, the stamp and the page number. */
function addFoot(draft: Draft, page: SheetPage, context: SheetContext, pageText: string): void {
  const left = PAGE_MARGIN;
  const right = page.width - PAGE_MARGIN;
  const top = PAGE_MARGIN + FOOT - 3;
  addRule(draft, { left, right, y: top }, 'narrow');
  const caution = wrapText(CAUTION_LINE, right - left, SMALL, 'semibold', 1);
  addText(draft, { x: left, y: top - 3.4 }, caution[0] ?? '', { size: SMALL, weight: 'semibold' });
  const where = [context.fileName, `plan stamp ${context.stamp}`, `${context.paper.name} lying, print at 100 %`]
    .filter((piece) => piece !== '')
    .join('  ·  ');
  const pageWidth = getTextWidth(pageText, LINE, 'semibold');
  addText(draft, { x: left, y: top - 7.2 }, fitText(where, right - left - pageWidth - 6, SMALL), { size: SMALL });
  addText(draft, { x: right, y: top - 7.2 }, pageText, { size: LINE, weight: 'semibold', anchor: 'end' });
}
