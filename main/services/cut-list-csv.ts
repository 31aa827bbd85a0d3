import type { OrderResult } from '../../shared/engine/results';
import { evaluate, THOROUGH } from '../../shared/evaluate';
import type { ListStyle } from '../../shared/lists/list-style';
import { buildCutRows } from '../../shared/lists/order-lists';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import type { LengthUnits } from '../../shared/units/length-units';
import { buildCsv } from './build-csv';
import { ExpectedProblem } from './expected-problem';

/**
 * The cut list of a plan as CSV.
 *
 * @param style how the user's spreadsheets read lists
 * @throws ExpectedProblem `no-order` when nothing can be ordered
 */
export function renderCutList(plan: Plan, shop: Shop, style: ListStyle): string {
  const { order } = evaluate(plan, shop, THOROUGH);
  if (order === null) {
    throw new ExpectedProblem('no-order', 'There is no cut list yet: the plan needs a part and a bar that fits.');
  }
  return buildCsv(buildCutRows(order, style), style.delimiter);
}

/**
 * The cut list of an order as CSV, with commas between cells: a line for each stretch of each bar, in the order it is sawn.
 *
 * @param order the order
 * @param units units of the lengths, named in the head line
 * @returns text with CRLF line ends (RFC 4180); text that a spreadsheet would take for a formula is disarmed
 */
export function buildCutListCsv(order: OrderResult, units: LengthUnits): string {
  return buildCsv(buildCutRows(order, { delimiter: ',', decimal: '.', units }), ',');
}
