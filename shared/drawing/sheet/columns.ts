import type { Draft } from '../draft';
import { type Flow, getBottom, getLeft, getPageDraft, getRight, startContinued } from './flow';

/** Something that is not torn apart, such as a formula with its numbers. */
export interface Block {
  /** mm of paper. */
  height: number;
  draw: (draft: Draft, left: number, top: number) => void;
}

/** Between one column and the next, mm. */
const COLUMN_GAP = 8;

/** Width of each of so many columns, mm. */
export function getColumnWidth(flow: Flow, count: number): number {
  return (getRight(flow) - getLeft() - COLUMN_GAP * (count - 1)) / count;
}

/** Sets blocks in columns, each filled down to the foot before the next is begun, page after page. */
export function addInColumns(flow: Flow, blocks: readonly Block[], count: number): void {
  const pitch = getColumnWidth(flow, count) + COLUMN_GAP;
  let column = 0;
  let top = flow.y;
  let lowest = top;
  for (const { height, draw } of blocks) {
    if (flow.y - height < getBottom() && flow.y < top) {
      column += 1;
      flow.y = top;
    }
    if (column === count || flow.y - height < getBottom()) {
      startContinued(flow);
      column = 0;
      top = flow.y;
      lowest = top;
    }
    draw(getPageDraft(flow), getLeft() + column * pitch, flow.y);
    flow.y -= height;
    lowest = Math.min(lowest, flow.y);
  }
  flow.y = lowest;
}
