import { buildPart } from '../model/build-part';
import { nextId } from '../model/next-id';
import type { Part } from '../model/plan';
import type { ListColumn } from './list-columns';
import { formatListLength, formatListNumber, type ListStyle } from './list-style';
import type { ReadList, ReadRow, RejectedRow } from './read-list';
import type { TableText } from './table';

export type PartField = 'name' | 'number' | 'hand' | 'quantity' | 'length' | 'height' | 'thickness' | 'note';

export const PART_COLUMNS: readonly ListColumn<PartField>[] = [
  {
    field: 'name',
    kind: 'text',
    label: 'Name',
    words: ['part', 'part name', 'description', 'bezeichnung', 'teil', 'benennung', 'designation', 'nom', 'piece'],
    isNeeded: true,
  },
  {
    field: 'number',
    kind: 'text',
    label: 'Number',
    words: ['part number', 'part no', 'no', 'nummer', 'teilenummer', 'nr', 'numero', 'reference', 'repere'],
    isNeeded: false,
  },
  { field: 'hand', kind: 'text', label: 'Hand', words: ['seite', 'ausfuhrung', 'main', 'cote'], isNeeded: false },
  {
    field: 'quantity',
    kind: 'count',
    label: 'Quantity',
    words: ['qty', 'pieces', 'pcs', 'count', 'menge', 'anzahl', 'stuck', 'stuckzahl', 'quantite', 'qte', 'nombre'],
    isNeeded: false,
  },
  { field: 'length', kind: 'length', label: 'Length', words: ['lange', 'longueur', 'l'], isNeeded: true },
  { field: 'height', kind: 'length', label: 'Height', words: ['hohe', 'hauteur', 'h'], isNeeded: true },
  {
    field: 'thickness',
    kind: 'length',
    label: 'Thickness',
    words: ['dicke', 'starke', 'epaisseur', 't'],
    isNeeded: true,
  },
  { field: 'note', kind: 'text', label: 'Note', words: ['notes', 'remark', 'bemerkung', 'remarque'], isNeeded: false },
];

const HAND_WORDS: Readonly<Record<string, Part['hand']>> = {
  '': 'none',
  none: 'none',
  left: 'left',
  l: 'left',
  links: 'left',
  gauche: 'left',
  right: 'right',
  r: 'right',
  rechts: 'right',
  droite: 'right',
};

/** The parts of a plan as rows, the head first. Stations and holes are not in a list; they stay in the plan. */
export function buildPartRows(parts: readonly Part[], style: ListStyle): string[][] {
  const head = PART_COLUMNS.map(({ label, kind }) => (kind === 'length' ? `${label} (${style.units})` : label));
  const rows = parts.map((part) => [
    part.name,
    part.number,
    part.hand === 'none' ? '' : part.hand,
    formatListNumber(part.quantity, style),
    formatListLength(part.length, style),
    formatListLength(part.height, style),
    formatListLength(part.thickness, style),
    part.note,
  ]);
  return [head, ...rows];
}

/** What a list would do to the parts of a plan. */
export interface PartListChange {
  /** The plan's parts after it. */
  parts: Part[];
  lines: { line: number; name: string; kind: 'new' | 'changed' | 'same'; warnings: string[] }[];
  rejected: RejectedRow[];
}

/**
 * Puts a list into a plan's parts. A row is for the part of its name and number if there is one, which keeps its stations and
 * holes; any other row is a new part. Nothing is taken away.
 */
export function applyPartList(parts: readonly Part[], list: ReadList<PartField>, table: TableText): PartListChange {
  const change: PartListChange = { parts: [...parts], lines: [], rejected: [...list.rejected] };
  for (const row of list.rows) {
    const fault = getPartFault(row);
    if (fault !== null) {
      const cells = table.rows.find(({ line }) => line === row.line)?.cells ?? [];
      change.rejected.push({ line: row.line, cells, sentences: [fault] });
      continue;
    }
    const index = change.parts.findIndex((part) => isSamePart(part, row));
    const before = change.parts[index];
    const after = buildListedPart(row, before, change.parts);
    if (before === undefined) change.parts.push(after);
    else change.parts[index] = after;
    const isSame = before !== undefined && JSON.stringify(before) === JSON.stringify(after);
    const kind = before === undefined ? 'new' : isSame ? 'same' : 'changed';
    change.lines.push({ line: row.line, name: after.name, kind, warnings: row.warnings });
  }
  change.rejected.sort((a, b) => a.line - b.line);
  return change;
}

function getPartFault({ values }: ReadRow<PartField>): string | null {
  const hand = String(values.hand ?? '').toLowerCase();
  if (!Object.hasOwn(HAND_WORDS, hand)) return `Hand: "${values.hand}" is neither left nor right.`;
  const flat = (['length', 'height', 'thickness'] as const).find((field) => !(Number(values[field]) > 0));
  return flat === undefined ? null : `${flat.charAt(0).toUpperCase()}${flat.slice(1)} must be more than zero.`;
}

function isSamePart(part: Part, { values }: ReadRow<PartField>): boolean {
  const number = values.number ?? '';
  return part.name === values.name && (number === '' || part.number === '' || part.number === number);
}

function buildListedPart(row: ReadRow<PartField>, before: Part | undefined, parts: readonly Part[]): Part {
  const { values } = row;
  const text = (field: PartField, fallback: string): string => String(values[field] ?? fallback);
  const size = (field: 'length' | 'height' | 'thickness'): number => Number(values[field] ?? before?.[field] ?? 0);
  const sizes = { length: size('length'), height: size('height'), thickness: size('thickness') };
  const base = before ?? buildPart({ id: nextId(parts, 'part'), name: text('name', ''), ...sizes });
  return {
    ...base,
    ...sizes,
    name: text('name', base.name),
    number: text('number', base.number),
    hand: values.hand === undefined ? base.hand : (HAND_WORDS[String(values.hand).toLowerCase()] ?? base.hand),
    quantity: Number(values.quantity ?? base.quantity),
    note: text('note', base.note),
  };
}
