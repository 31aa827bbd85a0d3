import type { EngineResults } from '../engine/engine-results';
import type { Plan } from '../model/plan';
import type { Shop } from '../model/shop';
import { judgeAllowance } from './allowance-rules';
import type { Finding, Severity } from './finding';
import { judgeGrip } from './grip-rules';
import { judgeHolding } from './hold-rules';
import { judgeInput } from './input-rules';
import type { Draft, JudgeGroup } from './judge';
import { buildJudge } from './judge';
import { judgeOrder } from './order-rules';
import { judgeReach } from './reach-rules';
import { judgeRelease } from './release-rules';
import { judgeStock } from './stock-rules';

const GROUPS: readonly JudgeGroup[] = [
  judgeInput,
  judgeStock,
  judgeGrip,
  judgeHolding,
  judgeRelease,
  judgeReach,
  judgeAllowance,
  judgeOrder,
];

const RANK: Record<Severity, number> = { stop: 0, check: 1, note: 2 };

/**
 * Checks a plan's results against every rule.
 *
 * @param plan the plan as entered
 * @param shop the shop in force
 * @param judged the evaluation of that plan with that shop, findings not yet in it
 * @returns findings, stops first, then checks, then notes; in the order of the work within each
 */
export function computeFindings(plan: Plan, shop: Shop, judged: EngineResults): Finding[] {
  const judge = buildJudge(plan, shop, judged);
  const findings = GROUPS.flatMap((group) => group(judge)).map((draft) => finish(draft, plan));
  return findings.sort((a, b) => RANK[a.severity] - RANK[b.severity]);
}

/** Capital first, full stop last: some sentences begin with what the engine found. */
function getSentence(text: string): string {
  const trimmed = text.trim();
  const whole = /[.!?]$/.test(trimmed) ? trimmed : `${trimmed}.`;
  return whole.charAt(0).toUpperCase() + whole.slice(1);
}

function finish(draft: Draft, plan: Plan): Finding {
  const key = draft.about === undefined ? draft.code : `${draft.code}:${draft.about}`;
  const sentence = getSentence(draft.sentence);
  const accepted =
    draft.severity !== 'stop' && plan.accepted.some((entry) => entry.code === key && entry.sentence === sentence);
  return {
    code: draft.code,
    key,
    severity: draft.severity,
    sentence,
    detail: draft.detail ?? '',
    numbers: draft.numbers ?? [],
    features: draft.features ?? [],
    fixes: draft.fixes ?? [],
    accepted,
  };
}
