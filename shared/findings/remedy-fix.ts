import { getRemedyEdits } from '../engine/remedy-edits';
import type { Remedy } from '../engine/results';
import type { Fix } from './finding';
import type { Judge } from './judge';

/** A remedy of the engine as a fix of the plan: the very edits that its factor was worked out with. */
export function buildRemedyFix(remedy: Remedy, judge: Judge): Fix {
  const jaws = [...judge.plan.library.jawSets, ...judge.shop.jawSets];
  const edits = getRemedyEdits(
    {
      plan: judge.plan,
      seat: judge.judged.seat?.choice.value.kind ?? 'bed',
      isMillable: (id) => jaws.find((one) => one.id === id)?.millable ?? false,
    },
    remedy.change,
  );
  return { label: remedy.sentence.replace(/\.$/, ''), edits };
}
