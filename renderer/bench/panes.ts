import type { Size } from './camera';

/** The four views of the Bench. */
export const PANES = ['elevation', 'plan', 'section', 'stack'] as const;

export type PaneName = (typeof PANES)[number];

export interface Rect extends Size {
  readonly left: number;
  readonly top: number;
}

/** The room of the Bench divided: a block for the views along the bar, one for the views across it. */
export interface Blocks {
  readonly along: Rect;
  readonly across: Rect;
}

const LEAST_ROOM_PX = 50;

/** True where there is room enough to draw anything. */
export function isRoomEnough({ width, height }: Size): boolean {
  return width >= LEAST_ROOM_PX && height >= LEAST_ROOM_PX;
}

const HEADING_REM = 1.75;
const GAP_REM = 0.25;

export function getHeadingHeight(remPx: number): number {
  return Math.round(HEADING_REM * remPx);
}

/** How the two blocks lie: `beside` puts the views across to the right, `below` underneath. */
export interface Division {
  readonly way: 'beside' | 'below';
  /** Of the width or the height, for the views along the bar; 0 to 1. */
  readonly share: number;
}

export function computeBlocks(room: Size, remPx: number, { way, share }: Division): Blocks {
  const gap = Math.round(GAP_REM * remPx);
  if (way === 'beside') {
    const width = Math.round(room.width * share);
    return {
      along: { left: 0, top: 0, width, height: room.height },
      across: { left: width + gap, top: 0, width: room.width - width - gap, height: room.height },
    };
  }
  const height = Math.round(room.height * share);
  return {
    along: { left: 0, top: 0, width: room.width, height },
    across: { left: 0, top: height + gap, width: room.width, height: room.height - height - gap },
  };
}

/** How the blocks are shared out among their two views each. */
export interface Shares {
  /** Of the block along: height of the plan view. */
  readonly plan: number;
  /** Of the block across: width of the stack. */
  readonly stack: number;
}

/** Panes without their headings, as the canvases lie. */
export function computePanes(blocks: Blocks, shares: Shares, remPx: number): Record<PaneName, Rect> {
  const { along, across } = blocks;
  const heading = getHeadingHeight(remPx);
  const planHeight = Math.round(along.height * shares.plan);
  const stackWidth = Math.round(across.width * shares.stack);
  const elevation = { ...along, height: along.height - planHeight };
  const plan = { ...along, top: along.top + elevation.height, height: planHeight };
  const section = { ...across, width: across.width - stackWidth };
  const stack = { ...across, left: across.left + section.width, width: stackWidth };
  return {
    elevation: withoutHeading(elevation, heading),
    plan: withoutHeading(plan, heading),
    section: withoutHeading(section, heading),
    stack: withoutHeading(stack, heading),
  };
}

function withoutHeading(rect: Rect, heading: number): Rect {
  return { ...rect, top: rect.top + heading, height: Math.max(1, rect.height - heading) };
}

/** The pointer over what is dragged along an axis. */
export const PANE_AXES_CURSOR = { X: 'ew-resize', Z: 'ns-resize' } as const;
