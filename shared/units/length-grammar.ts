import Fraction from 'fraction.js';
import { formatNumber } from './format-number';
import { INCH, LENGTH_UNIT_NAMES, type LengthUnitName, MM_PER_INCH } from './length-unit-names';
import type { LengthUnits } from './length-units';

export type LengthReading =
  | {
      readonly ok: true;
      /** The exact length in mm, signed. */
      readonly mm: Fraction;
      /** The figure as typed, without sign or unit. */
      readonly figure: string;
      /** The unit it was read in, as shown. */
      readonly unit: string;
      /** The number itself, signed, when no unit was typed. */
      readonly bare?: Fraction;
      readonly warnings: readonly string[];
    }
  | { readonly ok: false; readonly refusal: string };

interface Figure {
  readonly text: string;
  readonly value: Fraction;
  readonly denominator?: number;
}

type FigureReading = { readonly ok: true; readonly figure: Figure } | Refused;
type Refused = { readonly ok: false; readonly refusal: string };

/** Divisions found on inch rules. Common practice, no source. */
const USUAL_DENOMINATORS: readonly number[] = [2, 4, 8, 16, 32, 64];

const DECIMAL = /^(\d+)?(?:\.(\d*))?$/u;
const FRACTION = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/u;
const FIGURE_AND_UNIT = /^([\d./ -]*?) ?([a-z]+\.?|["'])?$/u;
const FEET_AND_INCHES =
  /^([\d./ -]+?) ?(?:'|(?:ft|feet|foot)\.?)(?: - |-| )?([\d.][\d./ -]*?) ?("|in\.?|inch|inches)?$/u;

/**
 * Reads a length in plain characters (see `getPlainLengthText`) by the grammar that `parseLength` describes.
 *
 * @returns the exact length, or one sentence, starting in lower case, that says why there is none
 */
export function readLength(text: string, units: LengthUnits): LengthReading {
  const refusal = getDoubt(text);
  if (refusal !== undefined) {
    return refuse(refusal);
  }
  const isNegative = text.startsWith('-');
  const unsigned = text.replace(/^[+-] ?/u, '').replace(/ ?\/ ?/gu, '/');
  const feetAndInches = FEET_AND_INCHES.exec(unsigned);
  const reading = feetAndInches
    ? readFeetAndInches(feetAndInches[1] ?? '', feetAndInches[2] ?? '')
    : readMeasure(unsigned, units);
  return reading.ok && isNegative ? negate(reading) : reading;
}

/** The sentence for a text that could mean two things or is no length at all. */
function getDoubt(text: string): string | undefined {
  if (text === '') {
    return 'type a length, such as 1-1/2 or 38 mm.';
  }
  if (text.includes(',')) {
    return getCommaQuestion(text);
  }
  if (/\d ?e ?[+-]?\d/u.test(text)) {
    return `"${text}" is written with a power of ten, so write the length out in full.`;
  }
  if (/\d (?:-|- | - ?)\d+\/|\d- \d/u.test(text) && !/['t]/u.test(text)) {
    return `"${text}" could be a sum, so write a whole number and a fraction as 1-1/2 or 1 1/2.`;
  }
  return undefined;
}

function getCommaQuestion(text: string): string {
  const isOneComma = /^[^,.]*,[^,.]*$/u.test(text);
  return isOneComma
    ? `"${text}" could be ${text.replace(/ ?, ?/u, '.')} or ${text.replace(/ ?, ?/u, '')}, so write it with a point or without the comma.`
    : `"${text}" has a comma, so write it with a point for decimals and nothing between thousands.`;
}

function readMeasure(text: string, units: LengthUnits): LengthReading {
  const match = FIGURE_AND_UNIT.exec(text);
  const figureText = match?.[1] ?? '';
  if (match === null || !/\d/u.test(figureText)) {
    return refuse(`"${text}" is not a length, so write one such as 1-1/2 or 38 mm.`);
  }
  const reading = readFigure(figureText);
  if (!reading.ok) {
    return reading;
  }
  const unitText = match[2];
  if (unitText === undefined) {
    return getBareLength(reading.figure, units);
  }
  if (/^mils?$/u.test(unitText)) {
    return refuse(`"${text}" could be thousandths of an inch or millimetres, so write thou or mm.`);
  }
  const unit = LENGTH_UNIT_NAMES.get(unitText.replace(/\.$/u, ''));
  return unit === undefined
    ? refuse(`"${unitText}" is not a unit of length that is known here, so use in, ft, thou, mm, cm or m.`)
    : getLength(reading.figure, unit);
}

function readFeetAndInches(feetText: string, inchesText: string): LengthReading {
  const feet = readFigure(feetText);
  if (!feet.ok) {
    return feet;
  }
  const inches = readFigure(inchesText);
  if (!inches.ok) {
    return inches;
  }
  if (!/^\d+$/u.test(feetText)) {
    return refuse(`"${feetText}" feet is not whole, so write whole feet before the inches.`);
  }
  const total = feet.figure.value.mul(12).add(inches.figure.value);
  const warnings = getFractionWarnings(inches.figure, total);
  if (inches.figure.value.compare(12) >= 0) {
    warnings.push(`${inches.figure.text} in after the feet is a foot or more: taken as ${showInches(total)} in all.`);
  }
  return { ok: true, mm: total.mul(MM_PER_INCH), figure: showNumber(total), unit: 'in', warnings };
}

function getBareLength(figure: Figure, units: LengthUnits): LengthReading {
  if (units === 'in') {
    return { ...getLength(figure, INCH), bare: figure.value };
  }
  const warnings =
    figure.denominator === undefined
      ? []
      : [`${figure.text} is taken as ${showNumber(figure.value)} mm: write ${figure.text} in if inches are meant.`];
  return { ok: true, mm: figure.value, figure: figure.text, unit: 'mm', bare: figure.value, warnings };
}

function getLength(figure: Figure, unit: LengthUnitName): Extract<LengthReading, { ok: true }> {
  const mm = figure.value.mul(unit.mm);
  return {
    ok: true,
    mm,
    figure: figure.text,
    unit: unit.shown,
    warnings: unit.isInchRule ? getFractionWarnings(figure, mm.div(MM_PER_INCH)) : [],
  };
}

function readFigure(text: string): FigureReading {
  const fraction = FRACTION.exec(text);
  if (fraction) {
    return readFraction(text, fraction[1], fraction[2] ?? '', fraction[3] ?? '');
  }
  const decimal = DECIMAL.exec(text);
  if (decimal && /\d/u.test(text)) {
    const places = decimal[2] ?? '';
    const digits = BigInt(`${decimal[1] ?? ''}${places}`);
    return { ok: true, figure: { text, value: new Fraction(digits, 10n ** BigInt(places.length)) } };
  }
  return refuse(getFigureRefusal(text));
}

function readFraction(text: string, wholeText: string | undefined, above: string, below: string): FigureReading {
  const denominator = BigInt(below);
  if (denominator === 0n) {
    return refuse(`"${text}" divides by zero.`);
  }
  if (wholeText !== undefined && BigInt(above) >= denominator) {
    return refuse(`"${text}" has a fraction of one or more after a whole number, so write it another way.`);
  }
  const value = new Fraction(BigInt(above), denominator).add(new Fraction(BigInt(wholeText ?? '0')));
  return { ok: true, figure: { text, value, denominator: Number(denominator) } };
}

function getFigureRefusal(text: string): string {
  if ((text.match(/\//gu)?.length ?? 0) > 1) {
    return `"${text}" has more than one slash, so write one fraction such as 3/16.`;
  }
  if (text.includes('/') && text.includes('.')) {
    return `"${text}" mixes a decimal with a fraction, so write one or the other.`;
  }
  if (/\d+\.\d*\./u.test(text)) {
    return `"${text}" has more than one point, so write one decimal number.`;
  }
  if (/^\d[\d.]* \d[\d.]*$/u.test(text)) {
    return `"${text}" is two numbers, so write one, or a whole number and a fraction.`;
  }
  return `"${text}" cannot be read as one number, so write it as 1.5, 3/8 or 1-1/2.`;
}

function getFractionWarnings(figure: Figure, inches: Fraction): string[] {
  const { denominator, text } = figure;
  return denominator === undefined || denominator === 1 || USUAL_DENOMINATORS.includes(denominator)
    ? []
    : [`${text.replace(/^.*[ -]/u, '')} is not a usual fraction: taken as ${showInches(inches)}.`];
}

function negate(reading: Extract<LengthReading, { ok: true }>): LengthReading {
  const bare = reading.bare?.neg();
  return {
    ...reading,
    mm: reading.mm.neg(),
    figure: `-${reading.figure}`,
    ...(bare === undefined ? {} : { bare }),
  };
}

function refuse(refusal: string): Refused {
  return { ok: false, refusal };
}

function showInches(inches: Fraction): string {
  return `${showNumber(inches)} in`;
}

function showNumber(value: Fraction): string {
  return formatNumber(value.valueOf(), { decimals: 6, trim: true });
}
