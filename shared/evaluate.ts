import { computeAllowance } from './engine/allowance';
import { computeBow } from './engine/bow-results';
import { computeChance } from './engine/chance';
import { computeSetup } from './engine/compute-setup';
import { buildContext, type EngineContext } from './engine/context';
import { computeCutForces } from './engine/cut-forces';
import { computeDeflection, computeLongestLegalOverhang } from './engine/deflection';
import type { EngineResults } from './engine/engine-results';
import { computeGangRows } from './engine/gang';
import { computeHold } from './engine/hold';
import { computeReach } from './engine/reach';
import { computeRelease } from './engine/release';
import type { BlankResult, CutForceResult, GangRow, SectionResult } from './engine/results';
import { computeSection, getSectionOptions } from './engine/section';
import type { Setup } from './engine/setup';
import { getSpanLimits } from './engine/span-limits';
import { getViseCeiling, getViseRoom } from './engine/vises';
import { type ChosenSection, chooseSection } from './evaluate/choose-section';
import { getHeadline } from './evaluate/headline';
import { computeOrder } from './evaluate/order';
import { buildPlanJob, type PlanJob } from './evaluate/plan-job';
import { buildSectionRows } from './evaluate/section-rows';
import { computeTrial, getLengthOffers, layBlanks, type SectionTrial } from './evaluate/section-trial';
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
}

/** For what is bought and printed: seconds at the most, and proof for nearly every job of a shop. */
export const THOROUGH: EvaluateOptions = { orderWorkUnits: 1e9 };

/** What an order may spend while a person types; the rest is left to {@link THOROUGH}. */
const ORDER_WORK_UNITS = 2e7;

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
  const results = computeResults(context, options.orderWorkUnits ?? ORDER_WORK_UNITS);
  return { ...results, findings: computeFindings(context.plan, context.shop, results) };
}

function computeResults(context: EngineContext, orderWorkUnits: number): EngineResults {
  const job = buildPlanJob(context);
  const trials =
    context.parts.length === 0 ? [] : getSectionOptions(context).map((option) => computeTrial(job, option));
  const chosen = chooseSection(job, trials);
  const results = chosen === null ? getEmptyResults(job) : computeChosen(job, chosen, trials, orderWorkUnits);
  return { ...results, figures: getHeadline(results) };
}

type Results = Omit<EngineResults, 'figures'>;

function getEmptyResults(job: PlanJob): Results {
  return {
    section: null,
    blanks: [],
    governingBlank: -1,
    across: [],
    seat: null,
    vises: null,
    cuts: [],
    reach: [],
    release: null,
    bow: [],
    allowance: [],
    chance: null,
    gang: [],
    spares: buildSparesRows(job, []),
    order: null,
    sections: [],
  };
}

/** Everything about the section the plan takes. */
function computeChosen(
  job: PlanJob,
  { trial, decision }: ChosenSection,
  trials: readonly SectionTrial[],
  orderWorkUnits: number,
): Results {
  const { context, cutter, clamp } = job;
  const { option } = trial;
  const section = computeSection(context, option, decision, true);
  const laid = layBlanks(job, option, section);
  const limits = getSpanLimits(context, section, job.sideForceN);
  const setup = computeSetup({ context, section, cutter }, { blanks: laid, clamp, limits });
  const order = computeOrder(context, section, option.bar, laid, { workUnits: orderWorkUnits });
  const forced = setup === null ? null : computeForces(setup);
  return {
    ...getEmptyResults(job),
    ...forced,
    section,
    chance: forced === null ? null : computeChance({ ...forced, section, rules: context.rules }),
    gang: buildGangRows(job, trial, section),
    spares: buildSparesRows(job, laid),
    order,
    sections: buildSectionRows(trials, trial, {
      row: hasMeasuredSize(context) ? computeTrial(job, option, true).row : trial.row,
      order,
    }),
  };
}

function hasMeasuredSize({ plan }: EngineContext): boolean {
  return plan.stock.measuredHeight !== null || plan.stock.measuredThickness !== null;
}

type Forced = Pick<
  Results,
  'blanks' | 'governingBlank' | 'across' | 'seat' | 'vises' | 'cuts' | 'reach' | 'release' | 'bow' | 'allowance'
>;

/** What forces do to a setup. */
function computeForces(setup: Setup): Forced {
  const { context } = setup;
  const cuts = computeCutForces(context, setup);
  const blanks = setup.blanks.map((_, index) => computeBlank(setup, index, cuts));
  const bow = computeBow(context, setup);
  const reach = computeReach(context, setup, cuts);
  const deflection = blanks.flatMap((blank) => (blank === null ? [] : [blank.deflection]));
  return {
    blanks: blanks.filter((blank) => blank !== null),
    governingBlank: setup.governingBlank,
    across: [...setup.across],
    seat: setup.seat,
    vises: setup.vises,
    cuts,
    reach,
    release: computeRelease(context, setup, cuts),
    bow,
    allowance: computeAllowance(context, setup, { bow, reach, deflection, cuts }),
  };
}

function computeBlank(setup: Setup, index: number, cuts: readonly CutForceResult[]): BlankResult | null {
  const { context } = setup;
  const blank = setup.blanks[index];
  if (blank === undefined) return null;
  return {
    ...blank,
    longestLegalOverhang: computeLongestLegalOverhang(context, setup, blank, cuts),
    hold: computeHold(context, setup, blank),
    deflection: computeDeflection(context, setup, blank, cuts),
  };
}

function buildGangRows(job: PlanJob, trial: SectionTrial, section: SectionResult): GangRow[] {
  const { context, partingWidth, cutting } = job;
  const room = getViseRoom(context, getSpanLimits(context, section, job.sideForceN));
  const limits = { room, mostVises: room === null ? 0 : getViseCeiling(context, room) };
  const offers = getLengthOffers(job, trial.option);
  return context.parts.flatMap((part) => computeGangRows(context, partingWidth, offers, cutting, limits, part));
}
