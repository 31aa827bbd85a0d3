import { mmToInches } from '../units/exact';
import type { LengthUnits } from '../units/length-units';

/** How a list is written. */
export interface ListStyle {
  delimiter: ',' | ';' | '\t';
  decimal: '.' | ',';
  units: LengthUnits;
}

/** Digits after the point: mm to a nanometre; inches to more, so that a length comes back to the same nanometre. */
const DECIMALS: Readonly<Record<LengthUnits, number>> = { mm: 6, in: 9 };

/** Languages that write a comma before decimals; their spreadsheets put a semicolon between cells. Source: Unicode CLDR number data. */
const COMMA_LANGUAGES = new Set(
  'az be bg bs ca cs da de el es et eu fi fr gl hr hu hy id is it ka kk lt lv mk nb nl nn no pl pt ro ru sk sl sq sr sv tr uk uz vi'.split(
    ' ',
  ),
);

/** Regions that write a point although their language writes a comma elsewhere. Source: Unicode CLDR number data. */
const POINT_LOCALES = /^(?:es-(?:mx|us|pr|gt|hn|ni|pa|pe|sv|do|419)|de-(?:ch|li)|it-ch)\b/u;

/**
 * The style that spreadsheets of a language read without being told.
 *
 * @param locale language tag of the host, such as `de-AT`
 */
export function getListStyle(locale: string, units: LengthUnits): ListStyle {
  const tag = locale.toLowerCase().replaceAll('_', '-');
  const language = tag.split('-')[0] ?? '';
  const hasComma = COMMA_LANGUAGES.has(language) && !POINT_LOCALES.test(tag);
  return hasComma ? { delimiter: ';', decimal: ',', units } : { delimiter: ',', decimal: '.', units };
}

/** A length for a cell, in the list's units, without a unit and without trailing zeros. */
export function formatListLength(mm: number, { units, decimal }: ListStyle): string {
  const value = units === 'in' ? mmToInches(mm) : mm;
  return trimDecimals(value.toFixed(DECIMALS[units])).replace('.', decimal);
}

/** Any other number for a cell. */
export function formatListNumber(value: number, { decimal }: ListStyle, decimals = 6): string {
  return trimDecimals(value.toFixed(decimals)).replace('.', decimal);
}

function trimDecimals(text: string): string {
  const trimmed = text.includes('.') ? text.replace(/\.?0+$/u, '') : text;
  return trimmed === '-0' ? '0' : trimmed;
}
