import type { Part } from '../model/plan';
import { formatLength } from '../units/format';
import { getEndMargins, getGap, type LaidPart } from './blank-length';
import type { EngineContext } from './context';
import { SAME_LENGTH } from './rounding';

type NextPlaced = { part: Part | null; x: number; slot: { mirrored: boolean } } | undefined;

/** What a part wants of its right-hand neighbour and does not get, in words; undefined when well. */
export function getNeighbourClash(
  context: EngineContext,
  partingWidth: number,
  laid: LaidPart,
  xEnd: number,
  next: NextPlaced,
): string | undefined {
  if (next === undefined || next.part === null) return undefined;
  const need = getGap(context, partingWidth, laid, { part: next.part, mirrored: next.slot.mirrored });
  const gap = next.x - xEnd;
  if (gap >= need - SAME_LENGTH) return undefined;
  const show = (mm: number): string => formatLength(mm, context.units, { unit: true });
  return gap < 0
    ? `runs ${show(-gap)} into ${next.part.name}; ${show(need)} is needed between them.`
    : `${show(gap)} to ${next.part.name}, and ${show(need)} is needed between them.`;
}

/** What a part wants of the ends of its blank and does not get, in words; undefined when well. */
export function getEndClash(
  context: EngineContext,
  laid: LaidPart,
  at: { x: number; xEnd: number; length: number },
): string | undefined {
  const margins = getEndMargins(context, laid, laid);
  const shortLeft = margins.left - at.x;
  const shortRight = margins.right - (at.length - at.xEnd);
  const show = (mm: number): string => formatLength(mm, context.units, { unit: true });
  if (shortLeft > SAME_LENGTH) return `${show(shortLeft)} too near the left end of the blank.`;
  if (shortRight > SAME_LENGTH) return `${show(shortRight)} too near the right end of the blank.`;
  return undefined;
}
