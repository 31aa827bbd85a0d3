import { inchesToMm } from '../../units/exact';
import { formatFraction } from '../../units/format';

/** A size in inches as a shop fraction (`1-1/8`), as a decimal where it is no whole number of 64ths. */
export function getInchText(inches: number): string {
  return formatFraction(inchesToMm(inches), 64) ?? String(inches);
}

/** A size in an id: thousandths of an inch as four digits. */
export function getInchKey(inches: number): string {
  return String(Math.round(inches * 1000)).padStart(4, '0');
}
