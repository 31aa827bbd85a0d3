import { getBarPrice, getUsableLengths } from '../engine/bar-prices';
import { computeSetup } from '../engine/compute-setup';
import { getLongestHeldBlank, type LengthOffer } from '../engine/gang';
import { computeHoldFactor } from '../engine/hold';
import type { LaidBlank } from '../engine/layout';
import type { SectionResult, SectionRow } from '../engine/results';
import { computeSection, type SectionOption } from '../engine/section';
import type { Setup } from '../engine/setup';
import { getSpanLimits } from '../engine/span-limits';
import { getVisesNeeded, type ViseRoom } from '../engine/vise-plan';
import { getViseCeiling, getViseRoom } from '../engine/vises';
import { isPinned } from '../model/choice';
import { LIGHT_BUDGET } from '../nest/compute-nest';
import type { NestTotals } from '../nest/types';
import { formatLength } from '../units/format';
import { getBarMeasure } from './bar-measure';
import type { BlankRoom } from './gang-planner';
import { judgeSection } from './judge-section';
import { buildNestInput, getMinorPerUnit } from './nest-job';
import { getNestTotals } from './nest-memo';
import type { PlanJob } from './plan-job';
import { getFit, isThickEnough } from './section-fit';

/** One bar one way up, tried cheaply: what the comparison shows and what the choice of section is made from. */
export interface SectionTrial {
  readonly option: SectionOption;
  readonly section: SectionResult;
  readonly blanks: readonly LaidBlank[];
  /** False when a length must be bought that is run to order. */
  readonly isStocked: boolean;
  /** False when not every blank comes out of the lengths of the bar. */
  readonly isComplete: boolean;
  /** True for a bar sized in mm in an inch plan, or the other way round. */
  readonly isOtherMeasure: boolean;
  /** By how much the smallest bar is short, over height and thickness, mm; 0 when it fits. */
  readonly shortBy: number;
  readonly row: SectionRow;
}

/**
 * Tries one section. Where the lengths of the bar that are in stock make everything, the others are left out.
 *
 * @returns the trial; its option holds the bar with the lengths that were used
 */
export function computeTrial(job: PlanJob, option: SectionOption): SectionTrial {
  const lengths = option.bar.lengths.filter(({ stocked }) => stocked);
  if (lengths.length === 0 || lengths.length === option.bar.lengths.length) return tryBar(job, option, false);
  const fromStock = tryBar(job, { ...option, bar: { ...option.bar, lengths } }, false);
  return fromStock.isComplete ? fromStock : tryBar(job, option, false);
}

/** The same trial with the sizes measured on the bar in hand. */
export function computeTrialInHand(job: PlanJob, { option }: SectionTrial): SectionTrial {
  return tryBar(job, option, true);
}

function tryBar(job: PlanJob, option: SectionOption, isInHand: boolean): SectionTrial {
  const { context } = job;
  const section = computeSection(context, option, null, isInHand);
  const offers = getLengthOffers(job, option);
  const room = getBlankRoom(job, section);
  const alone = job.gangs.layAlone(offers, room);
  const isHopeless = !getFit(job, section, alone).fitsNominal;
  const blanks = isHopeless ? alone : job.gangs.lay(option.bar, offers, room, alone);
  const fit = getFit(job, section, blanks);
  const setup = fit.fitsNominal ? seatFew(job, section, blanks) : null;
  const totals = fit.fitsNominal ? getTotals(job, option, blanks) : null;
  const holdFactor = getHoldFactor(job, setup);
  const grip = setup?.seat.grip ?? Math.max(0, fit.gripLeast);
  const isStocked =
    totals === null || totals.newBarsNm === 0 || getUsableLengths(option.bar).every(({ stocked }) => stocked);
  const judged = judgeSection(job, section, { fit, setup, holdFactor, totals, isStocked });
  const measure = getBarMeasure(option.bar);
  return {
    option,
    section,
    blanks,
    isStocked,
    isComplete: !fit.fitsNominal || totals?.partsMissing === 0,
    isOtherMeasure: measure !== null && measure !== context.units,
    shortBy: fit.shortBy,
    row: {
      barId: option.bar.id,
      wayUp: option.wayUp,
      name: option.bar.name,
      height: section.height.nominal,
      thickness: section.thickness.nominal,
      fitsNominal: fit.fitsNominal,
      fitsWorst: fit.fitsWorst,
      reason: fit.reason,
      grip,
      gripLeast: fit.gripLeast,
      seat: setup === null ? '' : getSeatWords(job, setup),
      shelfDepth: setup?.seat.choice.value.kind === 'shelf' ? setup.seat.shelfDepth.value : 0,
      holdFactor,
      cost: totals?.isPriced === true ? totals.costMinor / getMinorPerUnit(job.context) : null,
      massKg: totals === null ? null : (section.massKgPerM * totals.newBarsNm) / 1e9,
      yieldToPart: totals === null ? null : getYieldToPart(section, job.layouts.get(blanks).partsMm3, totals),
      bars: totals?.barCount ?? null,
      proven: totals?.isProven ?? false,
      ...judged,
      chosen: false,
      dominated: false,
    },
  };
}

/** Lengths of a bar with their prices, as the gang table reads them. */
export function getLengthOffers(job: PlanJob, option: Pick<SectionOption, 'bar'>): LengthOffer[] {
  const densityKgM3 = job.context.material?.densityKgM3 ?? 0;
  return getUsableLengths(option.bar).map((barLength) => ({
    length: barLength.length,
    cost: getBarPrice(option.bar, barLength, densityKgM3),
  }));
}

/**
 * The blanks of the plan for one bar. Where the number of vises is left to the engine, a gang is never so long that it
 * needs more vises than the longest part alone: nobody said that the shop has them.
 */
export function layBlanks(job: PlanJob, option: SectionOption, section: SectionResult): readonly LaidBlank[] {
  return job.gangs.lay(option.bar, getLengthOffers(job, option), getBlankRoom(job, section));
}

/** What a section leaves for blanks with several parts on them. */
export function getBlankRoom(job: PlanJob, section: SectionResult): BlankRoom {
  const { context } = job;
  const room = getViseRoom(context, getSpanLimits(context, section, job.sideForceN));
  const mostVises = room === null ? 0 : getVisesForSingles(job, room);
  return {
    longestBlank: getLongestHeldBlank(context, { room, mostVises }),
    takes: (part, blankLength) => isThickEnough(job, section, part, blankLength),
  };
}

function getVisesForSingles(job: PlanJob, room: ViseRoom): number {
  const ceiling = getViseCeiling(job.context, room);
  const { vises, viseCount } = job.context.plan.holding;
  if (isPinned(vises) || isPinned(viseCount)) return ceiling;
  return getVisesNeeded(room, job.longestSingle, ceiling) ?? ceiling;
}

/** Seats only the blanks that decide. */
function seatFew(job: PlanJob, section: SectionResult, blanks: readonly LaidBlank[]): Setup | null {
  const { context, cutter, clamp } = job;
  const { deciding } = job.layouts.get(blanks);
  const limits = getSpanLimits(context, section, job.sideForceN);
  return computeSetup({ context, section, cutter }, { blanks: deciding, clamp, limits, isComparison: true });
}

/** Lowest hold factor over the blanks that decide; null when no cut works on them. */
function getHoldFactor(job: PlanJob, setup: Setup | null): number | null {
  if (setup === null) return null;
  const factors = setup.blanks
    .map((blank) => computeHoldFactor(job.context, setup, blank))
    .filter((one) => one !== null);
  return factors.length === 0 ? null : Math.min(...factors);
}

function getTotals(job: PlanJob, option: SectionOption, blanks: readonly LaidBlank[]): NestTotals | null {
  const input = buildNestInput(job.context, option.bar, blanks);
  return input.stocks.length === 0 || input.demands.length === 0 ? null : getNestTotals(input, LIGHT_BUDGET);
}

function getYieldToPart(section: SectionResult, partsMm3: number, totals: NestTotals): number | null {
  const usedMm3 = ((totals.barsNm - totals.keptDropNm) / 1e6) * section.height.nominal * section.thickness.nominal;
  if (!(usedMm3 > 0)) return null;
  return partsMm3 / usedMm3;
}

function getSeatWords(job: PlanJob, setup: Setup): string {
  const { choice, shelfDepth } = setup.seat;
  const show = (mm: number): string => formatLength(mm, job.context.units, { unit: true });
  switch (choice.value.kind) {
    case 'shelf':
      return `shelf ${show(shelfDepth.value)}`;
    case 'bed':
      return 'vise bed';
    case 'parallels': {
      const { parallelId, count } = choice.value;
      const pair = job.context.parallels.find(({ id }) => id === parallelId);
      return `${count === 1 ? 'parallel' : 'parallels'} ${show(pair?.height ?? 0)}`;
    }
    default:
      return choice.value satisfies never;
  }
}
