import Papa from 'papaparse';

/**
 * Text that a spreadsheet would run: what begins with one of these, also in their wide forms and after spaces or quotation
 * marks. Source: OWASP, CSV Injection.
 */
const FORMULA = /^['\s]*[=+\-@＝＋－＠\t\r\n]/u;

/** A plain negative number is no formula. */
const NUMBER = /^-?\d+(?:[.,]\d+)?$/u;

/** The mark of UTF-8, by which spreadsheets know the encoding of a file. */
export const UTF8_MARK = '\uFEFF';

/**
 * Rows as CSV (RFC 4180, CRLF line ends). A cell that a spreadsheet would take for a formula is led by an apostrophe, which
 * reading takes off again.
 */
export function buildCsv(rows: readonly (readonly string[])[], delimiter: string): string {
  const safe = rows.map((row) => row.map((cell) => (FORMULA.test(cell) && !NUMBER.test(cell) ? `'${cell}` : cell)));
  return `${Papa.unparse(safe, { delimiter, newline: '\r\n' })}\r\n`;
}
