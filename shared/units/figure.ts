import Fraction from 'fraction.js';

/** A number as it was written, with its exact value. */
export interface Figure {
  readonly text: string;
  readonly value: Fraction;
  /** Given when it was written as a fraction. */
  readonly denominator?: number;
}

export type FigureReading =
  | { readonly ok: true; readonly figure: Figure }
  | { readonly ok: false; readonly refusal: string };

const DECIMAL = /^(\d+)?(?:\.(\d*))?$/u;
const FRACTION = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/u;

/**
 * Why a text with a number in it could be read in two ways, whatever it measures.
 *
 * @param text what was typed, in plain characters
 * @returns one sentence, starting in lower case unless it starts with the text; undefined when there is no doubt
 */
export function getNumberDoubt(text: string): string | undefined {
  if (text.includes(',')) {
    return getCommaQuestion(text);
  }
  return /\d ?e ?[+-]?\d/iu.test(text)
    ? `"${text}" is written with a power of ten, so write the number out in full.`
    : undefined;
}

/**
 * Reads one unsigned number: a decimal, a fraction, or a whole number joined to a fraction by one space or dash.
 *
 * @param text the number alone, in plain characters
 * @returns its exact value; or one sentence that says why it is not one number
 */
export function readFigure(text: string): FigureReading {
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

function getCommaQuestion(text: string): string {
  const isOneComma = /^[^,.]*,[^,.]*$/u.test(text);
  return isOneComma
    ? `"${text}" could be ${text.replace(/ ?, ?/u, '.')} or ${text.replace(/ ?, ?/u, '')}, so write it with a point or without the comma.`
    : `"${text}" has a comma, so write it with a point for decimals and nothing between thousands.`;
}

function refuse(refusal: string): FigureReading {
  return { ok: false, refusal };
}
