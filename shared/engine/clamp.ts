import type { ClampChoice } from '../model/plan';
import type { Vise } from '../model/shop';
import type { EngineContext } from './context';
import type { Figure, WhyInput } from './figure';
import { computeNutFactor, computeNutFactorForceN, computeScrewForceN, SCREW_SOURCE } from './screw';
import { COMMON_PRACTICE, getFigure, getInput, getNonNegative, getTextInput } from './workings';

/** Clamp force of one vise. */
export interface ClampForce {
  /** As entered or as the torque on the handle says; may be more than the vise may be driven to. */
  clampForceN: Figure;
  /** What is counted on: no more than the vise may be driven to, less the scatter of tightening. */
  countedClampForceN: number;
  /** True when the plan asks for more than the vise may be driven to. */
  cappedByVise: boolean;
}

/**
 * Clamp force of each vise of the plan: entered, or from the torque on the handle by the full screw equation or a nut
 * factor. Counted on is no more than the vise may be driven to, less the shop's clamp scatter.
 *
 * @returns forces in N; 0 without a vise
 */
export function computeClamp(context: EngineContext): ClampForce {
  const { clamp } = context.plan.holding;
  const scatter = Math.min(1, getNonNegative(context.rules.clampScatter));
  if (context.vise === null) return getClampForce(0, 0, scatter, getNoViseWhy());
  const limit = getNonNegative(context.vise.maxClampForceN);
  const asked = getAskedForceN(clamp, context.vise);
  const inputs = [
    ...getClampInputs(clamp, context.vise),
    getInput('most the vise may be driven to', limit, 'force'),
    getInput('scatter', scatter, 'fraction'),
    getInput('counted on', Math.min(asked, limit) * (1 - scatter), 'force'),
  ];
  return getClampForce(asked, limit, scatter, getWhyText(clamp), inputs);
}

interface ClampWhy {
  rule: string;
  formula: string;
  source: string;
}

function getClampForce(
  askedN: number,
  limitN: number,
  scatter: number,
  why: ClampWhy,
  inputs: WhyInput[] = [],
): ClampForce {
  return {
    clampForceN: getFigure('force', askedN, { ...why, inputs }),
    countedClampForceN: Math.min(askedN, limitN) * (1 - scatter),
    cappedByVise: askedN > limitN,
  };
}

function getAskedForceN(clamp: ClampChoice, vise: Vise): number {
  if (clamp.kind === 'force') return getNonNegative(clamp.clampForceN);
  return clamp.nutFactor === null
    ? computeScrewForceN(vise.screw, clamp.handleTorqueNm)
    : computeNutFactorForceN(clamp.handleTorqueNm, clamp.nutFactor, vise.screw.nominalDiameter);
}

function getWhyText(clamp: ClampChoice): ClampWhy {
  if (clamp.kind === 'force') {
    return { rule: 'Clamp force as entered', formula: 'C = entered', source: 'entered' };
  }
  return clamp.nutFactor === null
    ? {
        rule: 'Clamp force from the torque on the handle by the screw equation, thread and collar',
        formula: 'C = T / ((dm/2)(l + π f dm sec α)/(π dm - f l sec α) + fc dc/2)',
        source: SCREW_SOURCE,
      }
    : {
        rule: 'Clamp force from the torque on the handle by a nut factor',
        formula: 'C = T / (K d)',
        source: SCREW_SOURCE,
      };
}

function getClampInputs(clamp: ClampChoice, vise: Vise): WhyInput[] {
  if (clamp.kind === 'force') return [getInput('entered', clamp.clampForceN, 'force')];
  const { screw } = vise;
  const torque = getInput('T', clamp.handleTorqueNm, 'torque');
  if (clamp.nutFactor !== null) {
    return [torque, getInput('K', clamp.nutFactor, 'ratio'), getInput('d', screw.nominalDiameter, 'length')];
  }
  return [
    torque,
    getInput('dm', screw.meanDiameter, 'length'),
    getInput('l', screw.lead, 'length'),
    getInput('α', (screw.threadHalfAngleDeg * Math.PI) / 180, 'angle'),
    getInput('f', screw.threadFriction, 'ratio'),
    getInput('fc', screw.collarFriction, 'ratio'),
    getInput('dc', screw.collarMeanDiameter, 'length'),
    getInput('K that this amounts to', computeNutFactor(screw), 'ratio'),
    getTextInput('screw', screw.source),
  ];
}

function getNoViseWhy(): ClampWhy {
  return { rule: 'No vise is chosen', formula: '', source: COMMON_PRACTICE };
}
