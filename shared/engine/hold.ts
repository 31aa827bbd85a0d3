import type { EngineContext } from './context';
import { computeCutForce } from './cut-force';
import type { Figure, WhyInput } from './figure';
import {
  computeHoldFactors,
  computeWeakestFactor,
  getContactLengths,
  getGripLoad,
  getHoldState,
  getPressureAllowedMPa,
  type HeldCut,
  type HoldState,
} from './hold-state';
import { computeRemedies, getWeakestBlank } from './remedies';
import type { HoldResult, HoldRow } from './results';
import type { SeatedBlank, Setup } from './setup';
import {
  computeJawPressureMPa,
  computeOpeningMomentNmm,
  computeTipMomentNmm,
  GRIP_SOURCE,
  type GripLoad,
  type GripState,
} from './vise-grip';
import { getFactor, getFigure, getInput } from './workings';

/**
 * The lowest hold factor of a blank alone, for comparing many setups.
 *
 * @returns null when no cut works on it
 */
export function computeHoldFactor(context: EngineContext, setup: Setup, blank: SeatedBlank): number | null {
  return computeWeakestFactor(getHoldState(context, setup, blank));
}

/**
 * Does it hold? Every cut against slip, tip and lift with the clamp force of the vises that touch the blank, the
 * weakest of them, the pressure of the jaws, and the changes that help most.
 */
export function computeHold(context: EngineContext, setup: Setup, blank: SeatedBlank): HoldResult {
  const state = getHoldState(context, setup, blank);
  const rows = state.cuts.map((cut) => getRow(state, cut));
  const weakest = rows.reduce<HoldRow | null>(
    (worst, row) => (worst === null || row.factor < worst.factor ? row : worst),
    null,
  );
  return {
    rows,
    weakest: weakest === null ? null : getWeakest(weakest),
    jawPressureMPa: getPressureFigure(setup, blank, state),
    jawPressureAllowedMPa: getPressureAllowedMPa(context),
    remedies: blank === getWeakestBlank(context, setup) ? computeRemedies(context, setup, blank, state) : [],
  };
}

function getWeakest(row: HoldRow): HoldResult['weakest'] {
  if (row.factor === row.tipFactor.value) return { cutId: row.cutId, factor: row.tipFactor, by: 'tip' };
  return row.factor === row.slipFactor.value
    ? { cutId: row.cutId, factor: row.slipFactor, by: 'slip' }
    : { cutId: row.cutId, factor: row.liftFactor, by: 'lift' };
}

function getRow(state: HoldState, cut: HeldCut): HoldRow {
  const force = computeCutForce(cut.spec);
  const load = getGripLoad(state, cut.spec, force);
  const factors = computeHoldFactors(state, cut.spec);
  const tipMoment = computeTipMomentNmm(state.grip, load);
  return {
    cutId: cut.cutId,
    slipFactor: getSlipFigure(factors.slip, state.grip, load),
    tipFactor: getTipFigure(factors.tip, state.grip, load),
    liftFactor: getLiftFigure(factors.lift, state.grip, load),
    factor: factors.factor,
    opens: tipMoment > computeOpeningMomentNmm(state.grip),
    openingFactor: getFactor(computeOpeningMomentNmm(state.grip), tipMoment),
    loadHeight: load.loadHeight,
  };
}

const ESTIMATE = 'an estimate, not a guarantee of holding';

function getCommonInputs(grip: GripState, load: GripLoad): WhyInput[] {
  return [
    getInput('N', grip.clampForceN, 'force'),
    getInput('μ', grip.friction, 'ratio'),
    getInput('F', load.sideForceN, 'force'),
    getInput('Fz', load.liftForceN, 'force'),
  ];
}

function getSlipFigure(factor: number, grip: GripState, load: GripLoad): Figure {
  return getFigure('ratio', factor, {
    rule: `Factor against slipping along the jaws, two faces; ${ESTIMATE}`,
    formula: 'S = 2 μ N / √(F² + Fz²)',
    inputs: getCommonInputs(grip, load),
    source: GRIP_SOURCE,
  });
}

function getLiftFigure(factor: number, grip: GripState, load: GripLoad): Figure {
  if (!(load.liftForceN > 0)) {
    return getFigure('ratio', factor, {
      rule: 'This cut does not pull the work up: as good as unlimited',
      formula: '',
      inputs: getCommonInputs(grip, load),
      source: GRIP_SOURCE,
    });
  }
  return getFigure('ratio', factor, {
    rule: `Factor against being pulled up while the side force takes off the grip; ${ESTIMATE}`,
    formula: 'S = 2 μ N / (Fz + μ F)',
    inputs: getCommonInputs(grip, load),
    source: GRIP_SOURCE,
  });
}

function getTipFigure(factor: number, grip: GripState, load: GripLoad): Figure {
  const faces = grip.bothFaces ? 'both faces, as the moving jaw cannot cock' : 'the fixed face only';
  return getFigure('ratio', factor, {
    rule: `Factor against rolling out of the jaws, ${faces}; ${ESTIMATE}`,
    formula: grip.bothFaces ? 'S = N g / (F (z + g/2))' : 'S = (N g / 2) / (F (z + g/2))',
    inputs: [
      getInput('N', grip.clampForceN, 'force'),
      getInput('g', grip.flatGrip, 'length'),
      getInput('F', load.sideForceN, 'force'),
      getInput('z', load.loadHeight, 'length'),
      getInput('opens at', computeOpeningMomentNmm(grip), 'moment'),
      getInput('moment', computeTipMomentNmm(grip, load), 'moment'),
    ],
    source: GRIP_SOURCE,
  });
}

function getPressureFigure(setup: Setup, blank: SeatedBlank, state: HoldState): Figure {
  const lengths = getContactLengths(blank);
  const shortest = lengths.length > 0 ? Math.min(...lengths) : 0;
  const force = setup.vises.clampForceN.value;
  return getFigure('stress', computeJawPressureMPa(force, shortest, state.grip.flatGrip), {
    rule: 'Mean pressure of the jaw on the bar where the contact is shortest, at the full clamp force',
    formula: 'p = C / (contact length × flat grip)',
    inputs: [
      getInput('C', force, 'force'),
      getInput('contact length', shortest, 'length'),
      getInput('flat grip', state.grip.flatGrip, 'length'),
    ],
    source: GRIP_SOURCE,
  });
}
