import type { SectionRow } from '../../shared/engine/results';

export type SectionOrder = 'cost' | 'grip' | 'mass';

/** Bars that fit before those that do not; what is not known comes last. */
export function getSortedSections(rows: readonly SectionRow[], order: SectionOrder): SectionRow[] {
  const rank: Readonly<Record<SectionOrder, (row: SectionRow) => number>> = {
    cost: (row) => row.cost ?? Number.MAX_VALUE,
    grip: (row) => -row.grip,
    mass: (row) => row.massKg ?? Number.MAX_VALUE,
  };
  const get = rank[order];
  return rows.toSorted((a, b) => Number(b.fitsWorst) - Number(a.fitsWorst) || get(a) - get(b) || a.height - b.height);
}
