import { getMoneyDecimals } from '../../shared/units/currency';
import { echoBoth, formatLength, formatMoney } from '../../shared/units/format';
import type { LengthUnits } from '../../shared/units/length-units';
import { type LengthOptions, parseLength } from '../../shared/units/parse-length';
import { parseQuantity, type QuantityOptions } from '../../shared/units/parse-quantity';
import { formatQuantity } from '../../shared/units/quantity';
import { getUnitKey, TYPED_UNITS, type TypedKind } from '../../shared/units/quantity-units';

/** What a typed text comes to: a value for the plan, or a sentence why the plan keeps what it has. */
export type Entry =
  | { readonly kind: 'value'; readonly value: number; readonly warning: string }
  | { readonly kind: 'cleared' }
  | { readonly kind: 'refused'; readonly sentence: string };

/** How a field reads, shows and echoes its numbers. */
export interface EntryReader {
  /** The value as the field shows it, without its unit. */
  show(value: number): string;
  read(text: string): Entry;
  /** The value in full, beside the field. */
  echo(value: number): string;
  /** The unit beside the field, or ''. */
  readonly unit: string;
}

export interface LengthEntryOptions extends LengthOptions {
  /** An empty field clears the value instead of being refused. */
  readonly mayBeEmpty?: boolean;
}

export function getLengthReader(units: LengthUnits, options: LengthEntryOptions = {}): EntryReader {
  return {
    unit: units,
    show: (value) => formatLength(value, units),
    echo: echoBoth,
    read(text) {
      if (options.mayBeEmpty && text.trim() === '') return { kind: 'cleared' };
      const parsed = parseLength(text, units, options);
      if (!parsed.ok) return { kind: 'refused', sentence: parsed.refusal };
      return { kind: 'value', value: parsed.mm, warning: parsed.warning ?? '' };
    },
  };
}

export interface QuantityEntryOptions extends QuantityOptions {
  readonly mayBeEmpty?: boolean;
}

export function getQuantityReader(
  kind: TypedKind,
  units: LengthUnits,
  options: QuantityEntryOptions = {},
): EntryReader {
  const money = options.currency === undefined ? {} : { currency: options.currency };
  const decimals = getMoneyDecimals(options.currency ?? '');
  const unit = kind === 'money' ? (options.currency ?? '') : TYPED_UNITS[kind].bare[units];
  return {
    unit,
    show: (value) => (kind === 'money' ? formatMoney(value, '', decimals) : getBareFigure(value, kind, units)),
    echo: (value) => (isInBothSystems(kind) ? getBothSystems(value, kind) : formatQuantity(value, kind, units, money)),
    read(text) {
      if (options.mayBeEmpty && text.trim() === '') return { kind: 'cleared' };
      const parsed = parseQuantity(text, kind, units, options);
      return parsed.ok
        ? { kind: 'value', value: parsed.value, warning: '' }
        : { kind: 'refused', sentence: parsed.refusal };
    },
  };
}

function isInBothSystems(kind: TypedKind): boolean {
  return TYPED_UNITS[kind].bare.in !== TYPED_UNITS[kind].bare.mm;
}

function getBothSystems(value: number, kind: TypedKind): string {
  return `${formatQuantity(value, kind, 'in')} / ${formatQuantity(value, kind, 'mm')}`;
}

/** The figure in the unit of a bare number, with the digits that a person would write. */
function getBareFigure(value: number, kind: TypedKind, units: LengthUnits): string {
  const { bare, sizes } = TYPED_UNITS[kind];
  const figure = value / (sizes[getUnitKey(bare[units])] ?? 1);
  const wholeDigits = Math.max(1, Math.floor(Math.log10(Math.abs(figure) || 1)) + 1);
  return String(Number(figure.toPrecision(Math.max(4, wholeDigits))));
}
