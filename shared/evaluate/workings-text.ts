import type { Why } from '../engine/figure';
import { formatLength } from '../units/format';
import { formatNumber, getDecimalsForThreeDigits } from '../units/format-number';
import type { LengthUnits } from '../units/length-units';
import { formatQuantity, type QuantityKind } from '../units/quantity';

/** How numbers are written. */
export interface TextLook {
  readonly units: LengthUnits;
  readonly currency: string;
}

/** The workings of one number in words, the same on the screen and on paper. */
export interface WorkingText {
  readonly rule: string;
  /** '' for a rule that is no formula. */
  readonly formula: string;
  /** The formula with the numbers in the place of their names; '' where none of them stands in it. */
  readonly filled: string;
  readonly inputs: readonly (readonly [name: string, value: string])[];
  readonly source: string;
}

/** Lengths under this are written with more places: a bend or a chip is far smaller than what is measured, mm. */
const SMALL_LENGTH = 0.25;
const SMALL_PLACES = { in: 5, mm: 4 } as const;

/** A number of the workings with its unit; small lengths and ratios with places enough to say something. */
export function formatWorkingValue(value: number | string, kind: QuantityKind | 'text', look: TextLook): string {
  if (kind === 'text' || typeof value === 'string') return String(value);
  if (kind === 'length' && value !== 0 && Math.abs(value) < SMALL_LENGTH) {
    return formatLength(value, look.units, { unit: true, decimals: SMALL_PLACES[look.units] });
  }
  if (kind === 'ratio' && value !== 0 && Math.abs(value) < 1) {
    return formatNumber(value, { decimals: getDecimalsForThreeDigits(value, 12), trim: true });
  }
  return formatQuantity(value, kind, look.units, { currency: look.currency });
}

/**
 * What rule, which formula, the formula with its numbers, what went in, and the source.
 *
 * @example getWorkingText({ rule: '', formula: 'A = b h', inputs: [b, h], source: '' }, look).filled // "A = 2 mm · 3 mm"
 */
export function getWorkingText(why: Why, look: TextLook): WorkingText {
  const inputs = why.inputs.map((input): [string, string] => [
    input.name,
    formatWorkingValue(input.value, input.kind, look),
  ]);
  return { rule: why.rule, formula: why.formula, filled: getFilled(why.formula, inputs), inputs, source: why.source };
}

const WORD = '[\\p{L}0-9₀-₉]';

/** Several formulas stand side by side, parted by a comma before the next left side. */
const NEXT_FORMULA = /, (?=[^,()=]+ = )/u;

function getFilled(formula: string, inputs: readonly (readonly [string, string])[]): string {
  const usable = inputs.filter(([name]) => name !== '').toSorted(([a], [b]) => b.length - a.length);
  if (usable.length === 0 || !formula.includes('=')) return '';
  const values = new Map(usable);
  const names = usable.map(([name]) => name.replace(/[.*+?^${}()|[\]\\/]/gu, '\\$&')).join('|');
  const pattern = new RegExp(`(?<!${WORD})(?:${names})(?!${WORD})`, 'gu');
  let found = 0;
  const filled = formula.split(NEXT_FORMULA).map((one) => {
    const from = one.indexOf('=') + 1;
    const right = one.slice(from).replace(pattern, (name, at: number, whole: string) => {
      found += 1;
      return getOperand(values.get(name) ?? name, whole.slice(0, at), whole.slice(at + name.length), values);
    });
    return one.slice(0, from) + right;
  });
  return found > 0 ? filled.join(', ') : '';
}

/** A number as a factor: in brackets before a power, with a dot between it and what it is multiplied with. */
function getOperand(value: string, before: string, after: string, values: ReadonlyMap<string, string>): string {
  const number = value.replace(/^× ?/u, '');
  const isRaised = /^[²³⁴^]/u.test(after);
  const text = isRaised || /^[-−]/u.test(number) ? `(${number})` : number;
  const multiplies = !isRaised && /^ \(/u.test(after);
  return `${isFactorBefore(before, values) ? '· ' : ''}${text}${multiplies ? ' ·' : ''}`;
}

/** True when a number, a symbol or a bracket stands right before: a word such as `sec` or `or` multiplies nothing. */
function isFactorBefore(before: string, values: ReadonlyMap<string, string>): boolean {
  const last = /([\p{L}0-9₀-₉.]+|\))[²³⁴]? $/u.exec(before)?.[1] ?? '';
  return last === ')' || /^[0-9.]+$/u.test(last) || [...last].length === 1 || values.has(last);
}
