import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { buildEmptyPlan } from '../../../shared/model/defaults';
import type { Plan } from '../../../shared/model/plan';

/** A plan without parts, by its name. */
export function buildNamedPlan(name: string): Plan {
  return { ...buildEmptyPlan({ units: 'in', date: '2026-03-01', author: 'miller', shop: defaultShop }), name };
}
