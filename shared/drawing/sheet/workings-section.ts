import { getWorkings, type Working } from '../../evaluate/workings';
import { getWorkingText, type TextLook, type WorkingText } from '../../evaluate/workings-text';
import { addText } from '../draft';
import { getTextWidth, wrapText } from '../text-width';
import { addInColumns, type Block, getColumnWidth } from './columns';
import { addRule, FLOW_TEXT, type Flow, getLeft, getRight, startPage } from './flow';
import type { SheetContext } from './sheet-context';

/** A column no narrower than this, mm: formulas seldom break in it. */
const LEAST_COLUMN = 118;
const PITCH = 1.62;
const INDENT = 3;
/** Below a figure, and above the next rule and the next topic, mm. */
const GAPS = { figure: 0.7, rule: 1.4, topic: 3 };
/** Title and value on one line need this much between them, mm. */
const APART = 4;
const MOST_LINES = 8;

/**
 * Every figure with its formula, the numbers filled in, and its source: the same text as the page shows. Figures by one
 * formula stand together under it.
 */
export function addWorkingsSection(flow: Flow, context: SheetContext): void {
  const look: TextLook = { units: context.units, currency: context.shop.currency };
  startPage(flow, 'Workings');
  const columns = Math.max(1, Math.floor((getRight(flow) - getLeft()) / LEAST_COLUMN));
  const width = getColumnWidth(flow, columns);
  const blocks = getWorkings(context.plan, context.evaluation, look).flatMap(({ title, workings }) =>
    getRules(workings, look).flatMap((rule, ruleIndex) =>
      rule.figures.map((figure, index) =>
        buildBlock(
          [
            ...(ruleIndex === 0 && index === 0 ? getTopicLines(title, width) : []),
            ...(index === 0 ? getRuleLines(rule, width) : []),
            ...getFigureLines(figure, width),
          ],
          width,
        ),
      ),
    ),
  );
  addInColumns(flow, blocks, columns);
}

interface RuleWithFigures {
  text: WorkingText;
  figures: { working: Working; text: WorkingText }[];
}

/** Workings by what they have in common, in the order in which each rule is first met. */
function getRules(workings: readonly Working[], look: TextLook): RuleWithFigures[] {
  const rules = new Map<string, RuleWithFigures>();
  for (const working of workings) {
    const text = getWorkingText(working.why, look);
    const key = JSON.stringify([text.rule, text.formula, text.source]);
    const rule = rules.get(key) ?? { text, figures: [] };
    rule.figures.push({ working, text });
    rules.set(key, rule);
  }
  return [...rules.values()];
}

interface Line {
  /** Above the line, mm. */
  gap: number;
  size: number;
  left: string;
  /** At the right edge. */
  right: string;
  indent: number;
  weight: 'regular' | 'semibold';
  isRuled: boolean;
}

const PLAIN: Omit<Line, 'left'> = {
  gap: 0,
  size: FLOW_TEXT.small,
  right: '',
  indent: 0,
  weight: 'regular',
  isRuled: false,
};

function getTopicLines(title: string, width: number): Line[] {
  const look = { ...PLAIN, size: FLOW_TEXT.heading, weight: 'semibold' } as const;
  return wrapLines(title, look, width).map((line, index, all) => ({
    ...line,
    gap: index === 0 ? GAPS.topic : 0,
    isRuled: index === all.length - 1,
  }));
}

function getRuleLines({ text }: RuleWithFigures, width: number): Line[] {
  return [text.rule, text.formula, `Source: ${text.source}`]
    .filter((line) => line !== '')
    .flatMap((line) => wrapLines(line, PLAIN, width))
    .map((line, index) => ({ ...line, gap: index === 0 ? GAPS.rule : 0 }));
}

function getFigureLines({ working, text }: RuleWithFigures['figures'][number], width: number): Line[] {
  const head = { ...PLAIN, indent: INDENT, weight: 'semibold' } as const;
  const room = width - INDENT - APART - getTextWidth(working.value, head.size, head.weight);
  const isBeside = getTextWidth(working.title, head.size, head.weight) <= room;
  const heads = isBeside
    ? [{ ...head, left: working.title, right: working.value }]
    : [working.title, working.value].flatMap((line) => wrapLines(line, head, width));
  const inputs = text.inputs.map(([name, value]) => `${name} ${value}`).join('; ');
  return [
    ...heads.map((line, index) => ({ ...line, gap: index === 0 ? GAPS.figure : 0 })),
    ...[text.filled, inputs]
      .filter((line) => line !== '')
      .flatMap((line) => wrapLines(line, { ...PLAIN, indent: 2 * INDENT }, width)),
  ];
}

function wrapLines(text: string, look: Omit<Line, 'left'>, width: number): Line[] {
  return wrapText(text, width - look.indent, look.size, look.weight, MOST_LINES).map((left) => ({ ...look, left }));
}

function getLineHeight({ gap, size, isRuled }: Line): number {
  return gap + size * PITCH + (isRuled ? 1 : 0);
}

function buildBlock(lines: readonly Line[], width: number): Block {
  return {
    height: lines.reduce((sum, line) => sum + getLineHeight(line), 0),
    draw: (draft, x, top) => {
      let y = top;
      for (const line of lines) {
        const { size, weight } = line;
        y -= line.gap + size * PITCH;
        addText(draft, { x: x + line.indent, y }, line.left, { size, weight });
        if (line.right !== '') addText(draft, { x: x + width, y }, line.right, { size, weight, anchor: 'end' });
        if (!line.isRuled) continue;
        y -= 1;
        addRule(draft, { left: x, right: x + width, y }, 'narrow');
      }
    },
  };
}
