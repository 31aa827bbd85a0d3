import type { Figure } from '../../engine/figure';
import { CAUTIONS } from '../../findings/cautions';
import type { Finding } from '../../findings/finding';
import { addText } from '../draft';
import { addSeverityMark } from '../furniture';
import { wrapText } from '../text-width';
import {
  addBox,
  addHeading,
  addParagraph,
  ensureRoom,
  FLOW_TEXT,
  type Flow,
  getLeft,
  getPageDraft,
  getRight,
  startSection,
} from './flow';
import { findFieldSigns, getSignText } from './missing-signs';
import { getBothText, getQuantityText, type SheetContext } from './sheet-context';
import { addTable } from './table';

const BOX = 3.4;
const INDENT = 6.5;
const PITCH = 1.7;

/** Boxes to tick at the machine, findings open and accepted, and the cautions in full. */
export function addChecksSection(flow: Flow, context: SheetContext): void {
  startSection(flow, 'Checks, findings and cautions');
  addHeading(flow, 'Before the first cut');
  for (const text of getChecksBefore(context)) {
    addCheck(flow, text);
  }
  addHeading(flow, 'During and after');
  for (const text of getChecksAfter(context)) {
    addCheck(flow, text);
  }
  addFirstPiece(flow, context);
  addFindings(flow, context);
  addMissingSigns(flow, context);
  addChance(flow, context);
  addHeading(flow, 'Cautions', 30);
  for (const caution of CAUTIONS) {
    addParagraph(flow, caution, { weight: 'semibold' });
  }
}

function getChecksBefore(context: SheetContext): string[] {
  const { seat, vises, blanks, governingBlank } = context.evaluation;
  const many = (vises?.centres.value.length ?? 1) > 1;
  const kind = seat?.choice.value.kind;
  const blank = blanks[governingBlank];
  return [
    'Bar measured; not under the smallest accepted size; grade and heat mark read.',
    many ? 'Vises lined up; every vise tight on the blank, none forgotten.' : 'Vise lined up and tight.',
    'Fixed soft jaw sits on the bed, not hung on its screws.',
    ...(kind === 'shelf'
      ? [
          'Shelf milled with the jaws loaded on the spacer; corner relieved or edge of the bar broken; no burr under the blank.',
        ]
      : []),
    ...(kind === 'parallels' ? ['Blank tapped down; every parallel tight under it before the first cut.'] : []),
    'Blank against the stop; which face is at the fixed jaw and which is down checked against page 1.',
    `Jaw tops clear of the cutter: gap set to ${blank ? getBothText(context, blank.stack.clearance) : '______'}, tried with the spindle still.`,
    'Holder nose and shank clear of the part, the bar and the jaws over the whole path; drills miss what carries the blank.',
    ...(many ? ['Bar pulled straight by the vises?   yes ____   no ____   gap before tightening ________'] : []),
    'Guards closed, eye protection on; first run at reduced feed.',
  ];
}

function getChecksAfter(_context: SheetContext): string[] {
  return [
    'Jaws and screws tight again after the first rough pass.',
    'Cut-off last; part supported before the rib is broken.',
    'Parts marked or bagged as they come off; left and right hand kept apart.',
    'Drop measured, marked with grade and heat, back on the rack.',
  ];
}

function addCheck(flow: Flow, text: string): void {
  const size = FLOW_TEXT.text;
  const left = getLeft() + INDENT;
  const lines = wrapText(text, getRight(flow) - left, size);
  const height = Math.max(BOX + 1.2, lines.length * size * PITCH + 0.8);
  ensureRoom(flow, height);
  const draft = getPageDraft(flow);
  addBox(draft, { x: getLeft(), y: flow.y - BOX - 0.3 }, BOX);
  for (const [index, line] of lines.entries()) {
    addText(draft, { x: left, y: flow.y - (index + 1) * size * PITCH + 0.4 }, line, { size });
  }
  flow.y -= height;
}

/** Rows to write in what came out. */
function addFirstPiece(flow: Flow, context: SheetContext): void {
  const line = '__________';
  addHeading(flow, 'First piece');
  addTable(
    flow,
    [
      { title: 'part', weight: 'semibold' },
      { title: 'wanted: length × height × thickness, allowances on' },
      { title: 'length' },
      { title: 'height' },
      { title: 'thickness' },
      { title: 'bow after release' },
      { title: 'rib snapped with', flexible: true },
    ],
    context.plan.parts.map((part) => {
      const allowance = part.allowance ?? context.plan.allowance;
      const rough = [
        part.length + allowance.leftEnd + allowance.rightEnd,
        part.height + allowance.top + allowance.bottom,
        part.thickness + allowance.fixedSide + allowance.movingSide,
      ];
      return [part.name, rough.map((mm) => getBothText(context, mm)).join(' × '), line, line, line, line, line];
    }),
    { mostLines: 2 },
  );
}

/** Beside the worst case, which the findings judge. */
function addChance(flow: Flow, context: SheetContext): void {
  const { chance } = context.evaluation;
  if (chance === null) return;
  const say = (figure: Figure): string => getQuantityText(context, figure.value, figure.kind);
  addHeading(flow, 'Chance beside the worst case');
  addTable(
    flow,
    [
      { title: 'met', weight: 'semibold' },
      { title: 'chance', align: 'end' },
      { title: 'what varies', flexible: true },
    ],
    [
      ['grip', say(chance.grip), getSpreadText(context, chance.grip)],
      ['allowance', say(chance.allowance), getSpreadText(context, chance.allowance)],
      ['hold', say(chance.hold), getSpreadText(context, chance.hold)],
      ['all three', say(chance.all), ''],
      ['hold factor in 19 jobs of 20', say(chance.holdFactorLow), ''],
    ],
    { size: FLOW_TEXT.small },
  );
  addParagraph(
    flow,
    'An estimate that rests on these spreads, which the shop may change; it replaces no check above.',
    {
      size: FLOW_TEXT.small,
    },
  );
}

function getSpreadText(context: SheetContext, figure: Figure): string {
  return figure.why.inputs
    .map(({ name, value, kind }) => `${name} ${getQuantityText(context, value, kind)}`)
    .join('; ');
}

function addFindings(flow: Flow, context: SheetContext): void {
  const open = context.evaluation.findings.filter((finding) => !finding.accepted);
  addHeading(flow, 'Findings');
  if (open.length === 0) {
    addParagraph(flow, 'No open finding.');
  }
  for (const finding of open) {
    addFinding(flow, finding);
  }
  addHeading(flow, 'Accepted findings, as they stood');
  if (context.plan.accepted.length === 0) {
    addParagraph(flow, 'None.');
    return;
  }
  addTable(
    flow,
    [{ title: 'finding', flexible: true }, { title: 'accepted by' }, { title: 'on' }],
    context.plan.accepted.map((row) => [row.sentence, row.by || '____________', row.date || '____________']),
  );
}

const SEVERITY_WORDS = { stop: 'STOP', check: 'CHECK', note: 'note' } as const;

/** Names what the printed sheet shows a box for, so that nothing is lost without a word. */
function addMissingSigns(flow: Flow, { plan }: SheetContext): void {
  const fields = findFieldSigns(plan);
  if (fields.length === 0) return;
  addHeading(flow, 'Signs that the fonts of this sheet lack');
  addParagraph(flow, 'A box stands in their place.');
  for (const { field, signs } of fields) addParagraph(flow, `${field}: ${signs.map(getSignText).join(', ')}`);
}

/** What has to be settled stands out; a note is there to be looked up. */
const FINDING_LOOKS = {
  stop: { size: FLOW_TEXT.text, weight: 'semibold', gap: 1.4 },
  check: { size: FLOW_TEXT.text, weight: 'semibold', gap: 1.4 },
  note: { size: FLOW_TEXT.small, weight: 'regular', gap: 0.3 },
} as const;

function addFinding(flow: Flow, { severity, sentence, detail }: Finding): void {
  const { size, weight, gap } = FINDING_LOOKS[severity];
  const left = getLeft() + 18;
  const room = getRight(flow) - left;
  const lines = [
    ...wrapText(sentence, room, size, weight, 5).map((text) => ({ text, weight })),
    ...(detail ? wrapText(detail, room, size, 'regular', 4).map((text) => ({ text, weight: 'regular' as const })) : []),
  ];
  const height = lines.length * size * PITCH + gap;
  ensureRoom(flow, height);
  const draft = getPageDraft(flow);
  addSeverityMark(draft, { x: getLeft() + 2, y: flow.y - size * PITCH + 1.4 }, severity, size * 1.4, null);
  addText(draft, { x: getLeft() + 5, y: flow.y - size * PITCH + 0.4 }, SEVERITY_WORDS[severity], {
    size: FLOW_TEXT.small,
    weight: 'semibold',
  });
  for (const [index, line] of lines.entries()) {
    addText(draft, { x: left, y: flow.y - (index + 1) * size * PITCH + 0.4 }, line.text, { size, weight: line.weight });
  }
  flow.y -= height;
}
