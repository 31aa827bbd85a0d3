import type { Finding } from '../../shared/findings/finding';
import type { Plan } from '../../shared/model/plan';

/** The plan with a finding accepted under its key, in the words it had on that day. */
export function getAcceptance(plan: Plan, finding: Finding, by: string, date: string): Plan {
  const others = plan.accepted.filter((entry) => entry.code !== finding.key);
  return { ...plan, accepted: [...others, { code: finding.key, by, date, sentence: finding.sentence }] };
}
