/** More digits than any size needs, fewer than the noise of sums: 0.1 + 0.2 is written 0.3. */
const SIGNIFICANT_DIGITS = 12;

/** Rounds to 12 significant digits; never -0. */
export function cleanNumber(value: number): number {
  return Number(value.toPrecision(SIGNIFICANT_DIGITS)) + 0;
}
