import { getWorkings, type Working } from '../../evaluate/workings';
import { getWorkingText, type TextLook } from '../../evaluate/workings-text';
import { addText } from '../draft';
import { getTextWidth, wrapText } from '../text-width';
import { addHeading, ensureRoom, FLOW_TEXT, type Flow, getLeft, getPageDraft, getRight, startPage } from './flow';
import type { SheetContext } from './sheet-context';

const PITCH = 1.62;
const INDENT = 4;
/** Room between one number and the next, mm. */
const GAP = 1.1;
const MOST_LINES = 6;

/** Every figure with its formula, the numbers filled in, and its source: the same text as the page shows. */
export function addWorkingsSection(flow: Flow, context: SheetContext): void {
  const look: TextLook = { units: context.units, currency: context.shop.currency };
  startPage(flow, 'Workings');
  for (const topic of getWorkings(context.plan, context.evaluation, look)) {
    addHeading(flow, topic.title, 8);
    for (const working of topic.workings) addWorking(flow, working, look);
  }
}

function addWorking(flow: Flow, working: Working, look: TextLook): void {
  const size = FLOW_TEXT.small;
  const left = getLeft() + INDENT;
  const room = getRight(flow) - left;
  const text = getWorkingText(working.why, look);
  const lines = [
    text.rule,
    text.formula,
    text.filled,
    text.inputs.map(([name, value]) => `${name} ${value}`).join('; '),
    `Source: ${text.source}`,
  ]
    .filter((line) => line !== '')
    .flatMap((line) => wrapText(line, room, size, 'regular', MOST_LINES));
  const headPitch = FLOW_TEXT.text * PITCH;
  ensureRoom(flow, headPitch + lines.length * size * PITCH + GAP);
  const draft = getPageDraft(flow);
  flow.y -= headPitch;
  addText(draft, { x: getLeft(), y: flow.y }, working.title, { size: FLOW_TEXT.text, weight: 'semibold' });
  const value = getFitting(
    working.value,
    getRight(flow) - getLeft() - getTextWidth(working.title, FLOW_TEXT.text, 'semibold') - 4,
  );
  addText(draft, { x: getRight(flow), y: flow.y }, value, {
    size: FLOW_TEXT.text,
    weight: 'semibold',
    anchor: 'end',
  });
  for (const line of lines) {
    flow.y -= size * PITCH;
    addText(draft, { x: left, y: flow.y }, line, { size });
  }
  flow.y -= GAP;
}

function getFitting(text: string, room: number): string {
  return wrapText(text, Math.max(10, room), FLOW_TEXT.text, 'semibold', 1)[0] ?? '';
}
