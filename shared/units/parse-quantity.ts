import { type Figure, getNumberDoubt, readFigure } from './figure';
import type { LengthUnits } from './length-units';
import { getPlainNumberText } from './plain-number-text';
import { formatQuantity } from './quantity';
import { getUnitKey, TYPED_UNITS, type TypedKind } from './quantity-units';

export interface QuantityOptions {
  /** The field's name, put before a refusal: "Clamp force: …". */
  readonly field?: string;
  /** Least value taken, in the kind's stored unit. Default 0. */
  readonly min?: number;
  /** Largest value taken, in the kind's stored unit. */
  readonly max?: number;
  /** The plan's currency label, which may be typed with an amount of money. */
  readonly currency?: string;
}

export type ParsedQuantity =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly refusal: string };

const LONGEST_TEXT = 60;
const LARGEST_NUMBER = 1e12;

/**
 * Reads a number that is not a length: a force, a price, a count. Takes decimals and fractions, with or without
 * one of the kind's units; refuses commas, powers of ten and anything left over, like `parseLength`.
 *
 * @param text what was typed
 * @param kind what it measures
 * @param units the plan's units, which settle the unit of a bare number (`TYPED_UNITS[kind].bare`)
 * @returns the value in the kind's stored unit; or one sentence saying why it cannot be taken
 * @example parseQuantity('20 kN', 'force', 'in') // { ok: true, value: 20000 }
 * @example parseQuantity('8.5 %', 'fraction', 'mm') // { ok: true, value: 0.085 }
 */
export function parseQuantity(
  text: string,
  kind: TypedKind,
  units: LengthUnits,
  options: QuantityOptions = {},
): ParsedQuantity {
  const reading = readQuantity(text, kind, units, options);
  const refusal = reading.ok ? getRangeRefusal(reading.value, kind, units, options) : reading.refusal;
  if (refusal === undefined) {
    return reading;
  }
  const sentence =
    options.field === undefined ? refusal.charAt(0).toUpperCase() + refusal.slice(1) : `${options.field}: ${refusal}`;
  return refuse(sentence);
}

function readQuantity(text: string, kind: TypedKind, units: LengthUnits, options: QuantityOptions): ParsedQuantity {
  const plain = getPlainNumberText(getWithoutSign(text, kind, options));
  const doubt = getTextRefusal(plain) ?? getNumberDoubt(plain);
  if (doubt !== undefined) {
    return refuse(doubt);
  }
  const match = /^(-|\+)? ?([\d./ -]*\d\.?)(.*)$/u.exec(plain);
  if (match === null) {
    return refuse(`"${plain}" is not a number.`);
  }
  const reading = readFigure(match[2] ?? '');
  if (!reading.ok) {
    return reading;
  }
  const size = getUnitSize(match[3] ?? '', kind, units);
  if (size === undefined) {
    return refuse(`"${(match[3] ?? '').trim()}" is not a unit for this${getUnitHint(kind, units)}.`);
  }
  return getValue(reading.figure, match[1] === '-' ? -size : size, kind);
}

function getTextRefusal(plain: string): string | undefined {
  if (plain === '') {
    return 'type a number.';
  }
  return plain.length > LONGEST_TEXT ? 'this is too long to be a number.' : undefined;
}

function getValue(figure: Figure, size: number, kind: TypedKind): ParsedQuantity {
  const value = Number((figure.value.valueOf() * size).toPrecision(15)) + 0;
  if (Math.abs(value) > LARGEST_NUMBER) {
    return refuse('this number is too large.');
  }
  return kind === 'count' && !Number.isInteger(value)
    ? refuse(`"${figure.text}" is not a whole number.`)
    : { ok: true, value };
}

function getUnitSize(text: string, kind: TypedKind, units: LengthUnits): number | undefined {
  const { bare, sizes } = TYPED_UNITS[kind];
  const key = getUnitKey(text === '' ? bare[units] : text);
  if (key === '') {
    return 1;
  }
  return Object.hasOwn(sizes, key) ? sizes[key] : undefined;
}

function getUnitHint(kind: TypedKind, units: LengthUnits): string {
  const { bare } = TYPED_UNITS[kind];
  if (bare[units] === '') {
    return ', which takes a plain number';
  }
  return bare.in === bare.mm ? `: use ${bare[units]}` : `: use ${bare.in} or ${bare.mm}`;
}

/** Takes off what `formatQuantity` puts around the figure of a ratio or an amount of money. */
function getWithoutSign(text: string, kind: TypedKind, options: QuantityOptions): string {
  if (kind === 'ratio') {
    return text.replace(/^\s*[×x]/u, '');
  }
  const label = options.currency?.trim() ?? '';
  if (kind !== 'money' || label === '') {
    return text;
  }
  const typed = text.trim();
  return typed.startsWith(label)
    ? typed.slice(label.length)
    : typed.endsWith(label)
      ? typed.slice(0, -label.length)
      : typed;
}

function getRangeRefusal(
  value: number,
  kind: TypedKind,
  units: LengthUnits,
  options: QuantityOptions,
): string | undefined {
  const show = (bound: number): string =>
    formatQuantity(bound, kind, units, options.currency === undefined ? {} : { currency: options.currency });
  const min = options.min ?? 0;
  if (value < min) {
    return min === 0 ? 'this cannot be less than zero.' : `this cannot be less than ${show(min)}.`;
  }
  return options.max !== undefined && value > options.max
    ? `this cannot be more than ${show(options.max)}.`
    : undefined;
}

function refuse(refusal: string): ParsedQuantity & { readonly ok: false } {
  return { ok: false, refusal };
}
