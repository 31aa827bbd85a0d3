import type { Face } from '../model/faces';
import type { Draft, Judge } from './judge';
import { getPart, getPartName, lengthInput } from './judge';

const FACE_WORDS: Record<Face, string> = {
  top: 'top',
  bottom: 'bottom',
  fixedSide: 'fixed side',
  movingSide: 'moving side',
  leftEnd: 'left end',
  rightEnd: 'right end',
};

/** Whether what is left on each face covers the bow and the errors that come before the last cut. */
export function judgeAllowance(judge: Judge): Draft[] {
  return [...judgeFaces(judge), ...judgeBow(judge)];
}

function judgeFaces(judge: Judge): Draft[] {
  const { plan, judged } = judge;
  return plan.parts.flatMap((part, index): Draft[] => {
    const short = judged.allowance.filter((row) => row.partId === part.id && row.left > 0 && !row.ok);
    if (short.length === 0) return [];
    const worst = Math.max(...short.map((row) => row.worstCase));
    const usual = Math.max(...short.map((row) => row.rootSumSquare));
    const left = Math.min(...short.map((row) => row.left));
    const beyondUsual = short.some((row) => row.rootSumSquare > row.left);
    const faces = short.map((row) => FACE_WORDS[row.face]).join(', ');
    const step = plan.units === 'in' ? 0.005 * 25.4 : 0.1;
    const enough = Math.ceil((worst - 1e-9) / step) * step;
    const base = getPart(plan, part.id)?.allowance ?? plan.allowance;
    const raised = { ...base };
    for (const row of short) raised[row.face] = Math.max(raised[row.face], enough);
    return [
      {
        code: 'allowance-short',
        about: part.id,
        severity: beyondUsual ? 'stop' : 'check',
        sentence: `${getPartName(plan, part.id)}: ${judge.sayUnit(left)} is left on the ${faces}; bow and errors may take ${judge.say(worst)} at worst (${judge.say(usual)} as a rule), so a face may not clean up.`,
        detail: (short[0]?.terms ?? []).map((term) => `${term.name} ${judge.say(term.value)}`).join(' + '),
        numbers: [lengthInput('left', left), lengthInput('worst case', worst), lengthInput('as a rule', usual)],
        features: [{ kind: 'part', id: part.id }],
        fixes: [
          {
            label: `Leave ${judge.say(enough)} there`,
            edits: [{ path: ['parts', index, 'allowance'], value: raised }],
          },
        ],
      },
    ];
  });
}

function judgeBow(judge: Judge): Draft[] {
  const assumed = judge.judged.bow.filter((row) => row.assumed);
  const first = assumed.sort((a, b) => b.bow.value - a.bow.value)[0];
  if (first === undefined) return [];
  return [
    {
      code: 'bow-assumed',
      severity: 'note',
      sentence: `The bow on release is assumed, up to ${judge.sayUnit(first.bow.value)} for ${getPartName(judge.plan, first.partId)}: measure one part after the job and enter it in the shop.`,
      numbers: first.bow.why.inputs,
      features: [{ kind: 'part', id: first.partId }],
    },
  ];
}
