import { applyEdits } from '../engine/remedy-edits';
import type { Plan } from '../model/plan';
import type { Fix } from './finding';

/**
 * The plan with a fix's edits made, in order; the plan given is not changed.
 *
 * @throws RangeError when an edit's path leads nowhere: a bug of the rule that made the fix
 */
export function applyFix(plan: Plan, fix: Fix): Plan {
  return applyEdits(plan, fix.edits);
}
