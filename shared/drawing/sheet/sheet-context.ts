import type { Evaluation } from '../../evaluate';
import type { Plan } from '../../model/plan';
import type { Shop } from '../../model/shop';
import { formatLength } from '../../units/format';
import type { LengthUnits } from '../../units/length-units';
import { formatQuantity, type QuantityKind } from '../../units/quantity';
import type { Paper } from './papers';

/** What every part of the sheet reads. */
export interface SheetContext {
  plan: Plan;
  evaluation: Evaluation;
  shop: Shop;
  units: LengthUnits;
  paper: Paper;
  stamp: string;
  fileName: string;
}

/** A length in the plan's units, without the unit: the sheet says the unit once, large. */
export function getLengthText(context: SheetContext, mm: number): string {
  return formatLength(mm, context.units);
}

/** A length in the plan's units and in brackets the other. */
export function getBothText(context: SheetContext, mm: number): string {
  const other =
    context.units === 'in' ? formatLength(mm, 'mm', { decimals: 2 }) : formatLength(mm, 'in', { decimals: 3 });
  return `${formatLength(mm, context.units)} [${other}]`;
}

/** Any quantity with its unit. */
export function getQuantityText(context: SheetContext, value: number | string, kind: QuantityKind | 'text'): string {
  return kind === 'text' || typeof value === 'string'
    ? String(value)
    : formatQuantity(value, kind, context.units, { currency: context.shop.currency });
}

/** A part's name as the sheet has it, with its number and hand. */
export function getPartTitle(context: SheetContext, partId: string): string {
  const part = context.plan.parts.find((candidate) => candidate.id === partId);
  if (!part) {
    return partId;
  }
  const hand = { none: '', left: ', left hand', right: ', right hand' }[part.hand];
  return `${part.name || part.number || part.id}${hand}`;
}
