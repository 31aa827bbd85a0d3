import type { LengthUnits } from '../../units/length-units';
import { addLine, addPath, addText, createDraft, type Draft, type TextLook } from '../draft';
import type { Mark, Point, View } from '../marks';
import { getRectangle } from '../paths';
import { getPaperSize, placeView } from '../place-view';
import { fitText, wrapText } from '../text-width';
import type { SheetPage } from './page';
import type { Paper } from './papers';
import { getScaleText } from './scales';

/** Edges of a page, mm of paper. The head and the foot are filled once all pages are known. */
export const PAGE_MARGIN = 10;
export const FIRST_HEAD = 19;
export const NEXT_HEAD = 9;
export const FOOT = 12;
const BELOW_HEAD = 3;

/** Letter heights used in running text, mm. */
export const FLOW_TEXT = { heading: 3.2, text: 2.2, small: 1.8 } as const;
const LINE_PITCH = 1.75;

/** Pages being filled from the top down. */
export interface Flow {
  readonly paper: Paper;
  readonly units: LengthUnits;
  readonly pages: SheetPage[];
  /** Y of the next free line on the last page. */
  y: number;
}

export function createFlow(paper: Paper, units: LengthUnits): Flow {
  return { paper, units, pages: [], y: 0 };
}

export function getLeft(): number {
  return PAGE_MARGIN;
}

export function getRight(flow: Flow): number {
  return flow.paper.width - PAGE_MARGIN;
}

export function getBottom(): number {
  return PAGE_MARGIN + FOOT;
}

export function getTop(flow: Flow): number {
  const head = flow.pages.length <= 1 ? FIRST_HEAD : NEXT_HEAD;
  return flow.paper.height - PAGE_MARGIN - head - BELOW_HEAD;
}

/** What a page after the first holds, mm. */
export function getPageRoom(paper: Paper): { width: number; height: number } {
  return {
    width: paper.width - 2 * PAGE_MARGIN,
    height: paper.height - 2 * PAGE_MARGIN - NEXT_HEAD - BELOW_HEAD - FOOT,
  };
}

/** Starts a page; its name is what the file's outline shows. */
export function startPage(flow: Flow, name: string): SheetPage {
  const { width, height } = flow.paper;
  const page: SheetPage = { name, sections: [name], width, height, marks: [] };
  flow.pages.push(page);
  flow.y = getTop(flow);
  return page;
}

/** Stands between the names of sections that share a page. */
const SHARED_NAME = ' · ';

/** A section begins on a page of its own unless this share of one is still free. */
const SHARED_FROM = 0.33;

/** Starts a section: on the page in hand when enough of it is free, else on a new one. */
export function startSection(flow: Flow, name: string): void {
  const last = flow.pages.at(-1);
  const free = (flow.y - getBottom()) / (getTop(flow) - getBottom());
  if (!last || flow.pages.length <= 1 || free < SHARED_FROM) {
    startPage(flow, name);
    return;
  }
  last.sections.push(name);
  last.name = `${last.name}${SHARED_NAME}${name}`;
  flow.y -= 2;
}

/** Starts another page when less than `height` is left; returns true when it did. */
export function ensureRoom(flow: Flow, height: number): boolean {
  const last = flow.pages.at(-1);
  if (last && flow.y - height >= getBottom()) {
    return false;
  }
  startContinued(flow);
  return true;
}

/** Starts another page of the section in hand. */
export function startContinued(flow: Flow): void {
  startPage(flow, getContinuedName(flow.pages.at(-1)?.name ?? 'Sheet')).sections = [];
}

function getContinuedName(name: string): string {
  const last = name.split(SHARED_NAME).at(-1) ?? name;
  return last.endsWith(', continued') ? last : `${last}, continued`;
}

/** A draft in mm of paper whose marks go onto the last page. */
export function getPageDraft(flow: Flow): Draft {
  const page = flow.pages.at(-1) ?? startPage(flow, 'Sheet');
  return { ...createDraft(flow.units, 1), marks: page.marks };
}

/** A level line that parts what is above it from what is below. */
export function addRule(
  draft: Draft,
  { left, right, y }: { left: number; right: number; y: number },
  pen: 'hair' | 'narrow' | 'wide',
): void {
  const layer = pen === 'hair' ? 'guide' : 'frame';
  addLine(
    draft,
    layer,
    [
      { x: left, y },
      { x: right, y },
    ],
    { pen },
  );
}

/** A heading with a line below it, kept together with `following` mm of what it heads. */
export function addHeading(flow: Flow, text: string, following = 30): void {
  const isAtTop = ensureRoom(flow, following + 12) || flow.y >= getTop(flow) - 0.01;
  flow.y -= isAtTop ? 0 : 2.5;
  const draft = getPageDraft(flow);
  flow.y -= FLOW_TEXT.heading + 1.6;
  addText(
    draft,
    { x: getLeft(), y: flow.y },
    fitText(text, getRight(flow) - getLeft(), FLOW_TEXT.heading, 'semibold'),
    {
      size: FLOW_TEXT.heading,
      weight: 'semibold',
    },
  );
  flow.y -= 1.8;
  addRule(draft, { left: getLeft(), right: getRight(flow), y: flow.y }, 'narrow');
  flow.y -= 2;
}

export interface ParagraphOptions extends TextLook {
  mostLines?: number;
  indent?: number;
}

/** Text wrapped to the width of the page. */
export function addParagraph(flow: Flow, text: string, options: ParagraphOptions = {}): void {
  const size = options.size ?? FLOW_TEXT.text;
  const left = getLeft() + (options.indent ?? 0);
  for (const line of wrapText(text, getRight(flow) - left, size, options.weight, options.mostLines)) {
    const pitch = size * LINE_PITCH;
    ensureRoom(flow, pitch);
    flow.y -= pitch;
    addText(getPageDraft(flow), { x: left, y: flow.y }, line, { ...options, size });
  }
  flow.y -= size * 0.7;
}

export function addGap(flow: Flow, height: number): void {
  flow.y -= height;
}

/** A text block in a box of its own; returns the Y below it. */
export function addTextBlock(
  draft: Draft,
  at: Point,
  width: number,
  text: string,
  look: TextLook & { mostLines?: number } = {},
): number {
  const size = look.size ?? FLOW_TEXT.text;
  let y = at.y;
  for (const line of wrapText(text, width, size, look.weight, look.mostLines ?? 4)) {
    y -= size * LINE_PITCH;
    addText(draft, { x: at.x, y }, line, { ...look, size });
  }
  return y;
}

/** A box to tick, its lower left corner given. */
export function addBox(draft: Draft, at: Point, size: number): void {
  addPath(draft, 'frame', getRectangle(at.x, at.y, at.x + size, at.y + size), { pen: 'narrow', fill: 'paper' });
}

/** Height of the line that names a view and its scale. */
export const CAPTION = 6;

/** Sets a view with its title and scale above it. `at` is the upper left corner; returns the size taken. */
export function addCaptionedView(
  marks: Mark[],
  draft: Draft,
  view: View,
  at: Point,
  title = view.title,
): { width: number; height: number } {
  const size = getPaperSize(view);
  addText(draft, { x: at.x, y: at.y - 3 }, `${title}   ${getScaleText(view.mmPerPaperMm)}`, {
    size: FLOW_TEXT.text,
    weight: 'semibold',
  });
  marks.push(...placeView(view, at.x, at.y - CAPTION - size.height));
  return { width: size.width, height: size.height + CAPTION };
}
