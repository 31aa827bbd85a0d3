import type { OrderProblem } from '../engine/results';
import type { Severity } from './finding';
import type { Draft, Judge } from './judge';
import { buildFix, getPartName } from './judge';

/** Blanks, bars and spares. */
export function judgeOrder(judge: Judge): Draft[] {
  return [
    ...judgeBlanks(judge),
    ...judgeUnplaced(judge),
    ...judgeProof(judge),
    ...judgeSpares(judge),
    ...judgeRack(judge),
  ];
}

function judgeBlanks(judge: Judge): Draft[] {
  const { blanks } = judge.judged;
  const { machine } = judge.shop;
  return blanks.flatMap((blank): Draft[] => {
    const drafts: Draft[] = [];
    for (const placed of blank.parts) {
      if (placed.clash === '') continue;
      drafts.push({
        code: 'parts-clash',
        about: `${blank.templateId}.${placed.slotId}`,
        severity: 'stop',
        sentence: `${getPartName(judge.plan, placed.partId)} on ${blank.label}: ${placed.clash}`,
        features: [
          { kind: 'part', id: placed.partId },
          { kind: 'blank', id: blank.templateId },
        ],
        fixes: [buildFix('Lay the blanks out afresh', ['layout'], 'auto')],
      });
    }
    if (blank.length > machine.travelX) {
      drafts.push({
        code: 'beyond-travel',
        about: blank.templateId,
        severity: 'stop',
        sentence: `${blank.label} is ${judge.sayUnit(blank.length)} long; the machine travels ${judge.say(machine.travelX)}.`,
        features: [
          { kind: 'blank', id: blank.templateId },
          { kind: 'table', id: 'table' },
        ],
        fixes:
          judge.plan.partsPerBlank === 'auto'
            ? []
            : [buildFix('Parts per blank by the table', ['partsPerBlank'], 'auto')],
      });
    }
    return drafts;
  });
}

function judgeUnplaced(judge: Judge): Draft[] {
  return (judge.judged.order?.unplaced ?? []).map((row) => ({
    code: 'blank-unplaced',
    about: row.blankTemplateId,
    severity: 'stop',
    sentence: `${row.count} × ${judge.judged.blanks.find((blank) => blank.templateId === row.blankTemplateId)?.label ?? 'blank'} cannot be cut: ${row.reason}`,
    features: [
      { kind: 'blank', id: row.blankTemplateId },
      { kind: 'order', id: 'bars' },
    ],
  }));
}

const PROBLEM_SEVERITIES: Readonly<Record<OrderProblem['code'], Severity>> = {
  'price-missing': 'note',
  'bar-used-up-by-ends': 'note',
  'too-many-patterns': 'check',
};

function judgeProof(judge: Judge): Draft[] {
  const { order } = judge.judged;
  if (order === null || order.bars.length === 0) return [];
  const drafts: Draft[] = [];
  for (const { code, lengthId, sentence } of order.problems) {
    drafts.push({
      code,
      ...(lengthId === '' ? {} : { about: lengthId }),
      severity: PROBLEM_SEVERITIES[code],
      sentence,
      features: [{ kind: 'order', id: code === 'price-missing' ? 'price' : 'bars' }],
    });
  }
  if (!order.proven) {
    drafts.push({
      code: 'order-not-proven',
      severity: 'note',
      sentence: 'This is the best cut found, not yet proven to be the cheapest.',
      features: [{ kind: 'order', id: 'bars' }],
    });
  }
  if (order.bars.some((bar) => bar.zeroMargin)) {
    drafts.push({
      code: 'no-margin-in-bar',
      severity: 'check',
      sentence:
        'One bar is cut with almost nothing to spare: measure it and the saw kerf before relying on its last blank.',
      features: [{ kind: 'order', id: 'bars' }],
    });
  }
  return drafts;
}

function judgeSpares(judge: Judge): Draft[] {
  const total = judge.judged.spares.reduce((sum, row) => sum + row.made - row.ordered, 0);
  if (judge.judged.spares.length === 0 || total > 0) return [];
  return [
    {
      code: 'no-spares',
      severity: 'note',
      sentence:
        'Not one part more than ordered comes out of this plan: a single scrapped piece means another bar and another setup.',
      features: [{ kind: 'field', id: 'order.spares' }],
      fixes: [buildFix('Plan spares by length', ['order', 'spares'], { kind: 'byLength', setupPieces: 0 })],
    },
  ];
}

/** A drop without a heat mark is metal of unknown grade. */
function judgeRack(judge: Judge): Draft[] {
  const used = new Set(
    (judge.judged.order?.bars ?? []).filter((bar) => bar.kind === 'remnant').map((bar) => bar.lengthId),
  );
  const unmarked = judge.shop.rack.filter((remnant) => used.has(remnant.id) && remnant.heatMark.trim() === '');
  return unmarked.map((remnant) => ({
    code: 'remnant-unmarked',
    about: remnant.id,
    severity: 'check',
    sentence: `The ${judge.sayUnit(remnant.length)} piece from the rack has no grade or heat mark: be sure of the metal before it is used.`,
    features: [{ kind: 'order', id: remnant.id }],
  }));
}
