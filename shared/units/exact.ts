/** Nanometres in one millimetre. */
export const NANOMETRES_PER_MM = 1_000_000;

/** Nanometres in one inch: exact, since 1 in = 25.4 mm by definition (international inch, 1959). */
export const NANOMETRES_PER_INCH = 25_400_000;

/**
 * A length as a whole number of nanometres, for sums that must not drift (fitting pieces into a bar).
 *
 * @param mm length in mm, any sign, up to about 9 million metres
 * @returns integer nanometres, rounded to the nearest, halves away from zero; never -0
 * @throws RangeError when `mm` is not finite or too large to stay an exact integer
 * @example toNanometres(38.1) // 38_100_000, which is 1-1/2 in
 */
export function toNanometres(mm: number): number {
  const nanometres = Math.sign(mm) * Math.round(Math.abs(mm) * NANOMETRES_PER_MM);
  if (!Number.isSafeInteger(nanometres)) {
    throw new RangeError(`${mm} mm has no exact value in nanometres.`);
  }
  return nanometres + 0;
}

/**
 * The length in mm of a whole number of nanometres.
 *
 * @param nanometres safe integer
 * @returns the double nearest to the length in mm, so `toNanometres` gives the same integer back up to 1000 km
 * @throws RangeError when `nanometres` is not a safe integer
 * @example fromNanometres(25_400_000) // 25.4
 */
export function fromNanometres(nanometres: number): number {
  if (!Number.isSafeInteger(nanometres)) {
    throw new RangeError(`${nanometres} is not a whole number of nanometres.`);
  }
  return nanometres / NANOMETRES_PER_MM;
}

/**
 * Inches to mm, free of the last-digit noise of `inches * 25.4` (which makes 1.5 in 38.099999999999994 mm).
 *
 * @param inches finite number
 * @returns mm; the double nearest to the true value when the inch figure has at most five decimals or is a 64th
 * @example inchesToMm(1.5) // 38.1
 */
export function inchesToMm(inches: number): number {
  return withoutNoise((inches * 254) / 10);
}

/**
 * Mm to inches, the counterpart of {@link inchesToMm}.
 *
 * @param mm finite number
 * @returns inches
 * @example mmToInches(38.1) // 1.5
 */
export function mmToInches(mm: number): number {
  return Number(((mm * 10) / 254).toPrecision(15));
}

/** Snaps to the nearest whole nanometre when the value is one but for rounding error. */
function withoutNoise(mm: number): number {
  const nanometres = mm * NANOMETRES_PER_MM;
  const nearest = Math.round(nanometres);
  const noise = 4 * Number.EPSILON * Math.abs(nanometres);
  return Math.abs(nanometres - nearest) <= noise ? nearest / NANOMETRES_PER_MM + 0 : mm;
}
