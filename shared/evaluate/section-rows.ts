import type { OrderResult, SectionRow } from '../engine/results';
import { SAME_LENGTH } from '../engine/rounding';
import type { SectionLook } from './choose-section';
import type { SectionTrial } from './section-trial';

/**
 * The comparison of sections as it is shown: fitting ones first, cheapest first; the chosen one and the dominated ones
 * marked.
 *
 * @param look knows what stops the sections that were looked at closely
 * @param inHand the chosen one with the sizes measured on the bar in hand, and its order, which is worked out harder
 */
export function buildSectionRows(
  trials: readonly SectionTrial[],
  chosen: SectionTrial,
  look: SectionLook,
  inHand: { row: SectionRow; order: OrderResult },
): SectionRow[] {
  const rows = trials.map((trial) => {
    const stop = look.getKnownStop(trial);
    const stopped = stop === '' ? {} : ({ verdict: 'stop', weakest: stop } as const);
    return trial === chosen
      ? { ...inHand.row, ...stopped, ...getOrdered(inHand.order), chosen: true }
      : { ...trial.row, ...stopped, chosen: false };
  });
  return rows.map((row) => ({ ...row, dominated: isDominated(row, rows) })).sort(compareRows);
}

function getOrdered(order: OrderResult): Partial<SectionRow> {
  if (order.bars.length === 0) return {};
  return {
    cost: order.cost?.value ?? null,
    massKg: order.massKg.value,
    yieldToPart: order.yieldToPart.value,
    bars: order.totalBars,
    proven: order.proven,
  };
}

/** Another row that fits is no dearer and grips no less, and is better in one of the two. */
function isDominated(row: SectionRow, rows: readonly SectionRow[]): boolean {
  return rows.some((other) => {
    if (!other.fitsWorst || other.cost === null || row.cost === null) return false;
    const isNoDearer = other.cost <= row.cost;
    const gripsNoLess = other.grip >= row.grip - SAME_LENGTH;
    const isBetter = other.cost < row.cost || other.grip > row.grip + SAME_LENGTH;
    return isNoDearer && gripsNoLess && isBetter;
  });
}

function compareRows(a: SectionRow, b: SectionRow): number {
  const byFit = Number(b.fitsWorst) - Number(a.fitsWorst) || Number(b.fitsNominal) - Number(a.fitsNominal);
  if (byFit !== 0) return byFit;
  const costA = a.cost ?? Number.MAX_VALUE;
  const costB = b.cost ?? Number.MAX_VALUE;
  return costA - costB || a.height * a.thickness - b.height * b.thickness;
}
