import { nextId } from '../model/next-id';
import type { Remnant, Shop } from '../model/shop';
import { getPlainWords, type ListColumn } from './list-columns';
import { formatListLength, formatListNumber, type ListStyle } from './list-style';
import type { ReadList, ReadRow, RejectedRow } from './read-list';
import type { TableText } from './table';

export type RackField =
  | 'material'
  | 'sizeClass'
  | 'width'
  | 'thickness'
  | 'length'
  | 'quantity'
  | 'worth'
  | 'heatMark'
  | 'note';

export const RACK_COLUMNS: readonly ListColumn<RackField>[] = [
  {
    field: 'material',
    kind: 'text',
    label: 'Material',
    words: ['grade', 'werkstoff', 'matiere', 'nuance'],
    isNeeded: true,
  },
  {
    field: 'sizeClass',
    kind: 'text',
    label: 'Size class',
    words: ['class', 'form', 'toleranz', 'klasse', 'norm', 'classe', 'norme'],
    isNeeded: false,
  },
  { field: 'width', kind: 'length', label: 'Width', words: ['breite', 'largeur', 'w', 'b'], isNeeded: true },
  {
    field: 'thickness',
    kind: 'length',
    label: 'Thickness',
    words: ['dicke', 'starke', 'epaisseur', 't'],
    isNeeded: true,
  },
  { field: 'length', kind: 'length', label: 'Length', words: ['lange', 'longueur', 'l'], isNeeded: true },
  {
    field: 'quantity',
    kind: 'count',
    label: 'Quantity',
    words: ['qty', 'pieces', 'pcs', 'count', 'menge', 'anzahl', 'stuck', 'quantite', 'qte', 'nombre'],
    isNeeded: false,
  },
  {
    field: 'worth',
    kind: 'number',
    label: 'Worth',
    words: ['value', 'price', 'wert', 'preis', 'valeur', 'prix'],
    isNeeded: false,
  },
  {
    field: 'heatMark',
    kind: 'text',
    label: 'Heat mark',
    words: ['heat', 'heat number', 'charge', 'schmelze', 'coulee', 'n coulee'],
    isNeeded: false,
  },
  { field: 'note', kind: 'text', label: 'Note', words: ['notes', 'remark', 'bemerkung', 'remarque'], isNeeded: false },
];

/** The rack as rows, the head first. */
export function buildRackRows(shop: Shop, style: ListStyle): string[][] {
  const head = RACK_COLUMNS.map(({ label, kind }) => (kind === 'length' ? `${label} (${style.units})` : label));
  const rows = shop.rack.map((remnant) => [
    getName(shop.materials, remnant.materialId),
    getName(shop.sizeClasses, remnant.sizeClassId),
    formatListLength(remnant.width, style),
    formatListLength(remnant.thickness, style),
    formatListLength(remnant.length, style),
    formatListNumber(remnant.quantity, style),
    formatListNumber(remnant.worth, style),
    remnant.heatMark,
    remnant.note,
  ]);
  return [head, ...rows];
}

function getName(entries: readonly { id: string; name: string }[], id: string): string {
  return entries.find((entry) => entry.id === id)?.name ?? id;
}

/** What a list would do to the rack. */
export interface RackListChange {
  rack: Remnant[];
  lines: { line: number; name: string; kind: 'new' | 'changed' | 'same'; warnings: string[] }[];
  rejected: RejectedRow[];
}

/**
 * Puts a list into the rack. A row is for the remnant of its material, size class, section, length and heat mark if there is
 * one, whose quantity, worth and note it sets; any other row is a new remnant. Nothing is taken away.
 *
 * @param shop whose materials and size classes the rows name, by name, designation or id
 */
export function applyRackList(shop: Shop, list: ReadList<RackField>, table: TableText): RackListChange {
  const change: RackListChange = { rack: [...shop.rack], lines: [], rejected: [...list.rejected] };
  for (const row of list.rows) {
    const found = findReferences(shop, row);
    if ('fault' in found) {
      const cells = table.rows.find(({ line }) => line === row.line)?.cells ?? [];
      change.rejected.push({ line: row.line, cells, sentences: [found.fault] });
      continue;
    }
    const listed = buildRemnant(row, found);
    const index = change.rack.findIndex((remnant) => isSameRemnant(remnant, listed));
    const before = change.rack[index];
    const after = { ...(before ?? { id: nextId(change.rack, 'rack') }), ...getWritten(listed, row, before) };
    if (before === undefined) change.rack.push(after);
    else change.rack[index] = after;
    const isSame = before !== undefined && JSON.stringify(before) === JSON.stringify(after);
    const name = `${getName(shop.materials, after.materialId)}, line ${row.line}`;
    change.lines.push({
      line: row.line,
      name,
      kind: before === undefined ? 'new' : isSame ? 'same' : 'changed',
      warnings: [...row.warnings, ...found.warnings],
    });
  }
  change.rejected.sort((a, b) => a.line - b.line);
  return change;
}

interface References {
  materialId: string;
  sizeClassId: string;
  warnings: string[];
}

function findReferences(shop: Shop, { values }: ReadRow<RackField>): References | { fault: string } {
  const flat = (['width', 'thickness', 'length'] as const).find((field) => !(Number(values[field]) > 0));
  if (flat !== undefined) return { fault: `${flat.charAt(0).toUpperCase()}${flat.slice(1)} must be more than zero.` };
  const material = shop.materials.find(({ id, name, designation }) =>
    isNamed(values.material, [id, name, designation]),
  );
  if (material === undefined) return { fault: `Material: the shop has no "${values.material}".` };
  if (values.sizeClass !== undefined) {
    const sizeClass = shop.sizeClasses.find(({ id, name }) => isNamed(values.sizeClass, [id, name]));
    if (sizeClass === undefined) return { fault: `Size class: the shop has no "${values.sizeClass}".` };
    return { materialId: material.id, sizeClassId: sizeClass.id, warnings: [] };
  }
  const usual = shop.bars.find(({ materialId }) => materialId === material.id)?.sizeClassId ?? shop.sizeClasses[0]?.id;
  if (usual === undefined) return { fault: 'Size class: the shop has none to take.' };
  const name = getName(shop.sizeClasses, usual);
  return { materialId: material.id, sizeClassId: usual, warnings: [`No size class is named, so ${name} is taken.`] };
}

function isNamed(asked: string | number | undefined, names: readonly string[]): boolean {
  const plain = getPlainWords(String(asked ?? ''));
  return plain !== '' && names.some((name) => name === asked || getPlainWords(name) === plain);
}

function buildRemnant({ values }: ReadRow<RackField>, { materialId, sizeClassId }: References): Omit<Remnant, 'id'> {
  const [a, b] = [Number(values.width), Number(values.thickness)];
  return {
    materialId,
    sizeClassId,
    // The model calls the larger side the width.
    width: Math.max(a, b),
    thickness: Math.min(a, b),
    length: Number(values.length),
    quantity: Number(values.quantity ?? 1),
    worth: Number(values.worth ?? 0),
    heatMark: String(values.heatMark ?? ''),
    note: String(values.note ?? ''),
  };
}

/** Fields that the row leaves blank stay as they were. */
function getWritten(
  listed: Omit<Remnant, 'id'>,
  { values }: ReadRow<RackField>,
  before: Remnant | undefined,
): Omit<Remnant, 'id'> {
  if (before === undefined) return listed;
  const quantity = values.quantity === undefined ? before.quantity : listed.quantity;
  const worth = values.worth === undefined ? before.worth : listed.worth;
  return { ...listed, quantity, worth, note: values.note === undefined ? before.note : listed.note };
}

function isSameRemnant(a: Remnant, b: Omit<Remnant, 'id'>): boolean {
  return (
    a.materialId === b.materialId &&
    a.sizeClassId === b.sizeClassId &&
    a.width === b.width &&
    a.thickness === b.thickness &&
    a.length === b.length &&
    a.heatMark === b.heatMark
  );
}
