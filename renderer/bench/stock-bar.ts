import type { BarUse, OrderResult } from '../../shared/engine/results';
import { formatLength } from '../../shared/units/format';
import type { LengthUnits } from '../../shared/units/length-units';

/** The bar that a blank is sawn from, in the words that stand beside its picture. */
export interface StockBar {
  readonly bar: BarUse;
  /** Such as "Bar 2 of 3". */
  readonly name: string;
  /** How long it is, what is left of it, and which other bars the blank comes from as well. */
  readonly says: string;
}

/** The first bar of the order that carries a blank; null where none is ordered for it. */
export function getStockBar(order: OrderResult | null, templateId: string, units: LengthUnits): StockBar | null {
  const carriers = (order?.bars ?? []).filter((one) => one.lines.some((line) => line.blankTemplateId === templateId));
  const [bar, ...others] = carriers;
  if (order === null || bar === undefined) return null;
  const isEachOnce = order.bars.every(({ times }) => times === 1);
  const number = `Bar ${bar.barIndex + 1}`;
  const name = isEachOnce ? `${number} of ${order.bars.length}` : `${number}${bar.times > 1 ? ` × ${bar.times}` : ''}`;
  const length = formatLength(bar.length, units, { unit: true, trim: true });
  const left =
    bar.drop > 0 ? `${bar.dropIsRemnant ? 'keep' : 'drop'} ${formatLength(bar.drop, units)}` : 'nothing left';
  return { bar, name, says: [length, left, ...getOthers(others)].join(', ') };
}

function getOthers(others: readonly BarUse[]): string[] {
  const [first, ...more] = others;
  if (first === undefined) return [];
  return [more.length === 0 ? `also bar ${first.barIndex + 1}` : `also ${others.length} others`];
}
