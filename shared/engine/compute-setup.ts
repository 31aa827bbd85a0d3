import type { Part } from '../model/plan';
import { computeAcross } from './across';
import type { EngineContext } from './context';
import { computeWeakestFactor, getHoldState, type HoldingSetup } from './hold-state';
import type { LaidBlank } from './layout';
import type { AcrossResult, SectionResult, StackResult, VisesResult } from './results';
import { computeSeat } from './seat';
import type { CutterChoice, SeatedBlank, SectionSetup, Setup } from './setup';
import { computeStack, getNeedAboveJaws } from './stack';
import { computeStraightness } from './straightness';
import { getSupport, type ViseRoom } from './vise-plan';
import { computeVises, getBlankX, getPinnedVises, getViseRoom, type SpanLimits } from './vises';

/** The part of a blank that needs most above the jaws; null for an empty blank. */
export function getGoverningPart(context: EngineContext, cutter: CutterChoice, blank: LaidBlank): Part | null {
  let governing: Part | null = null;
  let most = Number.NEGATIVE_INFINITY;
  for (const { part } of blank.onIt) {
    const need = getNeedAboveJaws(context, cutter, part);
    if (need > most) {
      governing = part;
      most = need;
    }
  }
  return governing;
}

/** Most any part on these blanks needs above the jaws, mm; 0 without parts. */
export function getTallestNeed(context: EngineContext, cutter: CutterChoice, blanks: readonly LaidBlank[]): number {
  const needs = blanks.flatMap(({ onIt }) => onIt.map(({ part }) => getNeedAboveJaws(context, cutter, part)));
  return Math.max(0, ...needs);
}

/** What does not depend on the section and is worked out once. */
export interface SetupInput {
  blanks: readonly LaidBlank[];
  clamp: Pick<VisesResult, 'clampForceN' | 'countedClampForceN'>;
  limits: SpanLimits;
  /** True for a row of the comparison: width across the jaws is then left out, and a measured bow does not count. */
  isComparison?: boolean;
}

/**
 * Seats every blank of a plan on one section: seat, stacks, vises and where they touch.
 *
 * @returns null when there is no vise with a jaw width, or no blank with a part on it
 */
export function computeSetup(
  sectionSetup: SectionSetup,
  { blanks, clamp, limits, isComparison = false }: SetupInput,
): Setup | null {
  const { context, section, cutter } = sectionSetup;
  const room = getViseRoom(context, limits);
  const carried = blanks.filter(({ onIt, length }) => onIt.length > 0 && length > 0);
  if (room === null || carried.length === 0) return null;
  const mostGrip = section.height.least - getTallestNeed(context, cutter, carried);
  const seat = computeSeat(context, section, cutter, mostGrip);
  const stacked = carried.flatMap((blank) => {
    const part = getGoverningPart(context, cutter, blank);
    return part === null ? [] : [{ blank, stack: computeStack(context, section, cutter, part, seat) }];
  });
  const isCountAsked = !isComparison || getPinnedVises(context) === undefined;
  const toHold = stacked.map(({ blank, stack }) => ({
    length: blank.length,
    visesWanted: isCountAsked ? getVisesWanted({ ...sectionSetup, vises: clamp }, stack) : 0,
  }));
  const vises = computeVises(context, room, toHold, clamp, isComparison);
  const seated = stacked.map(({ blank, stack }) => ({
    ...seatBlank(context, section, room, vises, blank),
    stack,
  }));
  return {
    ...sectionSetup,
    across: isComparison ? [] : computeAcrossAll(context, section, blanks),
    seat,
    vises,
    blanks: seated,
    governingBlank: getGoverningBlank(seated),
  };
}

/** Vises that must touch a blank for the hold the shop wants: what holds it grows with every one. */
function getVisesWanted(setup: HoldingSetup, stack: StackResult): number {
  const { context } = setup;
  const inOne = computeWeakestFactor(
    getHoldState(context, setup, { stack, contacts: [{ viseIndex: 0, from: 0, to: 0 }] }),
  );
  if (inOne === null) return 0;
  return inOne > 0 ? context.rules.holdFactorCheck / inOne : Number.POSITIVE_INFINITY;
}

/** Width across the jaws for every part of the plan, with the bow of the longest blank that carries it. */
export function computeAcrossAll(
  context: EngineContext,
  section: SectionResult,
  blanks: readonly LaidBlank[],
): AcrossResult[] {
  const longest = getLongestByPart(blanks);
  return context.parts.map((part) =>
    computeAcross(
      context,
      section,
      part,
      computeStraightness(context, section, longest.get(part.id) ?? part.length).value,
    ),
  );
}

/** Longest blank that carries each part, mm, by part id. */
export function getLongestByPart(blanks: readonly LaidBlank[]): Map<string, number> {
  const longest = new Map<string, number>();
  for (const { onIt, length } of blanks) {
    for (const { part } of onIt) longest.set(part.id, Math.max(longest.get(part.id) ?? 0, length));
  }
  return longest;
}

function seatBlank(
  context: EngineContext,
  section: SectionResult,
  room: ViseRoom,
  vises: VisesResult,
  blank: LaidBlank,
): Omit<SeatedBlank, 'stack'> {
  const centres = vises.centres.value;
  const x = getBlankX(context, room, centres, blank.length);
  const support = getSupport(room, centres, x, blank.length);
  return {
    templateId: blank.templateId,
    label: blank.label,
    count: blank.count,
    length: blank.length,
    tightLength: blank.tightLength,
    parts: blank.parts,
    x,
    xEnd: x + blank.length,
    contacts: support.contacts,
    contactLength: support.contactLength,
    overhangLeft: support.overhangLeft,
    overhangRight: support.overhangRight,
    largestGap: support.largestGap,
    massKg: (section.massKgPerM * blank.length) / 1000,
  };
}

/** The blank whose stack leaves least grip; on ties the one that stands out furthest. */
function getGoverningBlank(blanks: readonly SeatedBlank[]): number {
  let governing = -1;
  blanks.forEach((blank, index) => {
    const best = blanks[governing];
    if (best === undefined || isWorse(blank, best)) governing = index;
  });
  return governing;
}

function isWorse(blank: SeatedBlank, than: SeatedBlank): boolean {
  const byGrip = blank.stack.availableGrip.least - than.stack.availableGrip.least;
  if (Math.abs(byGrip) > 1e-6) return byGrip < 0;
  const getOverhang = (one: SeatedBlank): number => Math.max(one.overhangLeft, one.overhangRight);
  return getOverhang(blank) > getOverhang(than) + 1e-6;
}
