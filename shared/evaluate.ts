import { computeChance } from './engine/chance';
import { computeSetup } from './engine/compute-setup';
import { buildContext, type EngineContext } from './engine/context';
import type { EngineResults } from './engine/engine-results';
import { computeGangRows } from './engine/gang';
import type { GangRow, SectionResult } from './engine/results';
import { computeSection, getSectionOptions } from './engine/section';
import { getSpanLimits } from './engine/span-limits';
import { getViseCeiling, getViseRoom } from './engine/vises';
import { chooseSection } from './evaluate/choose-section';
import { computeForces } from './evaluate/compute-forces';
import { type CutBlanks, computeCutBlanks } from './evaluate/cut-blanks';
import { getEmptyResults } from './evaluate/empty-results';
import { getHeadline } from './evaluate/headline';
import { computeOrder } from './evaluate/order';
import { buildPlanJob, type PlanJob } from './evaluate/plan-job';
import { isThickEnough } from './evaluate/section-fit';
import { type LookedAt, SectionLooks } from './evaluate/section-looks';
import { buildSectionRows } from './evaluate/section-rows';
import {
  computeTrial,
  computeTrialInHand,
  getBlankRoom,
  getLengthOffers,
  type SectionTrial,
} from './evaluate/section-trial';
import { buildSparesRows } from './evaluate/spares-rows';
import { computeFindings } from './findings/compute-findings';
import type { Finding } from './findings/finding';
import type { Plan } from './model/plan';
import type { Shop } from './model/shop';

/** Everything there is to say of a plan. The Bench, the Sheet, the command line and the tests read this and nothing else. */
export interface Evaluation extends EngineResults {
  findings: Finding[];
}

export interface EvaluateOptions {
  /** Elementary steps the nesting of the order may spend; more proves more. About 5e8 a second. */
  orderWorkUnits?: number;
  /** Told of every better order and bound on the way; what it is given works the evaluation out only when asked. */
  onProgress?: (getEvaluation: () => Evaluation) => void;
  /** Asked now and then while the order is worked out; `true` ends that with the best so far. */
  shouldStop?: () => boolean;
}

/** For what is bought and printed: seconds at the most, and proof for nearly every job of a shop. */
export const THOROUGH: EvaluateOptions = { orderWorkUnits: 1e9 };

/**
 * What an order may spend while a person types, well within a frame: proof for some four lengths of blank. With many lengths
 * more steps would find no better order before the frame is over. The rest is left to {@link THOROUGH}.
 */
function getQuickUnits({ parts }: EngineContext): number {
  return parts.length > 8 ? 1e6 : 4e6;
}

/**
 * The one door into the engine: what a plan comes to in a shop.
 *
 * Pure and total: the same plan and shop give the same answer, neither is changed, and what is wrong with either becomes
 * a finding or a null, never an exception.
 *
 * @param plan lengths in mm; its library's copies win over the shop's entries
 * @param shop the shop at hand
 */
export function evaluate(plan: Plan, shop: Shop, options: EvaluateOptions = {}): Evaluation {
  const context = buildContext(plan, shop);
  const job = buildPlanJob(context);
  const trials =
    context.parts.length === 0 ? [] : getSectionOptions(context).map((option) => computeTrial(job, option));
  const looks = new SectionLooks(job);
  const chosen = chooseSection(job, trials, looks);
  const complete = (results: EngineResults): Evaluation => {
    const withFigures = { ...results, figures: getHeadline(results) };
    return { ...withFigures, findings: computeFindings(context.plan, context.shop, withFigures) };
  };
  if (chosen === null) return complete({ ...getEmptyResults(), spares: buildSparesRows(job, []) });
  const section = computeSection(context, chosen.trial.option, chosen.decision, true);
  const build = (cut: CutBlanks): Evaluation =>
    complete(computeChosen(job, chosen.trial, section, { trials, looks }, cut));
  const { onProgress, shouldStop } = options;
  const room = getBlankRoom(job, section);
  const cutJob = {
    bar: chosen.trial.option.bar,
    given: looks.look(chosen.trial).laid,
    fewest: job.gangs.layFewest(getLengthOffers(job, chosen.trial.option), room),
    room,
  };
  const cut = computeCutBlanks(job, cutJob, {
    workUnits: options.orderWorkUnits ?? getQuickUnits(context),
    ...(onProgress === undefined ? {} : { onProgress: (getCut) => onProgress(() => build(getCut())) }),
    ...(shouldStop === undefined ? {} : { shouldStop }),
  });
  return build(cut);
}

/** Everything about the section the plan takes. */
function computeChosen(
  job: PlanJob,
  trial: SectionTrial,
  section: SectionResult,
  { trials, looks }: { trials: readonly SectionTrial[]; looks: SectionLooks },
  cut: CutBlanks,
): EngineResults {
  const { context } = job;
  const order = computeOrder(context, section, trial.option.bar, cut);
  const forced = getForced(job, section, looks.look(trial), cut);
  return {
    ...getEmptyResults(),
    ...forced,
    section,
    chance: forced === null ? null : computeChance({ ...forced, section, rules: context.rules }),
    gang: buildGangRows(job, trial, section),
    spares: buildSparesRows(job, cut.blanks),
    order,
    sections: buildSectionRows(trials, trial, looks, {
      row: hasMeasuredSize(context) ? computeTrialInHand(job, trial).row : trial.row,
      order,
    }),
  };
}

/** The section under the cuts, with the blanks of its order: most often those it was looked at with. */
function getForced(job: PlanJob, section: SectionResult, looked: LookedAt, { blanks }: CutBlanks): LookedAt['forced'] {
  if (blanks === looked.laid) return looked.forced;
  const { context, cutter, clamp } = job;
  const limits = getSpanLimits(context, section, job.sideForceN);
  const setup = computeSetup({ context, section, cutter }, { blanks, clamp, limits });
  return setup === null ? null : computeForces(setup);
}

function hasMeasuredSize({ plan }: EngineContext): boolean {
  return plan.stock.measuredHeight !== null || plan.stock.measuredThickness !== null;
}

function buildGangRows(job: PlanJob, trial: SectionTrial, section: SectionResult): GangRow[] {
  const { context, partingWidth, cutting } = job;
  const room = getViseRoom(context, getSpanLimits(context, section, job.sideForceN));
  const limits = { room, mostVises: room === null ? 0 : getViseCeiling(context, room) };
  const offers = getLengthOffers(job, trial.option);
  return context.parts.flatMap((part) => {
    const rows = computeGangRows(context, partingWidth, offers, cutting, limits, part).map((row): GangRow => {
      const isThin = row.partsPerBlank > 1 && !isThickEnough(job, section, part, row.blankLength);
      return row.fits && isThin ? { ...row, fits: false, reason: TOO_BENT } : row;
    });
    const firstUnfit = rows.findIndex(({ fits }) => !fits);
    return firstUnfit < 0 ? rows : rows.slice(0, firstUnfit + 1);
  });
}

const TOO_BENT = 'so long a blank may be bent by more than the bar is thick enough for';
