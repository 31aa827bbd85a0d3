import type { RejectedRow } from '../../shared/lists/read-list';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';

/** What a list would change. */
export interface ListChange {
  lines: { line: number; name: string; kind: 'new' | 'changed' | 'same'; warnings: string[] }[];
  rejected: RejectedRow[];
  apply: { plan: (plan: Plan) => Plan; shop: (shop: Shop) => Shop };
}
