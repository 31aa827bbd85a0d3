import { fromNanometres, toNanometres } from '../units/exact';
import type { LengthUnits } from '../units/length-units';
import { parseLength } from '../units/parse-length';

/** How the cells of a list are read. */
export interface CellStyle {
  decimal: '.' | ',';
  /** Unit of a length without one. */
  units: LengthUnits;
}

export type CellValue<T> = { ok: true; value: T; warning?: string } | { ok: false; sentence: string };

const SPACES = /[\s\u00A0\u202F\u2009']/gu;

/**
 * A number in a list's own style as plain text with a point; `null` where the marks do not stand as they should.
 *
 * @example getPlainNumber('1.234,5', ',') // "1234.5"
 */
export function getPlainNumber(text: string, decimal: '.' | ','): string | null {
  const group = decimal === '.' ? ',' : '.';
  // Spaces group thousands only between digits: "1 1/2" stays as it is.
  const [, sign = '', body = ''] = /^([+-]?)(.*)$/su.exec(text.trim()) ?? [];
  const pieces = /^([\d.,\s\u00A0\u202F\u2009']*\d)(?![\d.,]*\/)(.*)$/su.exec(body);
  const digits = pieces?.[1];
  if (digits === undefined || /\d[\s\u00A0]+\d+\s*\//u.test(body)) return body.includes(',') ? null : `${sign}${body}`;
  const [whole = '', fraction, ...more] = digits.split(decimal);
  if (more.length > 0 || fraction?.includes(group) === true) return null;
  const isGrouped = /[.,\s\u00A0\u202F\u2009']/u.test(whole);
  if (isGrouped && !/^\d{1,3}(?:[.,\s\u00A0\u202F\u2009']\d{3})+$/u.test(whole)) return null;
  const plain = whole.replace(SPACES, '').replaceAll(group, '');
  return `${sign}${plain}${fraction === undefined ? '' : `.${fraction}`}${pieces?.[2] ?? ''}`;
}

/** @param field the column's name, put before a refusal */
export function readLengthCell(text: string, field: string, style: CellStyle): CellValue<number> {
  const plain = getPlainNumber(text, style.decimal);
  if (plain === null)
    return {
      ok: false,
      sentence: `${field}: "${text.trim()}" is not a length with decimals after "${style.decimal}".`,
    };
  const read = parseLength(plain, style.units, { field });
  if (!read.ok) return { ok: false, sentence: read.refusal };
  // Decimal inches carry a rounding in their last digit; a nanometre is finer than any of them.
  const value = fromNanometres(toNanometres(read.mm));
  return read.warning === undefined ? { ok: true, value } : { ok: true, value, warning: read.warning };
}

export function readNumberCell(text: string, field: string, style: CellStyle): CellValue<number> {
  const plain = getPlainNumber(text, style.decimal);
  const value = plain !== null && /^[+-]?(?:\d+\.?\d*|\.\d+)$/u.test(plain) ? Number(plain) : Number.NaN;
  if (!Number.isFinite(value)) return { ok: false, sentence: `${field}: "${text.trim()}" is not a number.` };
  if (value < 0) return { ok: false, sentence: `${field}: "${text.trim()}" is less than zero.` };
  return { ok: true, value };
}

export function readCountCell(text: string, field: string, style: CellStyle): CellValue<number> {
  const read = readNumberCell(text, field, style);
  if (!read.ok) return read;
  const isCount = Number.isInteger(read.value) && read.value >= 1 && read.value <= 1_000_000;
  return isCount ? read : { ok: false, sentence: `${field}: "${text.trim()}" is not a whole number of 1 or more.` };
}
