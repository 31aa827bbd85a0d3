import type { Part } from '../model/plan';
import { BEAM_SOURCE, computeBeamDeflection, computeLongestOverhang, type Stiffness } from './beam';
import { type EngineContext, getAllowance } from './context';
import { computeLoadHeight } from './cut-forces';
import type { Figure, WhyInput } from './figure';
import { computeShapedWallBend, type WallBend, type WallPoint } from './plate';
import type { CutForceResult, DeflectionResult } from './results';
import type { SeatedBlank, Setup } from './setup';
import { getBarStiffness } from './span-limits';
import { computeWidthProfile } from './width-profile';
import { getFigure, getInput, getTextInput } from './workings';

/** The cut that pushes hardest, for the workings. */
interface HeaviestCut {
  name: string;
  sideForceN: number;
}

const ESTIMATE = 'an estimate';

/**
 * How far the work bends under the cuts: the wall above the jaws, what stands out past the last jaw, and the bar
 * between vises, each under the heaviest side force.
 */
export function computeDeflection(
  context: EngineContext,
  setup: Setup,
  blank: SeatedBlank,
  cuts: readonly CutForceResult[],
): DeflectionResult {
  const heaviest = getHeaviest(cuts);
  const stiffness = getBarStiffness(context, setup.section);
  const proudWall = getWallFigure(context, setup, blank, cuts);
  const inputs = getBarInputs(setup, heaviest, stiffness);
  const overhang = getOverhangFigure(blank, heaviest, stiffness, inputs);
  const betweenVises = getGapFigure(blank, heaviest, stiffness, inputs);
  const worst = [proudWall, overhang, betweenVises].reduce((most, one) => (one.value > most.value ? one : most));
  return { proudWall, overhang, betweenVises, worst };
}

/** Longest overhang past the last jaw whose end bends no more than the shop allows, under the heaviest cut. */
export function computeLongestLegalOverhang(
  context: EngineContext,
  setup: Setup,
  blank: SeatedBlank,
  cuts: readonly CutForceResult[],
): Figure {
  const heaviest = getHeaviest(cuts);
  const stiffness = getBarStiffness(context, setup.section);
  const limit = context.rules.deflectionLimit;
  const longest = computeLongestOverhang(heaviest.sideForceN, limit, stiffness, blank.length);
  return getFigure('length', longest, {
    rule: `Longest overhang that bends no more than the limit, the blank itself at the most; ${ESTIMATE}`,
    formula: 'a = min(blank, ∛(3 E I δ / F)), I = H T³ / 12',
    inputs: [
      ...getBarInputs(setup, heaviest, stiffness),
      getInput('δ', limit, 'length'),
      getInput('blank', blank.length, 'length'),
    ],
    source: BEAM_SOURCE,
  });
}

function getHeaviest(cuts: readonly CutForceResult[]): HeaviestCut {
  return cuts.reduce<HeaviestCut>(
    (most, cut) =>
      cut.sideForceN.value > most.sideForceN ? { name: cut.name, sideForceN: cut.sideForceN.value } : most,
    { name: 'none', sideForceN: 0 },
  );
}

function getBarInputs({ section }: Setup, heaviest: HeaviestCut, stiffness: Stiffness): WhyInput[] {
  return [
    getTextInput('cut', heaviest.name),
    getInput('F', heaviest.sideForceN, 'force'),
    getInput('E', stiffness.youngsModulusMPa, 'stress'),
    getInput('I', stiffness.secondMomentMm4, 'secondMoment'),
    getInput('H', section.height.nominal, 'length'),
    getInput('T', section.thickness.nominal, 'length'),
  ];
}

function getOverhangFigure(
  blank: SeatedBlank,
  heaviest: HeaviestCut,
  stiffness: Stiffness,
  inputs: readonly WhyInput[],
): Figure {
  const overhang = Math.max(blank.overhangLeft, blank.overhangRight);
  return getFigure('length', computeBeamDeflection('cantileverEnd', heaviest.sideForceN, overhang, stiffness), {
    rule: `End of the bar past the last jaw, as a cantilever; ${ESTIMATE}`,
    formula: 'δ = F a³ / (3 E I), I = H T³ / 12',
    inputs: [...inputs, getInput('a', overhang, 'length')],
    source: BEAM_SOURCE,
  });
}

function getGapFigure(
  blank: SeatedBlank,
  heaviest: HeaviestCut,
  stiffness: Stiffness,
  inputs: readonly WhyInput[],
): Figure {
  const gap = blank.largestGap;
  return getFigure('length', computeBeamDeflection('fixedCentre', heaviest.sideForceN, gap, stiffness), {
    rule: `Bar between two vises, fixed at both; ${ESTIMATE}`,
    formula: 'δ = F L³ / (192 E I), I = H T³ / 12',
    inputs: [...inputs, getInput('L', gap, 'length')],
    source: BEAM_SOURCE,
  });
}

/** Where along a part a cut bends its wall most. */
interface BentWall extends WallBend {
  cut: string;
  part: string;
  forceN: number;
  loadHeight: number;
  /** From the part's left end, mm. */
  x: number;
  /** Thickness there, mm. */
  thickness: number;
}

const NO_WALL: BentWall = {
  cut: 'none',
  part: 'none',
  forceN: 0,
  loadHeight: 0,
  x: 0,
  thickness: 0,
  carrying: 0,
  secondMomentMm4: 0,
  deflection: 0,
};

/**
 * The wall of each part milled to what its sides keep, its weakest state, at its ends and wherever its width changes.
 * The cut-off works at its foot and counts too.
 */
function getWallFigure(
  context: EngineContext,
  setup: Setup,
  blank: SeatedBlank,
  cuts: readonly CutForceResult[],
): Figure {
  const partIds = new Set(blank.parts.map(({ partId }) => partId));
  const worst = [...partIds].reduce<BentWall>((most, partId) => {
    const part = context.partById.get(partId);
    const bent = part === undefined ? NO_WALL : getBentWall(context, setup, blank, part, cuts);
    return bent.deflection > most.deflection ? bent : most;
  }, NO_WALL);
  return getFigure('length', worst.deflection, {
    rule: `Wall above the jaws, milled down, where it bends most, as a cantilever over which the load spreads at 45°, I summed as T³ dx / 12 along what carries; ${ESTIMATE}, by a plate series up to a quarter too low at an end`,
    formula: 'δ = F z³ / (3 E I)',
    inputs: [
      getTextInput('cut', worst.cut),
      getTextInput('part', worst.part),
      getInput('at', worst.x, 'length'),
      getInput('F', worst.forceN, 'force'),
      getInput('z', worst.loadHeight, 'length'),
      getInput('T there', worst.thickness, 'length'),
      getInput('wall that carries', worst.carrying, 'length'),
      getInput('I', worst.secondMomentMm4, 'secondMoment'),
      getInput('E', context.material?.youngsModulusMPa ?? 0, 'stress'),
    ],
    source: `${BEAM_SOURCE}; 45° spread: common practice, no source`,
  });
}

function getBentWall(
  context: EngineContext,
  setup: Setup,
  blank: SeatedBlank,
  part: Part,
  cuts: readonly CutForceResult[],
): BentWall {
  const points = getWallPoints(context, setup, part);
  const youngsModulusMPa = context.material?.youngsModulusMPa ?? 0;
  const places = getPlaces(points);
  let worst = NO_WALL;
  for (const cut of cuts) {
    const plan = context.plan.cuts.find((one) => one.id === cut.cutId);
    if (plan === undefined || !cut.feasible) continue;
    const loadHeight = computeLoadHeight(plan, setup.cutter.kerf, blank.stack);
    for (const { x, thickness } of places) {
      const bend = computeShapedWallBend(cut.sideForceN.value, youngsModulusMPa, { points, x, loadHeight });
      if (bend.deflection <= worst.deflection) continue;
      worst = { ...bend, cut: cut.name, part: part.name, forceN: cut.sideForceN.value, loadHeight, x, thickness };
    }
  }
  return worst;
}

/** Thickness of the wall along a part once its sides are milled to what they keep; its ends with their allowance. */
function getWallPoints(context: EngineContext, setup: Setup, part: Part): WallPoint[] {
  const allowance = getAllowance(context, part);
  const sides = allowance.fixedSide + allowance.movingSide;
  const most = setup.section.thickness.nominal;
  const points = computeWidthProfile(part, null).map(({ x, width }) => ({
    x,
    thickness: Math.min(most, width + sides),
  }));
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined) return [];
  return [{ ...first, x: first.x - allowance.leftEnd }, ...points, { ...last, x: last.x + allowance.rightEnd }];
}

/** Every place where the thickness changes course, and the middle of each stretch between. */
function getPlaces(points: readonly WallPoint[]): WallPoint[] {
  return points.flatMap((point, index) => {
    const next = points[index + 1];
    if (next === undefined) return [point];
    return [point, { x: (point.x + next.x) / 2, thickness: (point.thickness + next.thickness) / 2 }];
  });
}
