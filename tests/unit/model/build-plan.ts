import { buildPart } from '../../../shared/model/build-part';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { buildEmptyPlan } from '../../../shared/model/defaults';
import type { Plan } from '../../../shared/model/plan';

/** A small valid plan with two parts, set in mm. */
export function buildTestPlan(): Plan {
  const empty = buildEmptyPlan({ units: 'mm', date: '2025-06-01', author: 'Mill workshop', shop: defaultShop });
  return {
    ...empty,
    parts: [
      buildPart({ id: 'part-1', name: 'Link', length: 95, height: 20, thickness: 10 }),
      buildPart({ id: 'part-2', name: 'Arm', length: 184.15, height: 31.75, thickness: 12.7 }),
    ],
  };
}
