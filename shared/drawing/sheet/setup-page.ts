import type { Evaluation } from '../../evaluate';
import type { Plan } from '../../model/plan';
import type { Shop } from '../../model/shop';
import { addText, type Draft } from '../draft';
import type { View } from '../marks';
import { getPaperSize, placeView } from '../place-view';
import { buildElevation } from '../views/elevation';
import { buildEndSection, getSectionX } from '../views/end-section';
import { NOTHING_TO_DRAW } from '../views/options';
import { buildStack } from '../views/stack-view';
import {
  addCaptionedView,
  addParagraph,
  CAPTION,
  createFlow,
  FLOW_TEXT,
  type Flow,
  getBottom,
  getLeft,
  getPageDraft,
  getRight,
  startPage,
} from './flow';
import { findFieldSigns } from './missing-signs';
import type { Paper } from './papers';
import { getScaleText, type Room, SCALE_SERIES } from './scales';
import { addSetupPanel } from './setup-panel';
import type { SheetContext } from './sheet-context';

export interface SetupScale {
  /** Drawing mm to a mm of paper for the end section and the stack, or for the elevation; chosen when null or left out. */
  section?: number | null;
  elevation?: number | null;
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

/** The scales that page one takes where none is asked for. */
export function getAutoScales(
  plan: Plan,
  evaluation: Evaluation,
  shop: Shop,
  paper: Paper,
): Record<keyof SetupScale, number> {
  const flow = createFlow(paper, plan.units);
  startPage(flow, 'Setup');
  const { section, elevation } = getArrangement({ plan, evaluation, shop, units: plan.units }, getRoom(flow), {});
  return { section: section.mmPerPaperMm, elevation: elevation.mmPerPaperMm };
}

function getRoom(flow: Flow): Room {
  return { width: getRight(flow) - getLeft(), height: flow.y - getBottom() };
}

/**
 * Page one: the end section and the stack side by side, what to set, and the elevation below.
 *
 * @returns names of the lines to set for which there was no room
 */
export function addSetupPage(flow: Flow, context: SheetContext, scale: SetupScale): string[] {
  startPage(flow, 'Setup');
  const draft = getPageDraft(flow);
  if (context.evaluation.blanks.length === 0) {
    return addEmptySetup(flow, draft, context);
  }
  const arrangement = getArrangement(context, getRoom(flow), scale);
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
  const note = [getScaleNote(context, arrangement, scale), getSignNote(context)].filter(Boolean).join('; ');
  addText(page, { x: getRight(flow), y: flow.y - 3 }, note, { size: FLOW_TEXT.small, anchor: 'end' });
  flow.y -= elevation + GAP;
  return unsaid;
}

/** Nothing can be drawn yet: what can be said of the setup takes the whole width. */
function addEmptySetup(flow: Flow, draft: Draft, context: SheetContext): string[] {
  addParagraph(flow, NOTHING_TO_DRAW, { weight: 'semibold', size: FLOW_TEXT.heading });
  flow.y -= GAP;
  const box = { left: getLeft(), right: getRight(flow), top: flow.y, bottom: getBottom() };
  const unsaid = addSetupPanel(draft, context, box);
  flow.y = getBottom();
  return unsaid;
}

/** Says which scale was asked for and could not be had; '' when each was. */
function getScaleNote({ paper }: SheetContext, { section, elevation }: Arrangement, wanted: SetupScale): string {
  const isMissed = (asked: number | null | undefined, view: View): asked is number =>
    asked !== null && asked !== undefined && asked !== view.mmPerPaperMm;
  const missed = [
    isMissed(wanted.section, section) ? `section ${getScaleText(wanted.section)}` : '',
    isMissed(wanted.elevation, elevation) ? `elevation ${getScaleText(wanted.elevation)}` : '',
  ].filter((text) => text !== '');
  return missed.length === 0 ? '' : `too large for ${paper.name}: ${missed.join(', ')}`;
}

function getSignNote({ plan }: SheetContext): string {
  return findFieldSigns(plan).length === 0 ? '' : 'for signs shown as a box see the findings';
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

type DrawnPlan = Pick<SheetContext, 'plan' | 'evaluation' | 'shop' | 'units'>;

/** The pair of scales, and whether the table is drawn, that shows most while everything fits on the page. */
function getArrangement(context: DrawnPlan, room: Room, wanted: SetupScale): Arrangement {
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
  const sections = getOffered(wanted.section, series, (scale) => fitsAlone(getUpper(scale), room));
  const elevations = getOffered(wanted.elevation, series, (scale) =>
    getLower(scale).some((view) => fitsOwnPage(view, room)),
  );
  const pairs = sections
    .flatMap((section) => elevations.map((elevation) => ({ section, elevation })))
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

/** The scale asked for where the paper holds it, else those that show less: a picture never runs off the page. */
function getOffered(
  wanted: number | null | undefined,
  series: readonly number[],
  isHeld: (scale: number) => boolean,
): readonly number[] {
  if (wanted === null || wanted === undefined) return series;
  if (isHeld(wanted)) return [wanted];
  const smaller = series.filter((scale) => scale > wanted);
  return smaller.length > 0 ? smaller : series;
}

function fitsAlone({ section, stack }: Omit<Arrangement, 'elevation'>, room: Room): boolean {
  const width = getPaperSize(section).width + GAP + getPaperSize(stack).width + GAP + LEAST_PANEL;
  return width <= room.width && getUpperHeight(section, stack) <= room.height;
}

function fitsOwnPage(elevation: View, room: Room): boolean {
  const size = getPaperSize(elevation);
  return size.width <= room.width && size.height + CAPTION <= room.height;
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

function fits({ section, stack, elevation }: Arrangement, room: Room): boolean {
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
  room: Room,
): Arrangement {
  const sections = [...new Set(pairs.map((pair) => pair.section))];
  const elevations = [...new Set(pairs.map((pair) => pair.elevation))].flatMap(getLower);
  const upper = sections.map(getUpper).find((each) => fitsAlone(each, room));
  const elevation = elevations.find((view) => fitsOwnPage(view, room));
  const lastUpper = getUpper(sections.at(-1) ?? 1);
  return { ...(upper ?? lastUpper), elevation: elevation ?? elevations.at(-1) ?? lastUpper.section };
}
