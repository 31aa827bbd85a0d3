import { getAcrossNeed, getPlacedShort } from '../engine/across';
import type { LaidBlank } from '../engine/layout';
import type { SectionResult } from '../engine/results';
import { SAME_LENGTH } from '../engine/rounding';
import { getGripAsked } from '../engine/stack';
import { getClassBow } from '../engine/straightness';
import type { Part } from '../model/plan';
import { formatLength } from '../units/format';
import type { PlanJob } from './plan-job';

/** Whether a bar takes the stack and the width, at nominal size and at its smallest. */
export interface Fit {
  fitsNominal: boolean;
  fitsWorst: boolean;
  reason: string;
  gripLeast: number;
  shortBy: number;
}

/** Fits the plan's blanks into a section: height with the grip asked, thickness, vise opening. */
export function getFit(job: PlanJob, section: SectionResult, blanks: readonly LaidBlank[]): Fit {
  const { context } = job;
  const { tallestNeed: need, longestByPart } = job.layouts.get(blanks);
  const gripAsked = getGripAsked(context, section);
  const acrossNeed = getWidestNeed(job, section, longestByPart);
  const heightShort = (height: number): number => Math.max(0, need + gripAsked - height);
  const acrossShort = (thickness: number): number =>
    Math.max(
      0,
      acrossNeed - thickness,
      ...context.parts.map((part) => getPlacedShort(context, section, part, thickness)),
    );
  const opening = context.vise?.maxOpening ?? 0;
  const overOpening = opening > 0 ? Math.max(0, section.thickness.most - opening) : 0;
  const show = (mm: number): string => formatLength(mm, context.units, { unit: true });
  const short = { height: heightShort(section.height.least), across: acrossShort(section.thickness.least) };
  const reasons = [
    short.height > SAME_LENGTH ? `${show(short.height)} too low for the stack and ${show(gripAsked)} of grip` : '',
    short.across > SAME_LENGTH ? `${show(short.across)} too thin across the jaws` : '',
    overOpening > SAME_LENGTH ? `${show(overOpening)} wider than the vise opens` : '',
  ].filter((reason) => reason !== '');
  const isNominal =
    heightShort(section.height.nominal) <= SAME_LENGTH && acrossShort(section.thickness.nominal) <= SAME_LENGTH;
  return {
    fitsNominal: isNominal && overOpening <= SAME_LENGTH,
    fitsWorst: reasons.length === 0,
    reason: reasons.length > 0 && isNominal ? `smallest bar ${reasons.join(', ')}` : reasons.join(', '),
    gripLeast: section.height.least - need,
    shortBy: short.height + short.across + overOpening,
  };
}

/** Whether the smallest bar takes a part across the jaws though it is bent as much as its class allows over a blank, mm. */
export function isThickEnough(job: PlanJob, section: SectionResult, part: Part, blankLength: number): boolean {
  const { context } = job;
  const bow = getClassBow(context.sizeClassById.get(section.sizeClassId) ?? null, blankLength);
  return getAcrossNeed(context, section, part, bow).need <= section.thickness.least + SAME_LENGTH;
}

function getWidestNeed(job: PlanJob, section: SectionResult, longest: ReadonlyMap<string, number>): number {
  const { context } = job;
  const sizeClass = context.sizeClassById.get(section.sizeClassId) ?? null;
  let widest = 0;
  for (const part of context.parts) {
    const bow = getClassBow(sizeClass, longest.get(part.id) ?? part.length);
    widest = Math.max(widest, getAcrossNeed(context, section, part, bow).need);
  }
  return widest;
}
