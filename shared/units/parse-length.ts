import { formatLength } from './format';
import { readLength } from './length-grammar';
import { type ExpectedSize, getSizeWarning } from './length-size-warning';
import type { LengthUnits } from './length-units';
import { getPlainNumberText } from './plain-number-text';

/** The longest length that is taken, in mm: 100 m. No bar, vise or table comes near it. */
export const LONGEST_LENGTH = 100_000;

/** The shortest length other than zero that is taken, in mm: 1 nm, the step that bars are fitted in. */
export const SHORTEST_LENGTH = 1e-6;

const LONGEST_TEXT = 60;

export interface LengthOptions extends ExpectedSize {
  /** The field's name, put before a refusal or warning: "Bar thickness: …". */
  readonly field?: string;
  /** Take lengths below zero, as for an offset. Default false. */
  readonly allowNegative?: boolean;
  /** Take zero. Default true. */
  readonly allowZero?: boolean;
}

export type ParsedLength =
  | { readonly ok: true; readonly mm: number; readonly warning?: string }
  | { readonly ok: false; readonly refusal: string };

/**
 * Reads a length as machinists type it. It is a grammar, not a calculator: a dash between a whole number and
 * a fraction joins them, and nothing is added, subtracted or guessed.
 *
 * Read: `1.5`, `.375`, `3/8`, `1-1/2`, `1 1/2`, `1½`; a unit after any of them (`"`, in, `'`, ft, mm, cm, m, thou,
 * µm); feet with inches (`1'6"`, `1' 6-1/2"`, `1'-6"`); a sign before all. Without a unit the plan's unit holds.
 * Refused as doubtful: commas, powers of ten (`1e3`), two slashes, spaced dashes, `mil`, anything left over.
 * Arithmetic is exact (1 in = 25.4 mm) and rounded once, to the double nearest to the true length.
 *
 * @param text what was typed
 * @param units unit of a bare number
 * @param options what the field takes
 * @returns the length in mm, with a warning of whole sentences where the value looks like a slip; or one
 *   sentence saying why it cannot be taken, in which case the field keeps its old value
 * @example parseLength('1-1/2', 'in') // { ok: true, mm: 38.1 }
 * @example parseLength('1,5', 'in') // { ok: false, refusal: '"1,5" could be 1.5 or 15: …' }
 */
export function parseLength(text: string, units: LengthUnits, options: LengthOptions = {}): ParsedLength {
  const refuse = (sentence: string): ParsedLength => ({
    ok: false,
    refusal: inField(options, sentence),
  });
  if (text.length > LONGEST_TEXT) {
    return refuse('this is too long to be a length.');
  }
  const reading = readLength(getPlainNumberText(text), units);
  if (!reading.ok) {
    return refuse(reading.refusal);
  }
  const mm = reading.mm.valueOf();
  const refusal = getRangeRefusal(mm, units, options);
  if (refusal !== undefined) {
    return refuse(refusal);
  }
  const sizeWarning = getSizeWarning(reading, units, options);
  const warnings = sizeWarning === undefined ? reading.warnings : [...reading.warnings, sizeWarning];
  return warnings.length === 0 ? { ok: true, mm } : { ok: true, mm, warning: inField(options, warnings.join(' ')) };
}

function inField(options: LengthOptions, sentence: string): string {
  return options.field === undefined
    ? sentence.charAt(0).toUpperCase() + sentence.slice(1)
    : `${options.field}: ${sentence}`;
}

function getRangeRefusal(mm: number, units: LengthUnits, options: LengthOptions): string | undefined {
  if (mm < 0 && !options.allowNegative) {
    return 'this length cannot be less than zero.';
  }
  if (mm === 0 && options.allowZero === false) {
    return 'this length must be more than zero.';
  }
  if (Math.abs(mm) > LONGEST_LENGTH) {
    const longest = formatLength(LONGEST_LENGTH, units, { decimals: 0, unit: true });
    return `this is longer than ${longest}, the longest length that is taken.`;
  }
  return mm !== 0 && Math.abs(mm) < SHORTEST_LENGTH
    ? 'this is less than a millionth of a millimetre, so write 0 if nothing is meant.'
    : undefined;
}
