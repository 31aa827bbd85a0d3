import { keepByObject, keepByPair } from '../model/memo';
import type { EngineContext } from './context';
import { type CutForce, type CutSpec, computeCutForce } from './cut-force';
import { computeLoadHeight, getCutSpec } from './cut-forces';
import { getDeepestCutOff } from './release-depth';
import type { VisesResult } from './results';
import type { CutterChoice, SeatedBlank, SectionSetup, Setup } from './setup';
import { computeLiftFactor, computeSlipFactor, computeTipFactor, type GripLoad, type GripState } from './vise-grip';

/** One cut with what its force hangs on, so that it can be taken again with other sizes. */
export interface HeldCut {
  cutId: string;
  name: string;
  spec: CutSpec;
}

/** Everything the hold of one blank hangs on, as plain numbers, so that it can be taken again with one of them changed. */
export interface HoldState {
  grip: GripState;
  /** Height of the blank above the jaw tops, mm. */
  proudHeight: number;
  /** Gap from jaw tops to the cut-off cutter, mm. */
  clearance: number;
  kerf: number;
  cuts: readonly HeldCut[];
}

/** The factors of one cut. */
export interface HoldFactors {
  slip: number;
  tip: number;
  lift: number;
  factor: number;
  by: 'slip' | 'tip' | 'lift';
}

/** Every blank of a plan is worked on by the same cuts, so their forces are worked out once. */
const getForce = keepByObject(computeCutForce);

/** The cuts of a plan that can be made. */
const getHeldCuts = keepByPair((context: EngineContext, cutter: CutterChoice): readonly HeldCut[] => {
  const deepest = getDeepestCutOff(context, { cutter });
  return context.plan.cuts.flatMap((cut): HeldCut[] => {
    const spec = getCutSpec(context, { cutter }, cut, deepest);
    return spec !== null && getForce(spec).feasible ? [{ cutId: cut.id, name: cut.name, spec }] : [];
  });
});

/** What of a setup the hold hangs on, beside the blank. */
export type HoldingSetup = SectionSetup & { readonly vises: Pick<VisesResult, 'countedClampForceN'> };

/** What holds a blank and what works on it. Cuts that cannot be made are left out. */
export function getHoldState(
  context: EngineContext,
  setup: HoldingSetup,
  blank: Pick<SeatedBlank, 'contacts' | 'stack'>,
): HoldState {
  return {
    grip: {
      clampForceN: setup.vises.countedClampForceN * countTouching(blank),
      friction: getJawFriction(context, setup),
      flatGrip: Math.max(0, blank.stack.grip.least - setup.section.cornerRadius),
      bothFaces: context.vise?.movingJawCannotCock ?? false,
    },
    proudHeight: blank.stack.proudHeight.nominal,
    clearance: blank.stack.clearance,
    kerf: setup.cutter.kerf,
    cuts: getHeldCuts(context, setup.cutter),
  };
}

/** Vises that touch a blank. */
export function countTouching(blank: Pick<SeatedBlank, 'contacts'>): number {
  return new Set(blank.contacts.map((contact) => contact.viseIndex)).size;
}

/** Friction of the plan's jaw on the plan's bar: by the jaw's face, the bar's surface and the metal. 0 without jaws. */
export function getJawFriction(context: EngineContext, setup: Pick<Setup, 'section'>): number {
  const { jawSet, material } = context;
  return jawSet === null ? 0 : jawSet.friction[setup.section.surface] * (material?.jawFrictionFactor ?? 1);
}

/** Load of one cut on the blank. */
export function getGripLoad(state: HoldState, spec: CutSpec, force: CutForce): GripLoad {
  const stack = { clearance: state.clearance, proudHeight: { nominal: state.proudHeight } };
  return {
    sideForceN: force.sideForceN,
    liftForceN: force.liftForceN,
    loadHeight: computeLoadHeight(spec, state.kerf, stack),
  };
}

/** Factors of one cut against slipping, tipping and being pulled up. */
export function computeHoldFactors(state: HoldState, spec: CutSpec): HoldFactors {
  const load = getGripLoad(state, spec, getForce(spec));
  const slip = computeSlipFactor(state.grip, load);
  const tip = computeTipFactor(state.grip, load);
  const lift = computeLiftFactor(state.grip, load);
  const factor = Math.min(slip, tip, lift);
  return { slip, tip, lift, factor, by: factor === tip ? 'tip' : factor === slip ? 'slip' : 'lift' };
}

/** The lowest factor over all cuts; null when no cut works on the blank. */
export function computeWeakestFactor(state: HoldState): number | null {
  let weakest: number | null = null;
  for (const { spec } of state.cuts) {
    const { factor } = computeHoldFactors(state, spec);
    if (weakest === null || factor < weakest) weakest = factor;
  }
  return weakest;
}

/** Pressure of the jaw allowed on the bar: a share of the softer yield strength, N/mm². */
export function getPressureAllowedMPa(context: EngineContext): number {
  const strengths = [context.material?.yieldStrengthMPa, context.jawSet?.yieldStrengthMPa].filter(
    (strength): strength is number => strength !== undefined && strength > 0,
  );
  return strengths.length > 0 ? Math.min(...strengths) * Math.max(0, context.rules.jawPressureFraction) : 0;
}

/** Contact length of each vise that touches the blank, mm. */
export function getContactLengths(blank: Pick<SeatedBlank, 'contacts'>): number[] {
  const byVise = new Map<number, number>();
  for (const contact of blank.contacts) {
    byVise.set(contact.viseIndex, (byVise.get(contact.viseIndex) ?? 0) + Math.max(0, contact.to - contact.from));
  }
  return [...byVise.values()];
}
