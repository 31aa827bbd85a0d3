import type { LengthUnits } from '../units/length-units';
import type { TableText } from './table';

/** One column that a kind of list can have. */
export interface ListColumn<F extends string> {
  field: F;
  kind: 'text' | 'length' | 'count' | 'number';
  /** Head of the column when a list is written. */
  label: string;
  /** Other heads it is known by, in plain small letters: English, German, French. */
  words: readonly string[];
  isNeeded: boolean;
}

/** What each column of a table holds; null for one that is left out. */
export type ColumnMap<F extends string> = readonly (F | null)[];

export interface DetectedColumns<F extends string> {
  columns: ColumnMap<F>;
  hasHead: boolean;
  /** Unit that the heads name, or null. */
  units: LengthUnits | null;
}

/** Heads to recognise before the first row counts as one. */
const FEWEST_HEADS = 2;

/** What the first row says of the columns. */
export function detectColumns<F extends string>(table: TableText, known: readonly ListColumn<F>[]): DetectedColumns<F> {
  const head = table.rows[0]?.cells ?? [];
  const taken = new Set<F>();
  const columns = head.map((cell): F | null => {
    const field = findField(cell, known);
    if (field === null || taken.has(field)) return null;
    taken.add(field);
    return field;
  });
  const hasHead = taken.size >= FEWEST_HEADS;
  // A row longer than the head has run over: its cells may be shifted, so it is not read as if they were not.
  const width = hasHead ? head.length : Math.max(0, ...table.rows.map(({ cells }) => cells.length));
  const filled = Array.from({ length: width }, (_unused, index) => (hasHead ? (columns[index] ?? null) : null));
  return { columns: filled, hasHead, units: hasHead ? findUnits(head) : null };
}

function findField<F extends string>(cell: string, known: readonly ListColumn<F>[]): F | null {
  const plain = getPlainWords(cell);
  const column = known.find(({ label, words }) => getPlainWords(label) === plain || words.includes(plain));
  return column?.field ?? null;
}

/** Small letters without accents, units and punctuation. */
export function getPlainWords(text: string): string {
  return text
    .replace(/[([].*?[)\]]/gu, ' ')
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .replace(/ (?:mm|in|inch|inches)$/u, '')
    .trim();
}

const UNIT_IN_HEAD = /[([]\s*(mm|in|inch|inches|"|zoll|pouces?)\s*[)\]]|[\s_](mm|in|inch|inches)$/iu;

function findUnits(head: readonly string[]): LengthUnits | null {
  const found = new Set<LengthUnits>();
  for (const cell of head) {
    const match = UNIT_IN_HEAD.exec(cell.trim());
    const word = match?.[1] ?? match?.[2];
    if (word !== undefined) found.add(word.toLowerCase() === 'mm' ? 'mm' : 'in');
  }
  return found.size === 1 ? ([...found][0] ?? null) : null;
}
