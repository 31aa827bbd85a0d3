import { buildPart } from '../../../shared/model/build-part';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { buildEmptyPlan } from '../../../shared/model/defaults';
import type { Plan } from '../../../shared/model/plan';
import type { Shop } from '../../../shared/model/shop';

export const shop: Shop = defaultShop;

/** A plan with one part, in inch. */
export function buildSmallPlan(): Plan {
  const plan = buildEmptyPlan({ units: 'in', date: '2025-06-30', author: 'Mill workshop', shop });
  const part = buildPart({ id: 'part-1', name: 'Pawl arm', length: 184.15, height: 31.75, thickness: 12.7 });
  return { ...plan, name: 'Hoist', parts: [part] };
}
