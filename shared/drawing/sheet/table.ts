import { addText } from '../draft';
import { getTextWidth, wrapText } from '../text-width';
import { addRule, ensureRoom, FLOW_TEXT, type Flow, getBottom, getLeft, getPageDraft, getRight } from './flow';

export interface Column {
  title: string;
  align?: 'start' | 'end';
  /** Takes up the room that is left over. */
  flexible?: boolean;
  weight?: 'regular' | 'semibold';
}

export interface TableOptions {
  /** Left edge and width, mm of paper; the page's text area by default. */
  left?: number;
  width?: number;
  size?: number;
  /** Lines of one cell beyond which it is cut with an ellipsis. */
  mostLines?: number;
}

const GAP = 4;
/** Between a run of rows and the next beside it, mm. */
const SET_GAP = 9;
/** Fewer rows stand below each other even where there is room beside them. */
const FEW_ROWS = 10;
/** A table of few rows is not torn apart when it is no higher than this, mm. */
const MOST_KEPT = 30;
/** Rows under a head that are not parted from it. */
const LEAST_RUN = 3;
/** Below a table, mm. */
const AFTER = 2.5;
const PITCH = 1.62;
const ROW_EDGE = 1.1;
/** Keeps rounding from wrapping a text that just fits. */
const SLACK = 0.01;
/** A column is not squeezed below this while others can give. */
const LEAST_WIDTH = 12;

/**
 * A table that breaks between rows, with its head again on each page. Cells wrap; columns without any text are left out.
 * Many short rows go into two or three runs beside each other.
 */
export function addTable(
  flow: Flow,
  allColumns: readonly Column[],
  allRows: readonly (readonly string[])[],
  options: TableOptions = {},
): void {
  if (allRows.length === 0) {
    return;
  }
  const used = allColumns.map((_column, index) => allRows.some((row) => (row[index] ?? '') !== ''));
  const columns = allColumns.filter((_column, index) => used[index]);
  const rows = allRows.map((row) => row.filter((_cell, index) => used[index]));
  const size = options.size ?? FLOW_TEXT.text;
  const left = options.left ?? getLeft();
  const room = options.width ?? getRight(flow) - left;
  const titles = columns.map((column) => column.title);
  const natural = getNaturalWidths(columns, rows, size);
  const sets = rows.length < FEW_ROWS ? 1 : Math.floor((room + SET_GAP) / (getTotal(natural) + SET_GAP));
  const mostLines = options.mostLines ?? 8;
  if (sets > 1) {
    addSideBySide(flow, { columns, widths: natural, left, size, mostLines }, rows, sets);
    return;
  }
  const widths = getColumnWidths(columns, natural, room);
  const layout: TableLayout = { columns, widths, left, size, mostLines };
  const kept = rows.slice(0, rows.length < FEW_ROWS ? rows.length : 1);
  const keptHeight = kept.reduce((sum, row) => sum + getRowHeight(layout, row, size), 0);
  ensureRoom(
    flow,
    getRowHeight(layout, titles, FLOW_TEXT.small) +
      (keptHeight > MOST_KEPT ? getRowHeight(layout, rows[0] ?? [], size) : keptHeight),
  );
  addHead(flow, layout, titles);
  for (const row of rows) {
    if (ensureRoom(flow, getRowHeight(layout, row, size))) {
      addHead(flow, layout, titles);
    }
    addRow(flow, layout, row, size, false);
    addRowRule(flow, layout, 'hair');
  }
  flow.y -= AFTER;
}

/** The rows in equal runs beside each other, each under a head of its own: a long narrow table leaves no paper bare. */
function addSideBySide(flow: Flow, layout: TableLayout, rows: readonly string[][], sets: number): void {
  const titles = layout.columns.map((column) => column.title);
  const pitch = Math.max(...rows.map((row) => getRowHeight(layout, row, layout.size)));
  const head = getRowHeight(layout, titles, FLOW_TEXT.small);
  const step = getTotal(layout.widths) + SET_GAP;
  for (let done = 0; done < rows.length; ) {
    ensureRoom(flow, head + Math.min(LEAST_RUN, Math.ceil((rows.length - done) / sets)) * pitch);
    const top = flow.y;
    const fitting = Math.floor((top - getBottom() - head) / pitch);
    const run = Math.min(fitting, Math.ceil((rows.length - done) / sets));
    for (let set = 0; set < sets; set += 1) {
      const shown = rows.slice(done + set * run, done + (set + 1) * run);
      if (shown.length === 0) break;
      flow.y = top;
      const beside = { ...layout, left: layout.left + set * step };
      addHead(flow, beside, titles);
      for (const row of shown) {
        addRow(flow, beside, row, layout.size, false);
        addRowRule(flow, beside, 'hair');
      }
    }
    done += sets * run;
    flow.y = top - head - run * pitch;
  }
  flow.y -= AFTER;
}

interface TableLayout {
  columns: readonly Column[];
  widths: readonly number[];
  left: number;
  size: number;
  mostLines: number;
}

function addHead(flow: Flow, layout: TableLayout, titles: readonly string[]): void {
  addRow(flow, layout, titles, FLOW_TEXT.small, true);
  addRowRule(flow, layout, 'narrow');
}

function addRowRule(flow: Flow, { left, widths }: TableLayout, pen: 'hair' | 'narrow'): void {
  addRule(getPageDraft(flow), { left, right: left + getTotal(widths), y: flow.y }, pen);
}

/** Width of a row: its columns and the gaps between them. */
function getTotal(widths: readonly number[]): number {
  return widths.reduce((sum, width) => sum + width, 0) + GAP * (widths.length - 1);
}

function addRow(flow: Flow, layout: TableLayout, cells: readonly string[], size: number, isHead: boolean): void {
  const draft = getPageDraft(flow);
  const top = flow.y - ROW_EDGE * 0.4;
  let x = layout.left;
  for (const [index, column] of layout.columns.entries()) {
    const width = layout.widths[index] ?? 0;
    const weight = isHead ? 'regular' : (column.weight ?? 'regular');
    const lines = wrapText(cells[index] ?? '', width, size, weight, layout.mostLines);
    for (const [row, line] of lines.entries()) {
      addText(
        draft,
        { x: column.align === 'end' ? x + width : x, y: top - (row + 1) * size * PITCH + size * 0.3 },
        line,
        { size, weight, anchor: column.align ?? 'start' },
      );
    }
    x += width + GAP;
  }
  flow.y -= getRowHeight(layout, cells, size);
}

function getRowHeight(layout: TableLayout, cells: readonly string[], size: number): number {
  const lines = layout.columns.map(
    (column, index) =>
      wrapText(cells[index] ?? '', layout.widths[index] ?? 0, size, column.weight, layout.mostLines).length,
  );
  return Math.max(1, ...lines) * size * PITCH + ROW_EDGE;
}

/** Each column as wide as its widest cell. */
function getNaturalWidths(columns: readonly Column[], rows: readonly (readonly string[])[], size: number): number[] {
  return columns.map(
    (column, index) =>
      SLACK +
      Math.max(
        getTextWidth(column.title, FLOW_TEXT.small),
        ...rows.map((row) => getTextWidth(row[index] ?? '', size, column.weight)),
      ),
  );
}

/** The natural widths; when they are too much, the widest give first. */
function getColumnWidths(columns: readonly Column[], natural: readonly number[], room: number): number[] {
  const cap = findCap(natural, room - GAP * (columns.length - 1));
  const widths = natural.map((width) => Math.min(width, Math.max(cap, LEAST_WIDTH)));
  const spare = room - getTotal(widths);
  const flexible = columns.filter((column) => column.flexible).length;
  return spare > 0 && flexible > 0
    ? widths.map((width, index) => (columns[index]?.flexible ? width + spare / flexible : width))
    : widths;
}

/** The width at which the widest columns are cut so that all fit: found exactly by filling from the narrowest. */
function findCap(natural: readonly number[], available: number): number {
  const sorted = natural.toSorted((a, b) => a - b);
  let left = available;
  for (const [index, width] of sorted.entries()) {
    const share = left / (sorted.length - index);
    if (width > share) {
      return share;
    }
    left -= width;
  }
  return Number.POSITIVE_INFINITY;
}
