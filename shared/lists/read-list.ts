import { type CellStyle, type CellValue, readCountCell, readLengthCell, readNumberCell } from './list-cell';
import type { ColumnMap, ListColumn } from './list-columns';
import type { TableRow, TableText } from './table';

/** How a table is read into a list. */
export interface ListSettings<F extends string> extends CellStyle {
  columns: ColumnMap<F>;
  hasHead: boolean;
}

export interface ReadRow<F extends string> {
  line: number;
  /** Text as written, numbers read; lengths in mm. A blank cell has no entry. */
  values: Partial<Record<F, string | number>>;
  warnings: string[];
}

/** A row that was not taken, as it stood, and why. */
export interface RejectedRow extends TableRow {
  sentences: string[];
}

export interface ReadList<F extends string> {
  rows: ReadRow<F>[];
  rejected: RejectedRow[];
  /** Columns that are needed and that no column of the table holds. */
  missing: string[];
}

/** Reads each row by itself, so that one bad row costs none of the others. */
export function readList<F extends string>(
  table: TableText,
  known: readonly ListColumn<F>[],
  settings: ListSettings<F>,
): ReadList<F> {
  const missing = known.filter(({ field, isNeeded }) => isNeeded && !settings.columns.includes(field));
  const list: ReadList<F> = { rows: [], rejected: [], missing: missing.map(({ label }) => label) };
  if (missing.length > 0) return list;
  for (const row of table.rows.slice(settings.hasHead ? 1 : 0)) {
    const read = readRow(row, known, settings);
    if (read.faults.length > 0) list.rejected.push({ ...row, sentences: read.faults });
    else list.rows.push({ line: row.line, values: read.values, warnings: read.warnings });
  }
  return list;
}

function readRow<F extends string>(row: TableRow, known: readonly ListColumn<F>[], settings: ListSettings<F>) {
  const values: Partial<Record<F, string | number>> = {};
  const [faults, warnings]: [string[], string[]] = [[], []];
  for (const column of known) {
    const index = settings.columns.indexOf(column.field);
    const text = (row.cells[index] ?? '').trim();
    if (text === '') {
      if (column.isNeeded) faults.push(`${column.label} is blank.`);
      continue;
    }
    const read = readCell(text, column, settings);
    if (!read.ok) {
      faults.push(read.sentence);
      continue;
    }
    values[column.field] = read.value;
    if (read.warning !== undefined) warnings.push(read.warning);
  }
  const spare = row.cells.slice(settings.columns.length).filter((cell) => cell.trim() !== '');
  if (spare.length > 0)
    faults.push(`The row has ${row.cells.length} cells where the list has ${settings.columns.length} columns.`);
  return { values, faults, warnings };
}

/** The longest text that a name or note of a plan takes. */
const LONGEST_TEXT = 2000;

function readCell<F extends string>(text: string, column: ListColumn<F>, style: CellStyle): CellValue<string | number> {
  switch (column.kind) {
    case 'text':
      return text.length > LONGEST_TEXT
        ? { ok: false, sentence: `${column.label} is longer than ${LONGEST_TEXT} characters.` }
        : { ok: true, value: text };
    case 'length':
      return readLengthCell(text, column.label, style);
    case 'count':
      return readCountCell(text, column.label, style);
    case 'number':
      return readNumberCell(text, column.label, style);
    default:
      return column.kind satisfies never;
  }
}

/** The rows that were not taken, with the reasons in a column after the last. */
export function buildRejectedRows(table: TableText, rejected: readonly RejectedRow[], hasHead: boolean): string[][] {
  const width = Math.max(...table.rows.map(({ cells }) => cells.length));
  const pad = (cells: readonly string[]): string[] => Array.from({ length: width }, (_unused, at) => cells[at] ?? '');
  const head = hasHead ? [[...pad(table.rows[0]?.cells ?? []), 'Not taken because']] : [];
  return [...head, ...rejected.map(({ cells, sentences }) => [...pad(cells), sentences.join(' ')])];
}
