import { addLine, addText } from '../draft';
import { getTextWidth, wrapText } from '../text-width';
import { ensureRoom, FLOW_TEXT, type Flow, getLeft, getPageDraft, getRight } from './flow';

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
const PITCH = 1.62;
const ROW_EDGE = 1.1;
/** Keeps rounding from wrapping a text that just fits. */
const SLACK = 0.01;
/** A column is not squeezed below this while others can give. */
const LEAST_WIDTH = 12;

/** A table that breaks between rows, with its head again on each page. Cells wrap; columns without any text are left out. */
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
  const widths = getColumnWidths(columns, rows, options.width ?? getRight(flow) - left, size);
  const layout: TableLayout = { columns, widths, left, size, mostLines: options.mostLines ?? 8 };
  const titles = columns.map((column) => column.title);
  const first = rows[0] ?? [];
  ensureRoom(flow, getRowHeight(layout, titles, FLOW_TEXT.small) + getRowHeight(layout, first, size));
  addHead(flow, layout, titles);
  for (const row of rows) {
    if (ensureRoom(flow, getRowHeight(layout, row, size))) {
      addHead(flow, layout, titles);
    }
    addRow(flow, layout, row, size, false);
    const draft = getPageDraft(flow);
    const right = left + widths.reduce((sum, width) => sum + width, 0) + GAP * (columns.length - 1);
    addLine(
      draft,
      'guide',
      [
        { x: left, y: flow.y },
        { x: right, y: flow.y },
      ],
      { pen: 'hair' },
    );
  }
  flow.y -= 2.5;
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
  const right = layout.left + layout.widths.reduce((sum, width) => sum + width, 0) + GAP * (layout.columns.length - 1);
  addLine(
    getPageDraft(flow),
    'frame',
    [
      { x: layout.left, y: flow.y },
      { x: right, y: flow.y },
    ],
    { pen: 'narrow' },
  );
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

/** Each column as wide as its widest cell; when that is too much, the widest give first. */
function getColumnWidths(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  room: number,
  size: number,
): number[] {
  const available = room - GAP * (columns.length - 1) - SLACK * columns.length;
  const natural = columns.map((column, index) =>
    Math.max(
      getTextWidth(column.title, FLOW_TEXT.small),
      ...rows.map((row) => getTextWidth(row[index] ?? '', size, column.weight)),
    ),
  );
  const cap = findCap(natural, available);
  const widths = natural.map((width) => Math.min(width, Math.max(cap, LEAST_WIDTH)) + SLACK);
  const spare = room - GAP * (columns.length - 1) - widths.reduce((sum, width) => sum + width, 0);
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
