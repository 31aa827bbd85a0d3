import Papa from 'papaparse';
import type { BarUse, CutListLine, OrderResult } from '../../shared/engine/results';
import { evaluate } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import { formatLength } from '../../shared/units/format';
import type { LengthUnits } from '../../shared/units/length-units';
import { ExpectedProblem } from './expected-problem';

/**
 * The cut list of a plan as CSV.
 *
 * @throws ExpectedProblem `no-order` when nothing can be ordered
 */
export function renderCutList(plan: Plan, shop: Shop): string {
  const { order } = evaluate(plan, shop);
  if (order === null) {
    throw new ExpectedProblem('no-order', 'There is no cut list yet: the plan needs a part and a bar that fits.');
  }
  return buildCutListCsv(order, plan.units);
}

const DECIMALS: Readonly<Record<LengthUnits, number>> = { in: 4, mm: 3 };

/**
 * The cut list of an order as CSV: a line for each stretch of each bar, in the order it is sawn.
 *
 * @param order the order
 * @param units units of the lengths, named in the head line
 * @returns text with CRLF line ends (RFC 4180); text that a spreadsheet would take for a formula is disarmed
 */
export function buildCutListCsv(order: OrderResult, units: LengthUnits): string {
  const head = [
    'Bar',
    'Bars cut like this',
    'Stock',
    `Bar length (${units})`,
    'Line',
    'What',
    'Label',
    `Length (${units})`,
    `From (${units})`,
    `To (${units})`,
    `Kerf (${units})`,
  ];
  const rows = order.bars.flatMap((bar) => bar.lines.map((line) => getRow(bar, line, units)));
  return `${Papa.unparse([head, ...rows], { escapeFormulae: true, newline: '\r\n' })}\r\n`;
}

function getRow(bar: BarUse, line: CutListLine, units: LengthUnits): string[] {
  const show = (mm: number): string => formatLength(mm, units, { decimals: DECIMALS[units] });
  return [
    String(bar.barIndex + 1),
    String(bar.times),
    bar.kind === 'new' ? 'new bar' : 'from the rack',
    show(bar.length),
    String(line.sequence),
    LINE_WORDS[line.kind],
    line.label,
    show(line.length),
    show(line.from),
    show(line.to),
    show(line.kerf),
  ];
}

const LINE_WORDS: Readonly<Record<CutListLine['kind'], string>> = {
  trim: 'squaring trim',
  blank: 'blank',
  partBlank: 'part blank',
  drop: 'drop',
  badEnd: 'bad end',
};
