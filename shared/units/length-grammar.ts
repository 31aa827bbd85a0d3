import type Fraction from 'fraction.js';
import { type Figure, getNumberDoubt, readFigure } from './figure';
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

type Refused = { readonly ok: false; readonly refusal: string };

/** Divisions found on inch rules. Common practice, no source. */
const USUAL_DENOMINATORS: readonly number[] = [2, 4, 8, 16, 32, 64];

const FIGURE_AND_UNIT = /^([\d./ -]*?) ?([a-z]+\.?|["'])?$/iu;
const FEET_AND_INCHES =
  /^([\d./ -]+?) ?(?:'|(?:ft|feet|foot)\.?)(?: - |-| )?([\d.][\d./ -]*?) ?("|in\.?|inch|inches)?$/iu;

/**
 * Reads a length in plain characters (see `getPlainNumberText`) by the grammar that `parseLength` describes.
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
  if (!/\d/u.test(unsigned)) {
    return refuse(`"${text}" is not a length, so write one such as 1-1/2 or 38 mm.`);
  }
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
  const doubt = getNumberDoubt(text);
  if (doubt !== undefined) {
    return doubt;
  }
  if (/\d (?:-|- | - ?)\d+\/|\d- \d/u.test(text) && !/['t]/iu.test(text)) {
    return `"${text}" could be a sum, so write a whole number and a fraction as 1-1/2 or 1 1/2.`;
  }
  return undefined;
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
  if (/^mils?$/iu.test(unitText)) {
    return refuse(`"${text}" could be thousandths of an inch or millimetres, so write thou or mm.`);
  }
  const unit = LENGTH_UNIT_NAMES.get(unitText.replace(/\.$/u, '').toLowerCase());
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
