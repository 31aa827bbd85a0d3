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
  const build = (pane: PaneName, look: ViewLook, pxPerMm: number): View =>
    buildBenchView(pane, subject, look, pxPerPaperMm / pxPerMm);
  const planDimensions = room.height >= PLAN_DIMENSIONS_FROM_REM * remPx;
  const fitDivision = (division: Division) => {
    const blocks = computeBlocks(room, remPx, division);
    const along = fitAlong(build, blocks, heading, planDimensions);
    return { blocks, along, across: fitAcross(build, blocks, heading, along) };
  };
  const { blocks, along, across } = OTHER_DIVISIONS.map(fitDivision).reduce(
    (best, other) => (getMerit(other) > getMerit(best) ? other : best),
    fitDivision(USUAL_DIVISION),
  );
  const panes = computePanes(blocks, { plan: along.planShare, stack: across.stackShare }, remPx);
  return {
    panes,
    look: along.look,
    cameras: { ...getAlongCameras(along, panes), ...getAcrossCameras(across, panes) },
  };
}

function getMerit({ along, across }: { along: AlongFit; across: AcrossFit }): number {
  return ALONG_WEIGHT * Math.log(along.pxPerMm) + (1 - ALONG_WEIGHT) * Math.log(across.pxPerMm);
}

type Build = (pane: PaneName, look: ViewLook, pxPerMm: number) => View;

interface AlongFit {
  readonly look: ViewLook;
  readonly pxPerMm: number;
  readonly planShare: number;
  readonly elevation: View;
  readonly plan: View;
}

/** The vises are drawn down to the table where that costs no scale, else cut short. */
function fitAlong(build: Build, blocks: Blocks, heading: number, planDimensions: boolean): AlongFit {
  const whole = fitLook(build, blocks, heading, { base: 'table', planDimensions });
  const short = fitLook(build, blocks, heading, { base: 'bed', planDimensions });
  return whole.pxPerMm >= short.pxPerMm * 0.97 ? whole : short;
}

function fitLook(build: Build, blocks: Blocks, heading: number, look: ViewLook): AlongFit {
  const block = blocks.along;
  const least = block.height * LEAST_PLAN_SHARE;
  const most = block.height * MOST_PLAN_SHARE;
  const getPlanHeight = (taken: number): number => Math.min(most, Math.max(least, taken + heading + 2 * MARGIN_PX));
  const room = { width: block.width - 2 * MARGIN_PX, height: block.height - heading - 2 * MARGIN_PX };
  const measure = (pxPerMm: number): Size => {
    const elevation = measureView(build('elevation', look, pxPerMm), pxPerMm);
    const plan = measureView(build('plan', look, pxPerMm), pxPerMm);
    return { width: Math.max(elevation.width, plan.width), height: elevation.height + getPlanHeight(plan.height) };
  };
  const pxPerMm = computeFitScale(measure, room, room.width / 700);
  const elevation = build('elevation', look, pxPerMm);
  const plan = build('plan', look, pxPerMm);
  const planHeight = getPlanHeight(measureView(plan, pxPerMm).height);
  const spare = Math.max(0, room.height - measureView(elevation, pxPerMm).height - planHeight);
  return { look, pxPerMm, elevation, plan, planShare: (planHeight + spare * 0.35) / block.height };
}

function measureView({ bounds }: View, pxPerMm: number): Size {
  return {
    width: (bounds.right - bounds.left) * pxPerMm,
    height: (bounds.top - bounds.bottom) * pxPerMm,
  };
}

/** One scale and one left edge, so that the plan view lies square below the elevation. */
function getAlongCameras(along: AlongFit, panes: Record<PaneName, Rect>): Pick<Arrangement['cameras'], AlongPane> {
  const bounds = uniteBounds(along.elevation.bounds, along.plan.bounds);
  const elevation = centreOn({ ...along.elevation.bounds, ...getSpanX(bounds) }, panes.elevation, along.pxPerMm);
  const plan = centreOn({ ...along.plan.bounds, ...getSpanX(bounds) }, panes.plan, along.pxPerMm);
  return { elevation, plan };
}

interface AcrossFit {
  readonly pxPerMm: number;
  readonly stackShare: number;
  readonly section: View;
  readonly stack: View;
}

function fitAcross(build: Build, blocks: Blocks, heading: number, along: AlongFit): AcrossFit {
  const block = blocks.across;
  const room = { width: block.width - 4 * MARGIN_PX, height: block.height - heading - 2 * MARGIN_PX };
  const measure = (pxPerMm: number): Size => {
    const section = build('section', along.look, pxPerMm);
    const stack = build('stack', along.look, pxPerMm);
    const both = uniteBounds(section.bounds, stack.bounds);
    return {
      width: measureView(section, pxPerMm).width + measureView(stack, pxPerMm).width,
      height: (both.top - both.bottom) * pxPerMm,
    };
  };
  const fitted = computeFitScale(measure, room, along.pxPerMm * 1.5);
  const pxPerMm = Math.min(fitted, along.pxPerMm * MOST_ENLARGED);
  const section = build('section', along.look, pxPerMm);
  const stack = build('stack', along.look, pxPerMm);
  const widths = [measureView(section, pxPerMm).width, measureView(stack, pxPerMm).width] as const;
  const spare = Math.max(0, room.width - widths[0] - widths[1]);
  return { pxPerMm, section, stack, stackShare: (widths[1] + spare / 2 + 2 * MARGIN_PX) / block.width };
}

/** One scale and one upper edge, so that the slices of the stack lie level with the section. */
function getAcrossCameras(across: AcrossFit, panes: Record<PaneName, Rect>): Pick<Arrangement['cameras'], AcrossPane> {
  const { bottom, top } = uniteBounds(across.section.bounds, across.stack.bounds);
  const section = centreOn({ ...across.section.bounds, bottom, top }, panes.section, across.pxPerMm);
  const stack = centreOn({ ...across.stack.bounds, bottom, top }, panes.stack, across.pxPerMm);
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
    const taken = measureView(views[pane], camera.pxPerMm);
    fills.push(Math.max(taken.width / rect.width, taken.height / rect.height));
  }
  return Math.max(...fills) < STALE_BELOW;
}
