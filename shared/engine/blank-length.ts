import type { PerFace } from '../model/faces';
import type { Part } from '../model/plan';
import { type EngineContext, getAllowance } from './context';

/** A part as it lies on a blank: a mirrored one has its left end to the right. */
export interface LaidPart {
  readonly part: Part;
  readonly mirrored: boolean;
}

/** Allowances at the two ends as the part lies, mm. */
export function getEndAllowances(
  context: EngineContext,
  { part, mirrored }: LaidPart,
): { left: number; right: number } {
  const allowance: PerFace<number> = getAllowance(context, part);
  return mirrored
    ? { left: allowance.rightEnd, right: allowance.leftEnd }
    : { left: allowance.leftEnd, right: allowance.rightEnd };
}

/**
 * Width of what passes between two parts on one blank, mm: the largest tool that mills the sides; without one the parts
 * are taken to be sawn apart, so the saw's kerf.
 */
export function getPartingWidth(context: EngineContext): number {
  const diameters = context.plan.cuts
    .filter((cut) => cut.kind === 'side' || cut.kind === 'slot')
    .map((cut) => context.toolById.get(cut.toolId)?.diameter ?? 0);
  const widest = Math.max(0, ...diameters);
  return widest > 0 ? widest : (context.saw?.kerf ?? 0);
}

/** Least gap between two finished parts: the tool between them, both allowances and the shop's extra gap, mm. */
export function getGap(context: EngineContext, partingWidth: number, left: LaidPart, right: LaidPart): number {
  const extra = Math.max(0, context.rules.gangGap);
  return partingWidth + getEndAllowances(context, left).right + getEndAllowances(context, right).left + extra;
}

/** Metal from the blank's ends to the finished parts: cleanup of the sawn end and the end's allowance, mm. */
export function getEndMargins(
  context: EngineContext,
  first: LaidPart,
  last: LaidPart,
): { left: number; right: number } {
  const { cleanup } = context.plan;
  return {
    left: Math.max(0, cleanup.leftEnd) + getEndAllowances(context, first).left,
    right: Math.max(0, cleanup.rightEnd) + getEndAllowances(context, last).right,
  };
}

/**
 * Sawn length of a blank with so many of one part in a row:
 * `n L + (n - 1) gap + end margins + what the saw may cut short`.
 *
 * @param count n, 1 or more
 * @returns mm
 */
export function getGangLength(context: EngineContext, partingWidth: number, part: Part, count: number): number {
  const laid: LaidPart = { part, mirrored: false };
  const margins = getEndMargins(context, laid, laid);
  const gap = getGap(context, partingWidth, laid, laid);
  return count * part.length + (count - 1) * gap + margins.left + margins.right + getSawShortfall(context);
}

/** What a sawn blank may be under its length, mm. */
export function getSawShortfall(context: EngineContext): number {
  return Math.max(0, context.saw?.lengthMinus ?? 0);
}
