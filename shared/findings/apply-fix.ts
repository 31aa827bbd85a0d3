import { setAtPath } from '../model/edit';
import type { Plan } from '../model/plan';
import type { Fix } from './finding';

/**
 * The plan with a fix's edits made, in order; the plan given is not changed.
 *
 * @throws RangeError when an edit's path leads nowhere: a bug of the rule that made the fix
 */
export function applyFix(plan: Plan, fix: Fix): Plan {
  return fix.edits.reduce((edited, edit) => setAtPath(edited, edit.path, edit.value), plan);
}
