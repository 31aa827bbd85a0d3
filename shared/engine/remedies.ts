import { keepByPair } from '../model/memo';
import type { ClampChoice } from '../model/plan';
import type { BarOffer, JawSet } from '../model/shop';
import { formatLength } from '../units/format';
import { formatNumber } from '../units/format-number';
import { formatQuantity } from '../units/quantity';
import { computeClamp } from './clamp';
import { computeSetup } from './compute-setup';
import type { EngineContext } from './context';
import {
  computeHoldFactors,
  computeWeakestFactor,
  getContactLengths,
  getHoldState,
  getPressureAllowedMPa,
  type HeldCut,
  type HoldState,
} from './hold-state';
import type { LaidBlank } from './layout';
import { applyEdits, getRemedyEdits } from './remedy-edits';
import type { Remedy, RemedyChange, SectionResult } from './results';
import { roundDownToStep, SAME_LENGTH } from './rounding';
import { computeNutFactor } from './screw';
import { computeSection } from './section';
import type { SeatedBlank, Setup } from './setup';
import { getLargestSideForceN, getSpanLimits } from './span-limits';

/** What a remedy is worked out from. */
interface Case {
  context: EngineContext;
  setup: Setup;
  blank: SeatedBlank;
  state: HoldState;
  /** Factor at which the hold is comfortable. */
  target: number;
}

/** Most remedies shown. */
const SHOWN = 3;

/** A change that betters the factor by less than this share is not worth a person's time. */
const WORTH_IT = 1.02;

const BISECTIONS = 30;

/**
 * The changes that help the hold of a blank most: the least of each that brings the factor to where the shop calls it
 * comfortable, or as much as there is room for. Each is then made in the plan and the bar seated and held afresh, so
 * that the factor named is the one that comes of it, the bar and the blanks staying as they are.
 *
 * @returns at most three, best first; none when the hold is comfortable
 */
export function computeRemedies(context: EngineContext, setup: Setup, blank: SeatedBlank, state: HoldState): Remedy[] {
  const target = Math.max(1, context.rules.holdFactorCheck);
  const current = computeWeakestFactor(state) ?? target;
  if (current >= target) return [];
  const worked: Case = { context, setup, blank, state, target };
  return WORKS.flatMap((work) => work(worked))
    .flatMap((proposal) => prove(worked, proposal))
    .filter((remedy) => remedy.factor > current * WORTH_IT)
    .sort((a, b) => b.factor - a.factor)
    .slice(0, SHOWN);
}

/** The blank of a setup that holds least, the one that remedies are worked out for; null where no cut works on any. */
export const getWeakestBlank = keepByPair((context: EngineContext, setup: Setup): SeatedBlank | null => {
  let weakest: { blank: SeatedBlank; factor: number } | null = null;
  for (const blank of setup.blanks) {
    const factor = computeWeakestFactor(getHoldState(context, setup, blank));
    if (factor !== null && (weakest === null || factor < weakest.factor)) weakest = { blank, factor };
  }
  return weakest?.blank ?? null;
});

/** A change worth trying, with the factor it is reckoned to give and how it is said once its grip is known. */
interface Proposal {
  change: RemedyChange;
  reckoned: number;
  say: (held: Held) => string;
}

/** A blank held afresh. */
interface Held {
  factor: number;
  grip: number;
  isOnParallels: boolean;
}

function prove(worked: Case, { change, say }: Proposal): Remedy[] {
  const held = holdAfresh(worked, change);
  if (held === null) return [];
  const { context, target } = worked;
  const isFree = context.plan.stock.barId === 'auto' && change.kind !== 'bar';
  const where = isFree ? ' with this bar' : '';
  const enough = held.factor >= target - 1e-6 ? '' : ', not enough alone';
  const sentence = `${say(held)}: factor ${formatNumber(held.factor, { decimals: 1 })}${where}${enough}.`;
  return [{ sentence, factor: held.factor, change }];
}

/** The blank with a change made in the plan: seated, put in its vises and held again. */
function holdAfresh({ context, setup, blank }: Case, change: RemedyChange): Held | null {
  const known = getJawSets(context);
  const isMillable = (id: string): boolean => known.get(id)?.millable ?? false;
  const place = { plan: context.plan, seat: setup.seat.choice.value.kind, isMillable };
  const plan = applyEdits(context.plan, getRemedyEdits(place, change));
  const jawSet = known.get(plan.holding.jawSetId) ?? null;
  const changed: EngineContext = {
    ...context,
    plan,
    jawSet,
    jawHeight: jawSet?.height ?? context.vise?.jawHeight ?? 0,
  };
  const section = getSection(changed, setup.section, change);
  if (section === null) return null;
  const sectionSetup = { context: changed, section, cutter: setup.cutter };
  const again = computeSetup(sectionSetup, {
    blanks: setup.blanks.map((one) => getLaid(context, one)),
    clamp: computeClamp(changed),
    limits: getSpanLimits(changed, section, getLargestSideForceN(sectionSetup)),
    isComparison: true,
  });
  const seated = again?.blanks.find(({ templateId }) => templateId === blank.templateId);
  if (again === null || seated === undefined || seated.stack.shortBy > SAME_LENGTH) return null;
  const factor = computeWeakestFactor(getHoldState(changed, again, seated));
  const { choice } = again.seat;
  return factor === null
    ? null
    : { factor, grip: seated.stack.grip.nominal, isOnParallels: choice.value.kind === 'parallels' };
}

function getSection(context: EngineContext, now: SectionResult, change: RemedyChange): SectionResult | null {
  if (change.kind !== 'bar') return now;
  const bar = context.bars.find(({ id }) => id === change.barId);
  return bar === undefined ? null : computeSection(context, { bar, wayUp: change.wayUp }, null, true);
}

function getLaid(context: EngineContext, blank: SeatedBlank): LaidBlank {
  const onIt = blank.parts.flatMap(({ partId, mirrored }) => {
    const part = context.partById.get(partId);
    return part === undefined ? [] : [{ part, mirrored }];
  });
  return { ...blank, onIt };
}

function getJawSets(context: EngineContext): ReadonlyMap<string, JawSet> {
  return new Map([...context.shop.jawSets, ...context.plan.library.jawSets].map((jaws) => [jaws.id, jaws]));
}

type Work = (worked: Case) => Proposal[];

const WORKS: readonly Work[] = [workDeeperGrip, workStepDown, workPassDepth, workJawSet, workClamp, workVises, workBar];

function workDeeperGrip(worked: Case): Proposal[] {
  const { blank, state, setup, context } = worked;
  const room = Math.min(getSeatLimit(worked), blank.stack.availableGrip.least) - blank.stack.grip.least;
  if (room < SAME_LENGTH) return [];
  const step = context.shelfStep;
  const deeper = findLeast(room, step, (extra) => getFactor(withGrip(state, extra)) >= worked.target);
  const usable = Math.min(room, deeper);
  const targetGrip = setup.seat.grip + usable;
  return [
    {
      change: { kind: 'grip', targetGrip },
      reckoned: getFactor(withGrip(state, usable)),
      say: ({ grip }) => `Grip ${say(worked, grip - blank.stack.grip.nominal)} deeper`,
    },
  ];
}

function workStepDown(worked: Case): Proposal[] {
  return workCuts(worked, 'stepDown', (cut) => cut.spec.kind !== 'cutOff' && cut.spec.kind !== 'drill');
}

function workPassDepth(worked: Case): Proposal[] {
  return workCuts(worked, 'sideEngagement', (cut) => cut.spec.kind === 'cutOff');
}

/** Lighter passes on every cut that falls short, each down to where it no longer does, but not under a tenth. */
function workCuts(worked: Case, size: 'stepDown' | 'sideEngagement', applies: (cut: HeldCut) => boolean): Proposal[] {
  const { state, target, context } = worked;
  const short = state.cuts.filter((cut) => applies(cut) && computeHoldFactors(state, cut.spec).factor < target);
  if (short.length === 0) return [];
  const step = context.units === 'in' ? 0.005 * 25.4 : 0.1;
  const lighter = new Map(
    short.map((cut) => {
      const full = cut.spec[size];
      const holds = (taken: number) =>
        computeHoldFactors(state, { ...cut.spec, [size]: full - taken }).factor >= target;
      const left = full - findLeast(0.9 * full, 0, holds);
      return [cut.cutId, Math.max(Math.min(full, step), roundDownToStep(left, step))] as const;
    }),
  );
  const cuts = state.cuts.map((cut) => {
    const taken = lighter.get(cut.cutId);
    return taken === undefined ? cut : { ...cut, spec: { ...cut.spec, [size]: taken } };
  });
  const words = short.map((cut) => `“${cut.name}” ${say(worked, lighter.get(cut.cutId) ?? 0)}`).join(', ');
  const changed = short.map((cut) => ({ cutId: cut.cutId, size: lighter.get(cut.cutId) ?? 0 }));
  const change: RemedyChange =
    size === 'stepDown'
      ? { kind: 'stepDown', cuts: changed.map(({ cutId, size: stepDown }) => ({ cutId, stepDown })) }
      : { kind: 'passDepth', cuts: changed.map(({ cutId, size: sideEngagement }) => ({ cutId, sideEngagement })) };
  const lead = size === 'stepDown' ? 'Step down less' : 'Take the cut-off in shallower passes';
  return [{ change, reckoned: getFactor({ ...state, cuts }), say: () => `${lead}: ${words}` }];
}

function workJawSet(worked: Case): Proposal[] {
  const known = [...getJawSets(worked.context).values()];
  return takeLeastOrBest(
    worked,
    known.flatMap((jaws) => workOneJawSet(worked, jaws)),
  );
}

function workOneJawSet(worked: Case, jaws: JawSet): Proposal[] {
  const { context, setup, state, blank } = worked;
  const friction = jaws.friction[setup.section.surface] * (context.material?.jawFrictionFactor ?? 1);
  if (jaws.id === context.jawSet?.id || friction <= state.grip.friction) return [];
  const grip = getGripInJaws(worked, jaws);
  if (grip === null) return [];
  const extra = grip - blank.stack.grip.least;
  const deeper = withGrip(state, extra);
  const changed = { ...deeper, grip: { ...deeper.grip, friction } };
  const wasOnShelf = setup.seat.choice.value.kind === 'shelf';
  return [
    {
      change: { kind: 'jawSet', jawSetId: jaws.id, grip },
      reckoned: getFactor(changed),
      say: (held) =>
        `Use ${jaws.name}${wasOnShelf && held.isOnParallels ? ', on parallels' : ''}, grip ${say(worked, held.grip)}`,
    },
  ];
}

/** Deepest grip the bar gets in other jaws: on the same kind of seat, else on parallels in the drawer; null when none fits. */
function getGripInJaws(worked: Case, jaws: JawSet): number | null {
  const { context, setup, blank } = worked;
  const jawHeight = jaws.height ?? context.vise?.jawHeight ?? 0;
  const most = blank.stack.availableGrip.least;
  const isShelf = setup.seat.choice.value.kind === 'shelf';
  if (isShelf && jaws.millable)
    return Math.abs(jawHeight - context.jawHeight) < SAME_LENGTH ? blank.stack.grip.least : null;
  const fits = context.parallels.filter(
    (pair) => 2 * pair.thickness + context.rules.fingerRoom <= setup.section.thickness.least,
  );
  const grips = [jawHeight, ...fits.map((pair) => jawHeight - pair.height)].filter(
    (grip) => grip <= most + SAME_LENGTH && grip - setup.section.cornerRadius >= jaws.leastFlatGrip - SAME_LENGTH,
  );
  return grips.length > 0 ? Math.max(...grips) : null;
}

function workClamp(worked: Case): Proposal[] {
  const { context, setup, state, blank } = worked;
  const { vise } = context;
  const counted = setup.vises.countedClampForceN;
  if (vise === null || counted <= 0) return [];
  const nowN = counted / (1 - Math.min(0.99, Math.max(0, context.rules.clampScatter)));
  const shortest = Math.min(...getContactLengths(blank));
  const byPressure = getPressureAllowedMPa(context) * shortest * state.grip.flatGrip;
  const limit = Math.min(vise.maxClampForceN, byPressure);
  if (!(limit > nowN * WORTH_IT)) return [];
  const withForce = (forceN: number): HoldState => ({
    ...state,
    grip: { ...state.grip, clampForceN: (state.grip.clampForceN * forceN) / nowN },
  });
  const extra = findLeast(limit - nowN, 100, (more) => getFactor(withForce(nowN + more)) >= worked.target);
  const forceN = Math.min(limit, Math.ceil((nowN + extra) / 100) * 100);
  const clamp = getClampChoice(worked, forceN);
  const torque =
    clamp.kind === 'torque' ? `, ${formatQuantity(clamp.handleTorqueNm, 'torque', context.units)} on the handle` : '';
  const words = `Clamp each vise with ${formatQuantity(forceN, 'force', context.units)}${torque}`;
  return [{ change: { kind: 'clamp', clamp }, reckoned: getFactor(withForce(forceN)), say: () => words }];
}

function getClampChoice({ context }: Case, forceN: number): ClampChoice {
  const { clamp } = context.plan.holding;
  const screw = context.vise?.screw;
  if (clamp.kind === 'force' || screw === undefined) return { kind: 'force', clampForceN: forceN };
  const perTorqueN = clamp.handleTorqueNm > 0 ? computeClamp(context).clampForceN.value / clamp.handleTorqueNm : 0;
  const nutFactor = clamp.nutFactor ?? computeNutFactor(screw);
  const handleTorqueNm = perTorqueN > 0 ? forceN / perTorqueN : (nutFactor * screw.nominalDiameter * forceN) / 1000;
  return { ...clamp, handleTorqueNm };
}

function workVises(worked: Case): Proposal[] {
  const { context, setup, state, blank } = worked;
  const { vise, rules } = context;
  const count = getContactLengths(blank).length;
  const next = setup.vises.count.value + 1;
  if (vise === null || count === 0) return [];
  const pitch = Math.max(vise.bodyLength, vise.jawWidth) + rules.viseGap;
  const table = context.shop.machine.tableLength;
  if (count * pitch + vise.jawWidth > blank.length + SAME_LENGTH || (table > 0 && next * pitch > table)) return [];
  const clampForceN = (state.grip.clampForceN * (count + 1)) / count;
  const words = `Hold it in ${formatNumber(count + 1, { decimals: 0 })} vises`;
  const more = { ...state, grip: { ...state.grip, clampForceN } };
  return [{ change: { kind: 'vises', count: next }, reckoned: getFactor(more), say: () => words }];
}

function workBar(worked: Case): Proposal[] {
  const { context, setup } = worked;
  const wayUp = setup.section.wayUp.value;
  const getSize = (bar: BarOffer) =>
    wayUp === 'onEdge'
      ? { height: bar.width, thickness: bar.thickness }
      : { height: bar.thickness, thickness: bar.width };
  const higher = context.bars
    .map((bar) => ({ bar, ...getSize(bar) }))
    .filter(
      ({ height, thickness }) =>
        Math.abs(thickness - setup.section.thickness.nominal) < 0.01 && height > setup.section.height.nominal + 0.01,
    )
    .sort((a, b) => a.height - b.height);
  return takeLeastOrBest(
    worked,
    higher.map(({ bar, height }) => workOneBar(worked, bar, height)),
  );
}

/** What a higher bar adds goes to the grip as far as the seat can go down; the rest stands above the jaws. */
function workOneBar(worked: Case, bar: BarOffer, height: number): Proposal {
  const { setup, blank, state } = worked;
  const added = height - setup.section.height.nominal;
  const spare = Math.max(0, blank.stack.availableGrip.least - blank.stack.grip.least);
  const extra = Math.min(added + spare, Math.max(0, getSeatLimit(worked) - blank.stack.grip.least));
  const changed = withGrip(state, extra);
  const stands = { ...changed, proudHeight: state.proudHeight + added - extra };
  return {
    change: { kind: 'bar', barId: bar.id, wayUp: setup.section.wayUp.value },
    reckoned: getFactor(stands),
    say: ({ grip }) => `Take the ${bar.name}, grip ${say(worked, grip)}`,
  };
}

/** The first that is reckoned enough, in the order given, else the best. */
function takeLeastOrBest({ target }: Case, proposals: Proposal[]): Proposal[] {
  const enough = proposals.find(({ reckoned }) => reckoned >= target);
  const best = proposals.reduce<Proposal | undefined>(
    (found, one) => (found === undefined || one.reckoned > found.reckoned ? one : found),
    undefined,
  );
  const taken = enough ?? best;
  return taken === undefined ? [] : [taken];
}

/** Deepest grip the seat in force can give, mm. */
function getSeatLimit({ setup }: Case): number {
  const { seat } = setup;
  return seat.choice.value.kind === 'shelf' ? seat.deepestLegalShelf.value : seat.jawHeight;
}

function withGrip(state: HoldState, extra: number): HoldState {
  return {
    ...state,
    grip: { ...state.grip, flatGrip: Math.max(0, state.grip.flatGrip + extra) },
    proudHeight: Math.max(0, state.proudHeight - extra),
    clearance: Math.max(0, state.clearance - extra),
  };
}

/**
 * Least amount, a multiple of the step, that is enough; `most` when nothing up to it is. What is enough stays enough
 * with more of it.
 */
function findLeast(most: number, step: number, isEnough: (amount: number) => boolean): number {
  if (!isEnough(most)) return most;
  let low = 0;
  let high = most;
  for (let index = 0; index < BISECTIONS; index += 1) {
    const middle = (low + high) / 2;
    if (isEnough(middle)) high = middle;
    else low = middle;
  }
  return step > 0 ? Math.min(most, Math.ceil(high / step - 1e-9) * step) : high;
}

function getFactor(state: HoldState): number {
  return computeWeakestFactor(state) ?? 0;
}

function say({ context }: Case, length: number): string {
  return formatLength(length, context.units, { unit: true });
}
