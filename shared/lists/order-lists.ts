import type { BarUse, CutListLine, OrderResult } from '../engine/results';
import type { Shop } from '../model/shop';
import { getMoneyDecimals } from '../units/currency';
import { formatLength } from '../units/format';
import type { LengthUnits } from '../units/length-units';
import { formatListLength, formatListNumber, type ListStyle } from './list-style';

/** As fine as a saw stop is set. */
const CUT_DECIMALS: Readonly<Record<LengthUnits, number>> = { in: 4, mm: 3 };

function formatCutLength(mm: number, { units, decimal }: ListStyle): string {
  return formatLength(mm, units, { decimals: CUT_DECIMALS[units] }).replace('.', decimal);
}

/** The cut list of an order as rows, the head first: a row for each stretch of each bar, in the order it is sawn. */
export function buildCutRows(order: OrderResult, style: ListStyle): string[][] {
  const unit = `(${style.units})`;
  const head = [
    'Bar',
    'Bars cut like this',
    'Stock',
    `Bar length ${unit}`,
    'Line',
    'What',
    'Label',
    `Length ${unit}`,
    `From ${unit}`,
    `To ${unit}`,
    `Kerf ${unit}`,
  ];
  return [head, ...order.bars.flatMap((bar) => bar.lines.map((line) => buildCutRow(bar, line, style)))];
}

function buildCutRow(bar: BarUse, line: CutListLine, style: ListStyle): string[] {
  return [
    String(bar.barIndex + 1),
    String(bar.times),
    bar.kind === 'new' ? 'new bar' : 'from the rack',
    formatCutLength(bar.length, style),
    String(line.sequence),
    LINE_WORDS[line.kind],
    line.label,
    formatCutLength(line.length, style),
    formatCutLength(line.from, style),
    formatCutLength(line.to, style),
    formatCutLength(line.kerf, style),
  ];
}

const LINE_WORDS: Readonly<Record<CutListLine['kind'], string>> = {
  trim: 'squaring trim',
  blank: 'blank',
  partBlank: 'part blank',
  drop: 'drop',
  badEnd: 'bad end',
};

/** The bars to buy as rows, the head first; money without its label, which the head names. */
export function buildPurchaseRows(order: OrderResult, shop: Shop, style: ListStyle): string[][] {
  const money = shop.currency.trim() === '' ? '' : ` (${shop.currency.trim()})`;
  const unit = `(${style.units})`;
  const head = [
    'Bar',
    'Material',
    `Width ${unit}`,
    `Thickness ${unit}`,
    `Length ${unit}`,
    'Count',
    `Price of one${money}`,
    `Price${money}`,
  ];
  const show = (amount: number | null): string =>
    amount === null ? '' : formatListNumber(amount, style, getMoneyDecimals(shop.currency));
  const rows = order.purchase.map(({ barId, length, count, unitCost, cost }) => {
    const bar = shop.bars.find(({ id }) => id === barId);
    const material = shop.materials.find(({ id }) => id === bar?.materialId);
    return [
      bar?.name ?? barId,
      material?.name ?? '',
      bar === undefined ? '' : formatListLength(bar.width, style),
      bar === undefined ? '' : formatListLength(bar.thickness, style),
      formatListLength(length, style),
      String(count),
      show(unitCost),
      show(cost),
    ];
  });
  return [head, ...rows];
}
