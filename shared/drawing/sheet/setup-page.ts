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
const LEAST_PANEL = 58;
/** A larger picture than true size is only asked for when a scale is set. */
const LARGEST = 1;
const SMALLEST = 100;

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
  const elevation = getPaperSize(arrangement.elevation).height + CAPTION;
  // The elevation stands at the foot of the page, so that what is left over goes to the text above it.
  const isOnePage = top - upper.height - GAP - elevation >= getBottom();
  const foot = isOnePage ? getBottom() + elevation + GAP : getBottom();
  const unsaid = addSetupPanel(draft, context, {
    left: getLeft() + upper.width + GAP,
    right: getRight(flow),
    top,
    bottom: foot,
  });
  flow.y = foot - GAP;
  if (!isOnePage) {
    startPage(flow, 'Elevation');
  }
  const page = getPageDraft(flow);
  addCaptionedView(page.marks, page, arrangement.elevation, { x: getLeft(), y: flow.y });
  flow.y -= elevation + GAP;
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
  const series = SCALE_SERIES[units].filter((scale) => scale >= LARGEST && scale <= SMALLEST);
  const getUpper = remember((mmPerPaperMm: number) => ({
    section: buildEndSection(plan, evaluation, shop, { mmPerPaperMm, x }),
    stack: buildStack(plan, evaluation, shop, { mmPerPaperMm }),
  }));
  const getLower = remember((mmPerPaperMm: number) =>
    (['table', 'bed'] as const).map((base) =>
      buildElevation(plan, evaluation, shop, { mmPerPaperMm, base, sectionX: x }),
    ),
  );
  const pairs = (wanted.section === undefined ? series : [wanted.section])
    .flatMap((section) =>
      (wanted.elevation === undefined ? series : [wanted.elevation]).map((elevation) => ({ section, elevation })),
    )
    .toSorted((a, b) => a.section * a.elevation - b.section * b.elevation || a.section - b.section);
  for (const pair of pairs) {
    for (const elevation of getLower(pair.elevation)) {
      const arrangement = { ...getUpper(pair.section), elevation };
      if (fits(arrangement, room)) {
        return arrangement;
      }
    }
  }
  return getFallback(pairs, getUpper, getLower, room);
}

/** A function of a number that works each answer out once. */
function remember<T>(compute: (key: number) => T): (key: number) => T {
  const known = new Map<number, T>();
  return (key) => {
    const value = known.get(key) ?? compute(key);
    known.set(key, value);
    return value;
  };
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

/** Nothing fits on one page: the elevation goes on a page of its own, both as large as they can be there. */
function getFallback(
  pairs: readonly { section: number; elevation: number }[],
  getUpper: (scale: number) => Omit<Arrangement, 'elevation'>,
  getLower: (scale: number) => View[],
  room: { width: number; height: number },
): Arrangement {
  const sections = [...new Set(pairs.map((pair) => pair.section))];
  const elevations = [...new Set(pairs.map((pair) => pair.elevation))].flatMap(getLower);
  const upper = sections.map(getUpper).find(({ section, stack }) => getUpperHeight(section, stack) <= room.height);
  const elevation = elevations.find((view) => {
    const size = getPaperSize(view);
    return size.width <= room.width && size.height + CAPTION <= room.height;
  });
  const lastUpper = getUpper(sections.at(-1) ?? 1);
  return { ...(upper ?? lastUpper), elevation: elevation ?? elevations.at(-1) ?? lastUpper.section };
}
