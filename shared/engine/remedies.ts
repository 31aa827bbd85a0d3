import type { ClampChoice } from '../model/plan';
import type { BarOffer, JawSet } from '../model/shop';
import { formatLength } from '../units/format';
import { formatNumber } from '../units/format-number';
import { formatQuantity } from '../units/quantity';
import { computeClamp } from './clamp';
import type { EngineContext } from './context';
import {
  computeHoldFactors,
  computeWeakestFactor,
  getContactLengths,
  getPressureAllowedMPa,
  type HeldCut,
  type HoldState,
} from './hold-state';
import type { Remedy, RemedyChange } from './results';
import { roundDownToStep, SAME_LENGTH } from './rounding';
import { computeNutFactor } from './screw';
import type { SeatedBlank, Setup } from './setup';

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
 * The changes that help the hold of a blank most. Each is worked out by taking the hold again with it made: the least of
 * it that brings the factor to where the shop calls it comfortable, or as much as there is room for.
 *
 * @returns at most three, best first; none when the hold is comfortable
 */
export function computeRemedies(context: EngineContext, setup: Setup, blank: SeatedBlank, state: HoldState): Remedy[] {
  const target = Math.max(1, context.rules.holdFactorCheck);
  const current = computeWeakestFactor(state) ?? target;
  if (current >= target) return [];
  const worked: Case = { context, setup, blank, state, target };
  return [...REMEDIES.values()]
    .flatMap((work) => work(worked))
    .filter((remedy) => remedy.factor > current * WORTH_IT && remedy.factor > 0)
    .sort((a, b) => b.factor - a.factor)
    .slice(0, SHOWN);
}

type Work = (worked: Case) => Remedy[];

const REMEDIES: ReadonlyMap<RemedyChange['kind'], Work> = new Map<RemedyChange['kind'], Work>([
  ['grip', workDeeperGrip],
  ['stepDown', workStepDown],
  ['passDepth', workPassDepth],
  ['jawSet', workJawSet],
  ['clamp', workClamp],
  ['vises', workVises],
  ['bar', workBar],
]);

function workDeeperGrip(worked: Case): Remedy[] {
  const { blank, state, setup, context } = worked;
  const room = Math.min(getSeatLimit(worked), blank.stack.availableGrip.least) - blank.stack.grip.least;
  if (room < SAME_LENGTH) return [];
  const step = context.shelfStep;
  const deeper = findLeast(room, step, (extra) => getFactor(withGrip(state, extra)) >= worked.target);
  const usable = Math.min(room, deeper);
  const targetGrip = setup.seat.grip + usable;
  return [
    getRemedy(worked, withGrip(state, usable), `Grip ${say(worked, usable)} deeper`, { kind: 'grip', targetGrip }),
  ];
}

function workStepDown(worked: Case): Remedy[] {
  return workCuts(worked, 'stepDown', (cut) => cut.spec.kind !== 'cutOff' && cut.spec.kind !== 'drill');
}

function workPassDepth(worked: Case): Remedy[] {
  return workCuts(worked, 'sideEngagement', (cut) => cut.spec.kind === 'cutOff');
}

/** Lighter passes on every cut that falls short, each down to where it no longer does, but not under a tenth. */
function workCuts(worked: Case, size: 'stepDown' | 'sideEngagement', applies: (cut: HeldCut) => boolean): Remedy[] {
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
  return [getRemedy(worked, { ...state, cuts }, `${lead}: ${words}`, change)];
}

function workJawSet(worked: Case): Remedy[] {
  const { context } = worked;
  const known = new Map([...context.shop.jawSets, ...context.plan.library.jawSets].map((jaws) => [jaws.id, jaws]));
  const remedies = [...known.values()].flatMap((jaws) => workOneJawSet(worked, jaws));
  return takeLeastOrBest(worked, remedies);
}

function workOneJawSet(worked: Case, jaws: JawSet): Remedy[] {
  const { context, setup, state, blank } = worked;
  const friction = jaws.friction[setup.section.surface] * (context.material?.jawFrictionFactor ?? 1);
  if (jaws.id === context.jawSet?.id || friction <= state.grip.friction) return [];
  const grip = getGripInJaws(worked, jaws);
  if (grip === null) return [];
  const extra = grip - blank.stack.grip.least;
  const deeper = withGrip(state, extra);
  const changed = { ...deeper, grip: { ...deeper.grip, friction } };
  const seat = setup.seat.choice.value.kind === 'shelf' && !jaws.millable ? ', on parallels' : '';
  const words = `Use ${jaws.name}${seat}, grip ${say(worked, grip)}`;
  return [getRemedy(worked, changed, words, { kind: 'jawSet', jawSetId: jaws.id, grip })];
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

function workClamp(worked: Case): Remedy[] {
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
  return [getRemedy(worked, withForce(forceN), words, { kind: 'clamp', clamp })];
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

function workVises(worked: Case): Remedy[] {
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
  return [getRemedy(worked, { ...state, grip: { ...state.grip, clampForceN } }, words, { kind: 'vises', count: next })];
}

function workBar(worked: Case): Remedy[] {
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
  const remedies = higher.map(({ bar, height }) => workOneBar(worked, bar, height));
  return takeLeastOrBest(worked, remedies);
}

/** What a higher bar adds goes to the grip as far as the seat can go down; the rest stands above the jaws. */
function workOneBar(worked: Case, bar: BarOffer, height: number): Remedy {
  const { setup, blank, state } = worked;
  const added = height - setup.section.height.nominal;
  const spare = Math.max(0, blank.stack.availableGrip.least - blank.stack.grip.least);
  const extra = Math.min(added + spare, Math.max(0, getSeatLimit(worked) - blank.stack.grip.least));
  const changed = withGrip(state, extra);
  const stands = { ...changed, proudHeight: state.proudHeight + added - extra };
  const words = `Take the ${bar.name}, ${say(worked, extra)} more grip`;
  return getRemedy(worked, stands, words, { kind: 'bar', barId: bar.id, wayUp: setup.section.wayUp.value });
}

/** The first that is enough, in the order given, else the best. */
function takeLeastOrBest(worked: Case, remedies: Remedy[]): Remedy[] {
  const enough = remedies.find((remedy) => remedy.factor >= worked.target);
  const best = remedies.reduce<Remedy | undefined>(
    (found, remedy) => (found === undefined || remedy.factor > found.factor ? remedy : found),
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

function getRemedy(worked: Case, changed: HoldState, words: string, change: RemedyChange): Remedy {
  const factor = getFactor(changed);
  const enough = factor >= worked.target - 1e-6 ? '' : ', not enough alone';
  return { sentence: `${words}: factor ${formatNumber(factor, { decimals: 1 })}${enough}.`, factor, change };
}

function say({ context }: Case, length: number): string {
  return formatLength(length, context.units, { unit: true });
}
