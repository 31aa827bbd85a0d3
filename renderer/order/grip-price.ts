import type { SectionRow } from '../../shared/engine/results';

export interface GripPrice {
  readonly cheapest: SectionRow;
  readonly keeping: SectionRow;
  /** How much dearer the one that keeps the grip is, in the shop's currency. */
  readonly extra: number;
}

/**
 * The cheapest section that fits, the cheapest that also grips as much as is wanted, and the difference.
 *
 * @param sections rows of the comparison
 * @param targetGrip grip wanted, mm
 * @returns null when either cannot be told: nothing fits, nothing grips so much, or no price is known
 */
export function computeGripPrice(sections: readonly SectionRow[], targetGrip: number): GripPrice | null {
  const fitting = sections.filter((row) => row.fitsWorst && row.verdict !== 'stop' && row.cost !== null);
  const byCost = fitting.toSorted((a, b) => (a.cost ?? 0) - (b.cost ?? 0) || b.gripLeast - a.gripLeast);
  const cheapest = byCost[0];
  const keeping = byCost.find((row) => row.gripLeast >= targetGrip - 1e-6);
  if (cheapest === undefined || keeping === undefined) return null;
  return { cheapest, keeping, extra: (keeping.cost ?? 0) - (cheapest.cost ?? 0) };
}
