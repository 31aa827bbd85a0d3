import { BEAM_SOURCE, computeBeamDeflection, computeLongestOverhang, type Stiffness } from './beam';
import { type EngineContext, getAllowance } from './context';
import { computeLoadHeight } from './cut-forces';
import type { Figure } from './figure';
import { computeWallDeflection, type Wall } from './plate';
import type { CutForceResult, DeflectionResult } from './results';
import type { SeatedBlank, Setup } from './setup';
import { getBarStiffness } from './span-limits';
import { getFigure, getInput, getTextInput } from './workings';

/** The cut that pushes hardest, for the workings. */
interface HeaviestCut {
  name: string;
  sideForceN: number;
}

const ESTIMATE = 'an estimate';

/**
 * How far the work bends under the cuts: the wall above the jaws, what stands out past the last jaw, and the bar
 * between vises, each under the heaviest side force (DESIGN of the engine, point 7).
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
  const overhang = getOverhangFigure(blank, heaviest, stiffness);
  const betweenVises = getGapFigure(blank, heaviest, stiffness);
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
    rule: `Longest overhang that bends no more than the limit; ${ESTIMATE}`,
    formula: 'a = ∛(3 E I δ / F)',
    inputs: [...getBarInputs(heaviest, stiffness), getInput('δ', limit, 'length')],
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

function getBarInputs(heaviest: HeaviestCut, stiffness: Stiffness) {
  return [
    getTextInput('cut', heaviest.name),
    getInput('F', heaviest.sideForceN, 'force'),
    getInput('E', stiffness.youngsModulusMPa, 'stress'),
    getTextInput('I = H T³ / 12', `${Math.round(stiffness.secondMomentMm4)} mm⁴`),
  ];
}

function getOverhangFigure(blank: SeatedBlank, heaviest: HeaviestCut, stiffness: Stiffness): Figure {
  const overhang = Math.max(blank.overhangLeft, blank.overhangRight);
  return getFigure('length', computeBeamDeflection('cantileverEnd', heaviest.sideForceN, overhang, stiffness), {
    rule: `End of the bar past the last jaw, as a cantilever; ${ESTIMATE}`,
    formula: 'δ = F a³ / (3 E I)',
    inputs: [...getBarInputs(heaviest, stiffness), getInput('a', overhang, 'length')],
    source: BEAM_SOURCE,
  });
}

function getGapFigure(blank: SeatedBlank, heaviest: HeaviestCut, stiffness: Stiffness): Figure {
  const gap = blank.largestGap;
  return getFigure('length', computeBeamDeflection('fixedCentre', heaviest.sideForceN, gap, stiffness), {
    rule: `Bar between two vises, fixed at both; ${ESTIMATE}`,
    formula: 'δ = F L³ / (192 E I)',
    inputs: [...getBarInputs(heaviest, stiffness), getInput('L', gap, 'length')],
    source: BEAM_SOURCE,
  });
}

/** The wall at the end of a part, milled to what the sides keep: its weakest state. The cut-off works at its foot and counts too. */
function getWallFigure(
  context: EngineContext,
  setup: Setup,
  blank: SeatedBlank,
  cuts: readonly CutForceResult[],
): Figure {
  const thickness = getWallThickness(context, setup, blank);
  const youngsModulusMPa = context.material?.youngsModulusMPa ?? 0;
  let worst = { name: 'none', forceN: 0, wall: getWall(blank, thickness, 0), deflection: 0 };
  for (const cut of cuts) {
    const plan = context.plan.cuts.find((one) => one.id === cut.cutId);
    if (plan === undefined || !cut.feasible) continue;
    const wall = getWall(blank, thickness, computeLoadHeight(plan, setup.cutter.kerf, blank.stack));
    const deflection = computeWallDeflection(cut.sideForceN.value, youngsModulusMPa, wall);
    if (deflection > worst.deflection) worst = { name: cut.name, forceN: cut.sideForceN.value, wall, deflection };
  }
  return getFigure('length', worst.deflection, {
    rule: `Wall above the jaws at the end of the blank, milled down, as a cantilever over which the load spreads at 45°; ${ESTIMATE}, by a plate series up to a quarter too low at an end`,
    formula: 'δ = F z³ / (3 E I), I = b T³ / 12, b = z at an end',
    inputs: [
      getTextInput('cut', worst.name),
      getInput('F', worst.forceN, 'force'),
      getInput('z', worst.wall.loadHeight, 'length'),
      getInput('T', thickness, 'length'),
      getInput('E', youngsModulusMPa, 'stress'),
    ],
    source: `${BEAM_SOURCE}; 45° spread: common practice, no source`,
  });
}

function getWall(blank: SeatedBlank, thickness: number, loadHeight: number): Wall {
  return { loadHeight, thickness, length: blank.length, loadFromEnd: 0 };
}

/** Thickness of the wall once the sides are milled to what they keep, at the thinnest part on the blank, mm. */
function getWallThickness(context: EngineContext, setup: Setup, blank: SeatedBlank): number {
  const widths = blank.parts.flatMap(({ partId }) => {
    const part = context.partById.get(partId);
    if (part === undefined) return [];
    const allowance = getAllowance(context, part);
    return [part.thickness + allowance.fixedSide + allowance.movingSide];
  });
  return Math.min(setup.section.thickness.nominal, ...widths);
}
