import { addText, type Draft } from '../draft';
import type { View } from '../marks';
import { getPaperSize, placeView } from '../place-view';
import { buildElevation } from '../views/elevation';
import { buildEndSection, getSectionX } from '../views/end-section';
import { buildStack } from '../views/stack-view';
import {
  addCaptionedView,
  CAPTION,
  FLOW_TEXT,
  type Flow,
  getBottom,
  getLeft,
  getPageDraft,
  getRight,
  startPage,
} from './flow';
import { getScaleText, SCALE_SERIES } from './scales';
import { addSetupPanel } from './setup-panel';
import type { SheetContext } from './sheet-context';

export interface SetupScale {
  /** Drawing mm to a mm of paper for the end section and the stack, or for the elevation; chosen when left out. */
  section?: number;
  elevation?: number;
}

const GAP = 5;
const LEAST_PANEL = 84;
/** A larger picture than true size is only asked for when a scale is set. */
const LARGEST = 1;

interface Arrangement {
  section: View;
  stack: View;
  elevation: View;
}

/**
 * Page one: the end section and the stack side by side, what to set, and the elevation below.
 *
 * @returns names of the lines to set for which there was no room
 */
export function addSetupPage(flow: Flow, context: SheetContext, scale: SetupScale): string[] {
  startPage(flow, 'Setup');
  const draft = getPageDraft(flow);
  const room = { width: getRight(flow) - getLeft(), height: flow.y - getBottom() };
  const arrangement = getArrangement(context, room, scale);
  const top = flow.y;
  const upper = addUpperRow(draft, arrangement, top);
  const unsaid = addSetupPanel(draft, context, {
    left: getLeft() + upper.width + GAP,
    right: getRight(flow),
    top,
    bottom: top - upper.height,
  });
  flow.y = top - upper.height - GAP;
  const elevation = getPaperSize(arrangement.elevation);
  if (flow.y - elevation.height - CAPTION < getBottom()) {
    startPage(flow, 'Elevation');
  }
  const page = getPageDraft(flow);
  const size = addCaptionedView(page.marks, page, arrangement.elevation, { x: getLeft(), y: flow.y });
  flow.y -= size.height + GAP;
  return unsaid;
}

/** Section and stack on one Z, so that a slice is beside what it is. Returns the size taken. */
function addUpperRow(draft: Draft, { section, stack }: Arrangement, top: number): { width: number; height: number } {
  const scale = section.mmPerPaperMm;
  const highest = Math.max(section.bounds.top, stack.bounds.top);
  const lowest = Math.min(section.bounds.bottom, stack.bounds.bottom);
  const yOf = (view: View): number => top - CAPTION - (highest - view.bounds.bottom) / scale;
  const left = getLeft();
  const sectionWidth = getPaperSize(section).width;
  const stackLeft = left + sectionWidth + GAP;
  draft.marks.push(...placeView(section, left, yOf(section)), ...placeView(stack, stackLeft, yOf(stack)));
  const caption = { size: FLOW_TEXT.text, weight: 'semibold' } as const;
  addText(draft, { x: left, y: top - 3 }, `${section.title}   ${getScaleText(scale)}`, caption);
  addText(draft, { x: stackLeft, y: top - 3 }, `${stack.title}   ${getScaleText(scale)}`, caption);
  return {
    width: sectionWidth + GAP + getPaperSize(stack).width,
    height: CAPTION + (highest - lowest) / scale,
  };
}

/** The pair of scales, and whether the table is drawn, that shows most while everything fits on the page. */
function getArrangement(
  context: SheetContext,
  room: { width: number; height: number },
  wanted: SetupScale,
): Arrangement {
  const { plan, evaluation, shop, units } = context;
  const x = getSectionX(plan, evaluation, shop);
  const series = SCALE_SERIES[units].filter((scale) => scale >= LARGEST && scale <= 100);
  const uppers = (wanted.section === undefined ? series : [wanted.section]).map((mmPerPaperMm) => ({
    section: buildEndSection(plan, evaluation, shop, { mmPerPaperMm, x }),
    stack: buildStack(plan, evaluation, shop, { mmPerPaperMm }),
  }));
  const lowers = (wanted.elevation === undefined ? series : [wanted.elevation]).flatMap((mmPerPaperMm) =>
    (['table', 'bed'] as const).map((base) =>
      buildElevation(plan, evaluation, shop, { mmPerPaperMm, base, sectionX: x }),
    ),
  );
  const all = uppers.flatMap((upper) => lowers.map((elevation) => ({ ...upper, elevation })));
  const fitting = all.filter((arrangement) => fits(arrangement, room));
  const best = fitting.toSorted((a, b) => getSmallness(a) - getSmallness(b))[0];
  return best ?? getFallback(all, room);
}

function fits({ section, stack, elevation }: Arrangement, room: { width: number; height: number }): boolean {
  const width = getPaperSize(section).width + GAP + getPaperSize(stack).width + GAP + LEAST_PANEL;
  const height = getUpperHeight(section, stack) + GAP + CAPTION + getPaperSize(elevation).height;
  return width <= room.width && height <= room.height && getPaperSize(elevation).width <= room.width;
}

function getUpperHeight(section: View, stack: View): number {
  const highest = Math.max(section.bounds.top, stack.bounds.top);
  const lowest = Math.min(section.bounds.bottom, stack.bounds.bottom);
  return CAPTION + (highest - lowest) / section.mmPerPaperMm;
}

/** Product of the two scales; among equals the one that shows the table comes first as it was built first. */
function getSmallness({ section, elevation }: Arrangement): number {
  return section.mmPerPaperMm * elevation.mmPerPaperMm;
}

/** Nothing fits on one page: the elevation goes on a page of its own, as large as it can be there. */
function getFallback(all: readonly Arrangement[], room: { width: number; height: number }): Arrangement {
  const last = all.at(-1);
  const found = all.find(
    (arrangement) =>
      getPaperSize(arrangement.elevation).width <= room.width &&
      getPaperSize(arrangement.elevation).height + CAPTION <= room.height &&
      getUpperHeight(arrangement.section, arrangement.stack) <= room.height,
  );
  const arrangement = found ?? last;
  if (!arrangement) {
    throw new RangeError('There is no scale to choose from.');
  }
  return arrangement;
}
