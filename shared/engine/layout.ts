import { getPinned, isPinned } from '../model/choice';
import type { BlankTemplate, Part } from '../model/plan';
import { getEndMargins, getGangLength, getGap, getSawShortfall, type LaidPart } from './blank-length';
import { type EngineContext, isSize } from './context';
import { getEndClash, getNeighbourClash } from './layout-clash';
import type { PlacedPart } from './results';

/** A blank with its parts placed, before it is put in the vises. */
export interface LaidBlank {
  templateId: string;
  label: string;
  count: number;
  length: number;
  /** Length of the same parts set as tight as the gaps allow. */
  tightLength: number;
  parts: PlacedPart[];
  /** Parts on it that the plan holds, in order along X. */
  onIt: LaidPart[];
}

/** Parts per blank and pieces to make, by part id, as decided for the bar in hand. */
export interface GangDecision {
  partsPerBlank: ReadonlyMap<string, number>;
  make: ReadonlyMap<string, number>;
}

/**
 * The blanks of a plan: as the user laid them out, or one kind of blank for each part.
 *
 * Pieces are rounded up to whole blanks. Only a plan without spares that does not come out even gets one shorter blank
 * with the rest, since nobody asked for more pieces.
 */
export function computeLayout(context: EngineContext, partingWidth: number, gang: GangDecision): LaidBlank[] {
  const { layout } = context.plan;
  const blanks = isPinned(layout)
    ? layPinned(context, partingWidth, layout.pinned, gang)
    : context.parts.flatMap((part) => layAuto(context, partingWidth, part, gang));
  return blanks.map((blank, index) => ({ ...blank, label: getLabel(index, blank.onIt) }));
}

/** Blanks of one size: parts in a row, and how many such blanks. */
export interface BlankSize {
  partsPerBlank: number;
  count: number;
}

/**
 * The blanks of a plan whose sizes were chosen together with the cutting: one kind of blank for each size of each part.
 *
 * @param sizes by part id, largest first
 */
export function computeSizedLayout(
  context: EngineContext,
  partingWidth: number,
  sizes: ReadonlyMap<string, readonly BlankSize[]>,
): LaidBlank[] {
  const blanks = context.parts.flatMap((part) =>
    (sizes.get(part.id) ?? []).map(({ partsPerBlank, count }, index) =>
      layRow(
        context,
        partingWidth,
        part,
        partsPerBlank,
        count,
        getSizedTemplateId(part.id, partsPerBlank, index === 0),
      ),
    ),
  );
  return blanks.map((blank, index) => ({ ...blank, label: getLabel(index, blank.onIt) }));
}

/** The largest blank of a part keeps its id whatever its size, so that what the user was told about it stays about it. */
export function getSizedTemplateId(partId: string, partsPerBlank: number, isLargest: boolean): string {
  return isLargest ? `auto-${partId}` : `auto-${partId}-of-${partsPerBlank}`;
}

/** Blanks of one part kind: whole ones, and the rest where there is one. */
export function getBlankCounts(
  context: EngineContext,
  make: number,
  partsPerBlank: number,
): { whole: number; rest: number } {
  const isEven = make % partsPerBlank === 0;
  if (isEven || context.plan.order.spares.kind !== 'none') return { whole: Math.ceil(make / partsPerBlank), rest: 0 };
  return { whole: Math.floor(make / partsPerBlank), rest: make % partsPerBlank };
}

function layAuto(context: EngineContext, partingWidth: number, part: Part, gang: GangDecision): LaidBlank[] {
  const partsPerBlank = gang.partsPerBlank.get(part.id) ?? 1;
  const { whole, rest } = getBlankCounts(context, gang.make.get(part.id) ?? part.quantity, partsPerBlank);
  const blanks: LaidBlank[] = [];
  if (whole > 0) blanks.push(layRow(context, partingWidth, part, partsPerBlank, whole, `auto-${part.id}`));
  if (rest > 0) blanks.push(layRow(context, partingWidth, part, rest, 1, `auto-${part.id}-rest`));
  return blanks;
}

function layRow(
  context: EngineContext,
  partingWidth: number,
  part: Part,
  partsPerBlank: number,
  count: number,
  templateId: string,
): LaidBlank {
  const laid: LaidPart = { part, mirrored: false };
  const pitch = part.length + getGap(context, partingWidth, laid, laid);
  const start = getEndMargins(context, laid, laid).left;
  const length = getGangLength(context, partingWidth, part, partsPerBlank);
  return {
    templateId,
    label: '',
    count,
    length,
    tightLength: length,
    onIt: Array.from({ length: partsPerBlank }, () => laid),
    parts: Array.from({ length: partsPerBlank }, (_, index) => ({
      slotId: `${templateId}-${index + 1}`,
      partId: part.id,
      x: start + index * pitch,
      xEnd: start + index * pitch + part.length,
      mirrored: false,
      clash: '',
    })),
  };
}

function layPinned(
  context: EngineContext,
  partingWidth: number,
  templates: readonly BlankTemplate[],
  gang: GangDecision,
): LaidBlank[] {
  const left = new Map(context.parts.map((part) => [part.id, gang.make.get(part.id) ?? part.quantity]));
  const take = (template: BlankTemplate, count: number): void => {
    for (const slot of template.slots) left.set(slot.partId, (left.get(slot.partId) ?? 0) - count);
  };
  const pinnedCount = (template: BlankTemplate): number | undefined => {
    const count = getPinned(template.count);
    return count === undefined || !Number.isFinite(count) ? undefined : Math.max(0, Math.round(count));
  };
  for (const template of templates) take(template, pinnedCount(template) ?? 0);
  return templates.map((template) => {
    const count = pinnedCount(template) ?? getCountNeeded(template, left);
    if (pinnedCount(template) === undefined) take(template, count);
    return layTemplate(context, partingWidth, template, count);
  });
}

/** Blanks that make what is still to be made of every part on them. */
function getCountNeeded(template: BlankTemplate, left: ReadonlyMap<string, number>): number {
  const onBlank = new Map<string, number>();
  for (const { partId } of template.slots) onBlank.set(partId, (onBlank.get(partId) ?? 0) + 1);
  let count = 0;
  for (const [partId, pieces] of onBlank) count = Math.max(count, Math.ceil((left.get(partId) ?? 0) / pieces));
  return count;
}

function layTemplate(context: EngineContext, partingWidth: number, template: BlankTemplate, count: number): LaidBlank {
  const slots = template.slots.toSorted((a, b) => a.x - b.x);
  const placed = slots.map((slot) => {
    const part = context.partById.get(slot.partId) ?? null;
    const x = Number.isFinite(slot.x) ? slot.x : 0;
    return { slot, part, x, xEnd: x + (part?.length ?? 0) };
  });
  const onIt = placed.flatMap(({ part, slot }): LaidPart[] =>
    part === null ? [] : [{ part, mirrored: slot.mirrored }],
  );
  const tightLength = getTightLength(context, partingWidth, onIt);
  const pinnedLength = getPinned(template.length);
  const last = placed.at(-1);
  const lastLaid = onIt.at(-1);
  const spread =
    last === undefined || lastLaid === undefined
      ? 0
      : last.xEnd + getEndMargins(context, lastLaid, lastLaid).right + getSawShortfall(context);
  const length = pinnedLength !== undefined && isSize(pinnedLength) ? pinnedLength : Math.max(spread, tightLength);
  return {
    templateId: template.id,
    label: '',
    count,
    length,
    tightLength,
    onIt,
    parts: placed.map(({ slot, part, x, xEnd }, index): PlacedPart => {
      const next = placed[index + 1];
      const laid = part === null ? null : { part, mirrored: slot.mirrored };
      return {
        slotId: slot.id,
        partId: slot.partId,
        x,
        xEnd,
        mirrored: slot.mirrored,
        clash:
          laid === null
            ? 'this part is not in the plan, or has no size.'
            : (getNeighbourClash(context, partingWidth, laid, xEnd, next) ??
              getEndClash(context, laid, { x, xEnd, length }) ??
              ''),
      };
    }),
  };
}

function getTightLength(context: EngineContext, partingWidth: number, onIt: readonly LaidPart[]): number {
  const first = onIt[0];
  const last = onIt.at(-1);
  if (first === undefined || last === undefined) return 0;
  const margins = getEndMargins(context, first, last);
  let length = margins.left + margins.right + getSawShortfall(context);
  onIt.forEach((laid, index) => {
    const next = onIt[index + 1];
    length += laid.part.length + (next === undefined ? 0 : getGap(context, partingWidth, laid, next));
  });
  return length;
}

/** "A: 3 × Pawl arm", "B: Pawl arm + Hoist lever". */
function getLabel(index: number, onIt: readonly LaidPart[]): string {
  const counts = new Map<string, number>();
  for (const { part } of onIt) counts.set(part.name, (counts.get(part.name) ?? 0) + 1);
  const names = [...counts].map(([name, count]) => (count === 1 ? name : `${count} × ${name}`));
  return `${getLetters(index)}: ${names.join(' + ') || 'empty'}`;
}

/** A, B, … Z, AA, AB, … */
function getLetters(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : getLetters(Math.floor(index / 26) - 1) + last;
}
