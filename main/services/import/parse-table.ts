import Papa from 'papaparse';
import { DELIMITERS, type TableRow, type TableText } from '../../../shared/lists/table';
import { ExpectedProblem } from '../expected-problem';
import { decodeText } from './decode-text';

const MOST_ROWS = 5_000;
const MOST_CELLS = 100;
const LONGEST_CELL = 5_000;

/** Rows that the delimiter is judged by. */
const ROWS_TO_JUDGE = 50;

/**
 * Reads the cells of a list.
 *
 * @param delimiter what stands between cells, or null to find out
 * @throws ExpectedProblem with one sentence when the file is no list
 */
export function parseTable(bytes: Uint8Array, name: string, delimiter: string | null): TableText {
  const decoded = decodeText(bytes).replace(/^\uFEFF/u, '');
  if (decoded.trim() === '') throw new ExpectedProblem('list-empty', `${name} is empty.`, name);
  if (decoded.includes('\u0000')) {
    throw new ExpectedProblem('list-not-text', `${name} is no text, so it is no list; save it as CSV.`, name);
  }
  const said = /^sep=(.)\r?\n/u.exec(decoded);
  const text = said === null ? decoded : decoded.slice(said[0].length);
  const chosen = delimiter ?? said?.[1] ?? detectDelimiter(text);
  const rows = readRows(text, chosen, said === null ? 1 : 2);
  if (rows.length > MOST_ROWS) {
    throw new ExpectedProblem(
      'list-too-long',
      `${name} has more than ${MOST_ROWS} rows, the most that are read.`,
      name,
    );
  }
  const wide = rows.find(({ cells }) => cells.length > MOST_CELLS || cells.some((cell) => cell.length > LONGEST_CELL));
  if (wide !== undefined) {
    throw new ExpectedProblem(
      'list-too-wide',
      `${name} has more in line ${wide.line} than a row of a list holds.`,
      name,
    );
  }
  const remarks = hasOpenQuote(text, chosen)
    ? ['A quotation mark is opened and never closed, so rows may have run together.']
    : [];
  return { rows, delimiter: chosen, remarks };
}

function readRows(text: string, delimiter: string, firstLine: number): TableRow[] {
  const rows: TableRow[] = [];
  let line = firstLine;
  let cursor = 0;
  Papa.parse<string[]>(text, {
    delimiter,
    skipEmptyLines: false,
    step: ({ data, meta }, parser) => {
      const cells = data.map(getDisarmed);
      if (cells.some((cell) => cell.trim() !== '')) rows.push({ line, cells });
      line += countLineEnds(text, cursor, meta.cursor);
      cursor = meta.cursor;
      if (rows.length > MOST_ROWS) parser.abort();
    },
  });
  return rows;
}

function countLineEnds(text: string, from: number, to: number): number {
  let count = 0;
  for (let at = text.indexOf('\n', from); at >= 0 && at < to; at = text.indexOf('\n', at + 1)) count += 1;
  // Old lists end lines with a carriage return alone.
  return count === 0 && to > from ? 1 : count;
}

/** Takes back the mark that keeps a spreadsheet from taking text for a formula (`buildCsv`). */
function getDisarmed(cell: string): string {
  return /^'['\s]*[=+\-@＝＋－＠\t\r\n]/u.test(cell) ? cell.slice(1) : cell;
}

/** The delimiter by which most rows have as many cells as the first, and more than one. */
function detectDelimiter(text: string): string {
  const head = text.slice(0, 50_000);
  let best = { delimiter: ',', score: 0 };
  for (const delimiter of DELIMITERS) {
    const { data } = Papa.parse<string[]>(head, { delimiter, preview: ROWS_TO_JUDGE, skipEmptyLines: 'greedy' });
    const width = data[0]?.length ?? 0;
    const alike = data.filter((row) => row.length === width).length;
    const score = width < 2 ? 0 : alike / data.length;
    if (score > best.score) best = { delimiter, score };
  }
  return best.delimiter;
}

function hasOpenQuote(text: string, delimiter: string): boolean {
  const { errors } = Papa.parse<string[]>(text, { delimiter, preview: MOST_ROWS });
  return errors.some(({ code }) => code === 'MissingQuotes');
}
