import type { Path } from '../../shared/model/edit';
import type { Shop } from '../../shared/model/shop';
import type { TypedKind } from '../../shared/units/quantity-units';
import type { LengthEntryOptions, QuantityEntryOptions } from '../state/entry';
import type { Option } from '../ui/select-field';

interface FieldCommon {
  readonly label: string;
  /** From the entry, or from the row or group it stands in. */
  readonly path: Path;
}

/** What is asked of an entry of the shop. */
export type FieldSpec =
  | (FieldCommon & { readonly kind: 'text'; readonly lines?: number })
  | (FieldCommon & { readonly kind: 'length'; readonly options?: LengthEntryOptions })
  | (FieldCommon & { readonly kind: 'quantity'; readonly quantity: TypedKind; readonly options?: QuantityEntryOptions })
  | (FieldCommon & { readonly kind: 'choice'; readonly options: readonly Option<string>[] })
  | (FieldCommon & { readonly kind: 'check' })
  /** The id of another entry. */
  | (FieldCommon & { readonly kind: 'entry'; readonly list: 'materials' | 'sizeClasses' })
  /** Something that may not be there: a neck, bolts, a measured size. */
  | (FieldCommon & { readonly kind: 'optional'; readonly first: unknown; readonly fields: readonly FieldSpec[] })
  | (FieldCommon & { readonly kind: 'rows'; readonly first: unknown; readonly columns: readonly FieldSpec[] });

export type ListKey =
  | 'materials'
  | 'sizeClasses'
  | 'bars'
  | 'rack'
  | 'vises'
  | 'jawSets'
  | 'parallels'
  | 'tools'
  | 'holders'
  | 'saws'
  | 'bowMeasurements';

export type Entry<K extends ListKey = ListKey> = Shop[K][number];

/** Fields under one heading of an entry's form. */
export interface FieldGroup {
  readonly title: string;
  readonly fields: readonly FieldSpec[];
}

export const text = (label: string, ...path: (string | number)[]): FieldSpec => ({ kind: 'text', label, path });

export const length = (label: string, ...path: (string | number)[]): FieldSpec => ({ kind: 'length', label, path });

/** A length that must be more than zero. */
export const size = (label: string, ...path: (string | number)[]): FieldSpec => ({
  kind: 'length',
  label,
  path,
  options: { allowZero: false },
});

export const quantity = (label: string, kind: TypedKind, ...path: (string | number)[]): FieldSpec => ({
  kind: 'quantity',
  label,
  quantity: kind,
  path,
});

export const maybeQuantity = (label: string, kind: TypedKind, ...path: (string | number)[]): FieldSpec => ({
  kind: 'quantity',
  label,
  quantity: kind,
  path,
  options: { mayBeEmpty: true },
});

export const check = (label: string, ...path: (string | number)[]): FieldSpec => ({ kind: 'check', label, path });

export const choice = (
  label: string,
  options: Readonly<Record<string, string>>,
  ...path: (string | number)[]
): FieldSpec => ({
  kind: 'choice',
  label,
  path,
  options: Object.entries(options).map(([id, name]) => ({ id, label: name })),
});

export const source: FieldSpec = { kind: 'text', label: 'Source', path: ['source'], lines: 2 };
