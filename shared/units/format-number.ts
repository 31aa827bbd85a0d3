/** What is shown for a value that is not a finite number. */
export const NO_VALUE = '—';

/** From here up a double has no decimals worth rounding at twelve significant digits. */
const ROUNDS_ITSELF = 1e11;

export interface NumberFormat {
  /** Digits after the point, 0 to 12. */
  readonly decimals: number;
  /** Drop zeros at the end of the decimals. */
  readonly trim?: boolean;
}

/**
 * A number in plain decimal notation with a point, whatever the machine's locale; no grouping (below 1e21).
 * Rounds the decimal figure a person would write down, halves away from zero, so that 1.005 to two
 * decimals is 1.01, and never gives "-0".
 *
 * @returns the text, or {@link NO_VALUE} when the value is not finite
 * @example formatNumber(1.005, { decimals: 2 }) // "1.01"
 */
export function formatNumber(value: number, format: NumberFormat): string {
  if (!Number.isFinite(value)) {
    return NO_VALUE;
  }
  const fixed = roundHalfAway(Math.abs(value), format.decimals).toFixed(format.decimals);
  const shown = format.trim && fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed;
  return value < 0 && /[1-9]/.test(shown) ? `-${shown}` : shown;
}

/**
 * Decimals that show three digits of a value: none from 100 up, 1 from 10, 2 from 1, then 3, and so on; none for 0.
 *
 * @param most decimals at the most, 4 unless told
 * @example getDecimalsForThreeDigits(0.28) // 3
 */
export function getDecimalsForThreeDigits(value: number, most = 4): number {
  const [, exponent] = Math.abs(value).toExponential(2).split('e');
  return value === 0 ? 0 : Math.min(most, Math.max(0, 2 - Number(exponent)));
}

/** Rounds by shifting the decimal exponent, after dropping the digits that are only binary noise. */
function roundHalfAway(size: number, decimals: number): number {
  if (size >= ROUNDS_ITSELF) {
    return size;
  }
  const [digits, exponent] = size.toExponential(11).split('e');
  const shifted = Math.round(Number(`${digits}e${Number(exponent) + decimals}`));
  return Number(`${shifted}e${-decimals}`);
}
