import type { View } from '../../shared/drawing/marks';
import type { Bounds } from '../../shared/drawing/sinks/bounds';
import { type BenchSubject, buildBenchView, type ViewLook } from './bench-model';
import { type Camera, centreOn, type Size } from './camera';
import { uniteBounds } from './feature-index';
import { computeFitScale } from './fit';
import {
  type Blocks,
  computeBlocks,
  computePanes,
  type Division,
  getHeadingHeight,
  type PaneName,
  type Rect,
} from './panes';

/** Where the panes lie and how each view is looked at. */
export interface Arrangement {
  readonly panes: Readonly<Record<PaneName, Rect>>;
  readonly cameras: Readonly<Record<PaneName, Camera>>;
  readonly look: ViewLook;
}

const MARGIN_PX = 6;
/** The plan view shows what the elevation cannot, the width of the parts; it gets no more than this. */
const MOST_PLAN_SHARE = 0.46;
const LEAST_PLAN_SHARE = 0.12;
/** Plan dimensions repeat the elevation's; they are shown where they cost no scale. */
const PLAN_DIMENSIONS_FROM_REM = 58;
/** The views across are not enlarged beyond this against those along. */
const MOST_ENLARGED = 3;

/** Ways to divide the room; the one that shows the views largest is taken. */
const USUAL_DIVISION: Division = { way: 'below', share: 0.56 };
const OTHER_DIVISIONS: readonly Division[] = [
  { way: 'below', share: 0.64 },
  { way: 'beside', share: 0.63 },
];
/** What a view's scale counts for: the views along the bar are where the work is done. */
const ALONG_WEIGHT = 0.6;

/** Divides the room and sets every view to fill its share. */
export function computeArrangement(
  subject: BenchSubject,
  room: Size,
  remPx: number,
  pxPerPaperMm: number,
): Arrangement {
  const heading = getHeadingHeight(remPx);
  const build: Build = (pane, look, pxPerMm) => buildBenchView(pane, subject, look, pxPerPaperMm / pxPerMm);
  const planDimensions = room.height >= PLAN_DIMENSIONS_FROM_REM * remPx;
  const guess = room.width / USUAL_LENGTH;
  const estimate = createEstimate(build, guess);
  const measure = createMeasure(build);
  const fitDivision = (division: Division, look: ViewLook): DivisionFit => {
    const blocks = computeBlocks(room, remPx, division);
    const along = fitAlong(estimate, blocks, heading, look, guess);
    return { blocks, along, across: fitAcross(estimate, blocks, heading, along, along.pxPerMm * 1.5) };
  };
  const short: ViewLook = { base: 'bed', planDimensions };
  const best = OTHER_DIVISIONS.map((division) => fitDivision(division, short)).reduce(
    (better, other) => (getMerit(other) > getMerit(better) ? other : better),
    fitDivision(USUAL_DIVISION, short),
  );
  const { blocks } = best;
  // The vises are drawn down to the table where that costs no scale, else cut short.
  const whole = fitAlong(estimate, blocks, heading, { base: 'table', planDimensions }, best.along.pxPerMm);
  const chosen = whole.pxPerMm >= best.along.pxPerMm * 0.97 ? whole : best.along;
  const along = fitAlong(measure, blocks, heading, chosen.look, chosen.pxPerMm);
  const across = fitAcross(measure, blocks, heading, along, best.across.pxPerMm);
  const panes = computePanes(blocks, { plan: along.planShare, stack: across.stackShare }, remPx);
  return {
    panes,
    look: along.look,
    cameras: { ...getAlongCameras(along, panes), ...getAcrossCameras(across, panes) },
  };
}

/** mm across a room that is looked at first; a usual bar in its vises. */
const USUAL_LENGTH = 700;

interface DivisionFit {
  readonly blocks: Blocks;
  readonly along: AlongFit;
  readonly across: AcrossFit;
}

function getMerit({ along, across }: DivisionFit): number {
  return ALONG_WEIGHT * Math.log(along.pxPerMm) + (1 - ALONG_WEIGHT) * Math.log(across.pxPerMm);
}

type Build = (pane: PaneName, look: ViewLook, pxPerMm: number) => View;

/** Bounds of a view at a scale, mm. */
type Measure = (pane: PaneName, look: ViewLook, pxPerMm: number) => Bounds;

function createMeasure(build: Build): Measure {
  const known = new Map<string, Bounds>();
  return (pane, look, pxPerMm) => {
    // How far down the vises are drawn shows in the elevation alone.
    const key = `${pane} ${pane === 'elevation' ? look.base : ''} ${pxPerMm}`;
    const bounds = known.get(key) ?? build(pane, look, pxPerMm).bounds;
    known.set(key, bounds);
    return bounds;
  };
}

/**
 * Bounds from two builds of each view: on the screen every edge lies at a fixed distance, for its texts and arrows, and
 * one that grows with the scale. To build each view for each scale that is tried would hold up the first drawing.
 */
function createEstimate(build: Build, guess: number): Measure {
  const measure = createMeasure(build);
  const [small, large] = [guess * 0.6, guess * 1.8];
  return (pane, look, pxPerMm) => {
    const one = measure(pane, look, small);
    const other = measure(pane, look, large);
    const share = (pxPerMm - small) / (large - small);
    const getEdge = (edge: keyof Bounds): number =>
      (one[edge] * small + (other[edge] * large - one[edge] * small) * share) / pxPerMm;
    return { left: getEdge('left'), right: getEdge('right'), bottom: getEdge('bottom'), top: getEdge('top') };
  };
}

interface AlongFit {
  readonly look: ViewLook;
  readonly pxPerMm: number;
  readonly planShare: number;
  readonly elevation: Bounds;
  readonly plan: Bounds;
}

function fitAlong(measure: Measure, blocks: Blocks, heading: number, look: ViewLook, guess: number): AlongFit {
  const block = blocks.along;
  const least = block.height * LEAST_PLAN_SHARE;
  const most = block.height * MOST_PLAN_SHARE;
  const getPlanHeight = (taken: number): number => Math.min(most, Math.max(least, taken + heading + 2 * MARGIN_PX));
  const room = { width: block.width - 2 * MARGIN_PX, height: block.height - heading - 2 * MARGIN_PX };
  const measureBoth = (pxPerMm: number): Size => {
    const elevation = toPx(measure('elevation', look, pxPerMm), pxPerMm);
    const plan = toPx(measure('plan', look, pxPerMm), pxPerMm);
    return { width: Math.max(elevation.width, plan.width), height: elevation.height + getPlanHeight(plan.height) };
  };
  const pxPerMm = computeFitScale(measureBoth, room, guess);
  const elevation = measure('elevation', look, pxPerMm);
  const plan = measure('plan', look, pxPerMm);
  const planHeight = getPlanHeight(toPx(plan, pxPerMm).height);
  const spare = Math.max(0, room.height - toPx(elevation, pxPerMm).height - planHeight);
  return { look, pxPerMm, elevation, plan, planShare: (planHeight + spare * 0.35) / block.height };
}

function toPx({ left, right, bottom, top }: Bounds, pxPerMm: number): Size {
  return { width: (right - left) * pxPerMm, height: (top - bottom) * pxPerMm };
}

/** One scale and one left edge, so that the plan view lies square below the elevation. */
function getAlongCameras(along: AlongFit, panes: Record<PaneName, Rect>): Pick<Arrangement['cameras'], AlongPane> {
  const bounds = uniteBounds(along.elevation, along.plan);
  const elevation = centreOn({ ...along.elevation, ...getSpanX(bounds) }, panes.elevation, along.pxPerMm);
  const plan = centreOn({ ...along.plan, ...getSpanX(bounds) }, panes.plan, along.pxPerMm);
  return { elevation, plan };
}

interface AcrossFit {
  readonly pxPerMm: number;
  readonly stackShare: number;
  readonly section: Bounds;
  readonly stack: Bounds;
}

function fitAcross(measure: Measure, blocks: Blocks, heading: number, along: AlongFit, guess: number): AcrossFit {
  const block = blocks.across;
  const room = { width: block.width - 4 * MARGIN_PX, height: block.height - heading - 2 * MARGIN_PX };
  const measureBoth = (pxPerMm: number): Size => {
    const section = measure('section', along.look, pxPerMm);
    const stack = measure('stack', along.look, pxPerMm);
    const width = toPx(section, pxPerMm).width + toPx(stack, pxPerMm).width;
    return { width, height: toPx(uniteBounds(section, stack), pxPerMm).height };
  };
  const fitted = computeFitScale(measureBoth, room, guess);
  const pxPerMm = Math.min(fitted, along.pxPerMm * MOST_ENLARGED);
  const section = measure('section', along.look, pxPerMm);
  const stack = measure('stack', along.look, pxPerMm);
  const widths = [toPx(section, pxPerMm).width, toPx(stack, pxPerMm).width] as const;
  const spare = Math.max(0, room.width - widths[0] - widths[1]);
  return { pxPerMm, section, stack, stackShare: (widths[1] + spare / 2 + 2 * MARGIN_PX) / block.width };
}

/** One scale and one upper edge, so that the slices of the stack lie level with the section. */
function getAcrossCameras(across: AcrossFit, panes: Record<PaneName, Rect>): Pick<Arrangement['cameras'], AcrossPane> {
  const { bottom, top } = uniteBounds(across.section, across.stack);
  const section = centreOn({ ...across.section, bottom, top }, panes.section, across.pxPerMm);
  const stack = centreOn({ ...across.stack, bottom, top }, panes.stack, across.pxPerMm);
  return { section, stack };
}

type AlongPane = 'elevation' | 'plan';
type AcrossPane = 'section' | 'stack';

function getSpanX({ left, right }: Bounds): Pick<Bounds, 'left' | 'right'> {
  return { left, right };
}

/** How much smaller than its pane a view may get before it is fitted again. */
const STALE_BELOW = 0.78;

/**
 * True when what is drawn no longer fills its panes or runs out of them. Small changes do not count, or every nudge would
 * rescale the drawing under the user's hand.
 */
export function isStale(arrangement: Arrangement, views: Readonly<Record<PaneName, View>>): boolean {
  const fills: number[] = [];
  for (const pane of ['elevation', 'section', 'stack'] as const) {
    const { bounds } = views[pane];
    const camera = arrangement.cameras[pane];
    const rect = arrangement.panes[pane];
    const right = camera.left + rect.width / camera.pxPerMm;
    const bottom = camera.top - rect.height / camera.pxPerMm;
    const slack = 2 / camera.pxPerMm;
    const isOut =
      bounds.left < camera.left - slack ||
      bounds.right > right + slack ||
      bounds.top > camera.top + slack ||
      bounds.bottom < bottom - slack;
    if (isOut) return true;
    const taken = toPx(bounds, camera.pxPerMm);
    fills.push(Math.max(taken.width / rect.width, taken.height / rect.height));
  }
  return Math.max(...fills) < STALE_BELOW;
}
