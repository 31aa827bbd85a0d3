import { formatLength } from './format';
import { type LengthReading, readLength } from './length-grammar';
import { MM_PER_INCH } from './length-unit-names';
import type { LengthUnits } from './length-units';
import { getPlainNumberText } from './plain-number-text';

/** The longest length that is taken, in mm: 100 m. No bar, vise or table comes near it. */
export const LONGEST_LENGTH = 100_000;

/** The shortest length other than zero that is taken, in mm: 1 nm, the step that bars are fitted in. */
export const SHORTEST_LENGTH = 1e-6;

const LONGEST_TEXT = 60;

export interface LengthOptions {
  /** The field's name, put before a refusal or warning: "Bar thickness: …". */
  readonly field?: string;
  /** Take lengths below zero, as for an offset. Default false. */
  readonly allowNegative?: boolean;
  /** Take zero. Default true. */
  readonly allowZero?: boolean;
  /** What this field usually holds, mm; outside it the value is kept with a warning. */
  readonly usual?: { readonly min?: number; readonly max?: number };
  /** Another size of the setup that this length should not exceed, mm: beyond it the value is kept with a warning. */
  readonly limit?: { readonly name: string; readonly max: number };
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
  const warnings = [...reading.warnings, ...getSizeWarnings(reading, units, options)];
  return warnings.length === 0 ? { ok: true, mm } : { ok: true, mm, warning: inField(options, warnings.join(' ')) };
}

type AcceptedReading = Extract<LengthReading, { ok: true }>;

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

function getSizeWarnings(reading: AcceptedReading, units: LengthUnits, options: LengthOptions): string[] {
  const size = Math.abs(reading.mm.valueOf());
  const shown = `${reading.figure} ${reading.unit}`;
  const { limit, usual } = options;
  if (limit !== undefined && size > limit.max) {
    const most = show(limit.max, units);
    return [`${shown} exceeds the ${limit.name}, ${most}${getOtherUnitQuestion(reading, options)}`];
  }
  if (usual?.max !== undefined && size > usual.max) {
    const most = show(usual.max, units);
    return [`${shown} is more than is usual here, ${most}${getOtherUnitQuestion(reading, options)}`];
  }
  if (usual?.min !== undefined && size < usual.min) {
    const least = show(usual.min, units);
    return [`${shown} is less than is usual here, ${least}${getOtherUnitQuestion(reading, options)}`];
  }
  return [];
}

/** Asks for the other unit where no unit was typed and the figure would fit in it; otherwise ends the sentence. */
function getOtherUnitQuestion(reading: AcceptedReading, options: LengthOptions): string {
  if (reading.bare === undefined) {
    return '.';
  }
  const other = reading.unit === 'in' ? 'mm' : 'in';
  const otherMm = other === 'mm' ? reading.bare : reading.bare.mul(MM_PER_INCH);
  const size = Math.abs(otherMm.valueOf());
  const fits =
    size <= (options.limit?.max ?? Number.POSITIVE_INFINITY) &&
    size <= (options.usual?.max ?? Number.POSITIVE_INFINITY) &&
    size >= (options.usual?.min ?? 0);
  const plan = reading.unit === 'in' ? 'in' : 'mm';
  return fits ? `; did you mean ${reading.figure} ${other} = ${show(otherMm.valueOf(), plan)}?` : '.';
}

function show(mm: number, units: LengthUnits): string {
  return formatLength(mm, units, { unit: true });
}
