import type { Cut } from '../model/plan';
import type { Holder, Tool } from '../model/shop';
import { formatLength } from '../units/format';
import { computeRoundSecondMoment, type RoundStep } from './beam';
import type { EngineContext } from './context';
import { getCutTool, getPassDepth } from './cut-forces';
import { getDecided } from './decide';
import type { Decided, Figure } from './figure';
import { getDeepestCutOff } from './release-depth';
import type { CutForceResult, ReachResult } from './results';
import type { SeatedBlank, Setup } from './setup';
import {
  computeToolDeflection,
  getSlenderDiameter,
  getToolSteps,
  TOOL_BENDING_SOURCE,
  TOOL_YOUNGS_MODULUS_MPA,
} from './tool-bending';
import { getLeastStickOut, getMostStickOut } from './tool-length';
import { COMMON_PRACTICE, GEOMETRY, getFigure, getInput, getTextInput } from './workings';

/** One cut, its tool and holder, and how far down it works. Lengths mm, heights from the jaw tops. */
interface Reaching {
  context: EngineContext;
  cut: Cut;
  tool: Tool;
  holder: Holder | null;
  /** Lowest the tip goes. */
  tipZ: number;
  /** Highest metal that passes beside the holder. */
  topZ: number;
  /** Depth the cut-off goes in from one side. */
  cutOffDepth: number;
  /** Least gap between the cut-off cutter and the jaw tops over the blanks. */
  leastClearance: number;
  sideForceN: number;
}

/** Sticking out further than needed by more than this is pointless, mm. */
const SAME = 1e-6;

/**
 * Long tools: how far each must stick out, how far it bends, whether its holder, shank or neck meets the work, and in
 * how many steps it goes down. One row for each cut whose tool is known.
 */
export function computeReach(context: EngineContext, setup: Setup, cuts: readonly CutForceResult[]): ReachResult[] {
  return context.plan.cuts.flatMap((cut): ReachResult[] => {
    const tool = getCutTool(context, setup, cut);
    if (tool === null || !(tool.diameter > 0)) return [];
    const heights = getHeights(setup, cut);
    const reaching: Reaching = {
      context,
      cut,
      tool,
      holder: context.holderById.get(cut.holderId) ?? null,
      ...heights,
      cutOffDepth: cut.kind === 'cutOff' ? getDeepestCutOff(context, setup) : 0,
      leastClearance: Math.min(...setup.blanks.map(({ stack }) => stack.clearance)),
      sideForceN: cuts.find((one) => one.cutId === cut.id)?.sideForceN.value ?? 0,
    };
    return [getReach(reaching)];
  });
}

function getReach(reaching: Reaching): ReachResult {
  const { context, cut, tool, holder, tipZ, topZ } = reaching;
  const need = getNeed(reaching);
  const stickOut = decideStickOut(reaching, need);
  const limits = getRatioLimits(context, tool);
  const noseZ = tipZ + stickOut.value;
  return {
    cutId: cut.id,
    toolId: tool.id,
    stickOut,
    needStickOut: need,
    mostStickOut: getMostStickOut(tool),
    ratio: getRatioFigure(tool, stickOut.value),
    ratioComfort: limits.comfort,
    ratioLimit: limits.most,
    deflection: getDeflectionFigure(reaching, stickOut.value),
    stepDowns: countStepDowns(reaching),
    clash: getClash(reaching, stickOut.value, need),
    holderGap: noseZ - topZ,
    holderId: holder?.id ?? '',
    tipZ,
    noseZ,
    axisFromWork: getAxisFromWork(reaching),
    beyondFlutes: getBeyondFlutes(reaching),
  };
}

/** How deep a cut goes and what stands beside it, over every blank of the plan. */
function getHeights(setup: Setup, cut: Cut): Pick<Reaching, 'tipZ' | 'topZ'> {
  const rows = setup.blanks.map((blank) => getBlankHeights(setup, cut, blank));
  const deepest = rows.reduce<Pick<Reaching, 'tipZ' | 'topZ'> | undefined>(
    (found, row) => (found === undefined || row.topZ - row.tipZ > found.topZ - found.tipZ ? row : found),
    undefined,
  );
  return deepest ?? { tipZ: 0, topZ: 0 };
}

function getBlankHeights(setup: Setup, cut: Cut, blank: SeatedBlank): Pick<Reaching, 'tipZ' | 'topZ'> {
  const { stack } = blank;
  const raw = stack.proudHeight.nominal;
  const cleanup = stack.slices.find((slice) => slice.kind === 'cleanup')?.height ?? 0;
  const cleaned = raw - cleanup;
  const floor = Math.max(0, stack.clearance);
  switch (cut.kind) {
    // The profile is cut down past the slot, so that the cut-off cutter has room beside it.
    case 'side':
    case 'slot':
    case 'plunge':
      return { tipZ: Math.min(floor, raw), topZ: raw };
    case 'cutOff':
      return { tipZ: Math.min(floor, cleaned), topZ: cleaned };
    case 'chamfer':
      return { tipZ: cleaned - Math.max(0, cut.stepDown), topZ: cleaned };
    case 'drill':
      return { tipZ: Math.min(floor + setup.cutter.kerf, raw), topZ: raw };
    default:
      return cut.kind satisfies never;
  }
}

/** Stick-out a cut needs: its depth and the holder's clearance, and never less than what must not be clamped. */
function getNeed({ context, tool, tipZ, topZ }: Reaching): number {
  return Math.max(topZ - tipZ + Math.max(0, context.rules.holderClearance), getLeastStickOut(tool));
}

function decideStickOut({ context, cut, tool, tipZ, topZ }: Reaching, need: number): Decided<number> {
  return getDecided(cut.stickOut, need, {
    rule: 'Deep enough for the cut with the holder clear, and never clamped on flutes, head or neck',
    formula: 'stick-out = max(depth + holder clearance, not to be clamped)',
    inputs: [
      getTextInput('tool', tool.name),
      getInput('depth', topZ - tipZ, 'length'),
      getInput('holder clearance', context.rules.holderClearance, 'length'),
      getInput('not to be clamped', getLeastStickOut(tool), 'length'),
      getInput('most it can stick out', getMostStickOut(tool), 'length'),
    ],
    source: GEOMETRY,
  });
}

function getRatioLimits(context: EngineContext, tool: Tool): { comfort: number; most: number } {
  const { rules } = context;
  return tool.toolMaterial === 'carbide'
    ? { comfort: rules.stickOutComfortCarbide, most: rules.stickOutLimitCarbide }
    : { comfort: rules.stickOutComfortHss, most: rules.stickOutLimitHss };
}

function getRatioFigure(tool: Tool, stickOut: number): Figure {
  const diameter = getSlenderDiameter(tool);
  const isNeck = tool.kind === 'keySeat' && diameter === tool.neckDiameter;
  return getFigure('ratio', diameter > 0 ? stickOut / diameter : 0, {
    rule: `Stick-out over the ${isNeck ? 'neck' : tool.kind === 'slittingSaw' ? 'arbor' : 'tool'}’s diameter; the limit belongs to the tool’s material`,
    formula: 'ratio = stick-out / d',
    inputs: [getInput('stick-out', stickOut, 'length'), getInput('d', diameter, 'length')],
    source: COMMON_PRACTICE,
  });
}

function getDeflectionFigure({ context, tool, sideForceN }: Reaching, stickOut: number): Figure {
  const factor = context.rules.equivalentDiameterFactor;
  const stretches = getStretches(getToolSteps(tool, stickOut, factor));
  return getFigure('length', computeToolDeflection(tool, sideForceN, stickOut, factor), {
    rule: 'Tip of the tool under the cut, as a stepped cantilever: flutes at their equivalent diameter, neck, shank; an estimate',
    formula: getBendingFormula(stretches),
    inputs: [
      getInput('F', sideForceN, 'force'),
      ...stretches.flatMap(({ s, d, i, end, step, secondMomentMm4 }) => [
        getInput(s, end, 'length'),
        getInput(d, step.diameter, 'length'),
        getInput(i, secondMomentMm4, 'secondMoment'),
      ]),
      getInput('cutter', tool.diameter, 'length'),
      getInput('flutes count as, over the cutter', factor, 'ratio'),
      getInput('E', TOOL_YOUNGS_MODULUS_MPA[tool.toolMaterial], 'stress'),
    ],
    source: TOOL_BENDING_SOURCE,
  });
}

/** A stretch of the tool of one diameter, with the names its sizes go by in the formula; `end` from the tip, mm. */
interface Stretch {
  s: string;
  d: string;
  i: string;
  end: number;
  step: RoundStep;
  secondMomentMm4: number;
}

function getStretches(steps: readonly RoundStep[]): Stretch[] {
  let end = 0;
  return steps.map((step, index) => {
    end += step.length;
    const secondMomentMm4 = computeRoundSecondMoment(step.diameter);
    return { s: `s${index + 1}`, d: `d${index + 1}`, i: `I${index + 1}`, end, step, secondMomentMm4 };
  });
}

/** Castigliano's sum written out, one term for each stretch from the tip. */
function getBendingFormula(stretches: readonly Stretch[]): string {
  const terms = stretches.map(({ s, i }, index) => {
    const before = stretches[index - 1];
    return before === undefined ? `${s}³ / ${i}` : `(${s}³ - ${before.s}³) / ${i}`;
  });
  const moments = stretches.map(({ d, i }) => `${i} = π ${d}⁴ / 64`);
  return terms.length === 0 ? '' : [`δ = F / (3 E) (${terms.join(' + ')})`, ...moments].join(', ');
}

function countStepDowns({ cut, tipZ, topZ, cutOffDepth }: Reaching): number {
  if (cut.kind === 'drill' || cut.kind === 'chamfer') return 1;
  const whole = cut.kind === 'cutOff' ? cutOffDepth : topZ - tipZ;
  const step = cut.kind === 'cutOff' ? getPassDepth(cut, cutOffDepth) : cut.stepDown;
  return step > 0 && whole > 0 ? Math.min(MOST_STEPS, Math.ceil(whole / step - 1e-9)) : 0;
}

const MOST_STEPS = 9999;

/** How far the tool's axis stays from the side of the finished work, mm; under 0 it stands over the work. */
function getAxisFromWork({ cut, tool, cutOffDepth }: Reaching): number {
  const radius = tool.diameter / 2;
  switch (cut.kind) {
    case 'cutOff':
      return radius - cutOffDepth;
    case 'side':
      return radius;
    case 'slot':
    case 'plunge':
    case 'chamfer':
    case 'drill':
      return 0;
    default:
      return cut.kind satisfies never;
  }
}

/** Depth of wall that rubs on a plain shank above the flutes, mm; 0 where the flutes or a relieved neck pass it. */
function getBeyondFlutes({ cut, tool, tipZ, topZ }: Reaching): number {
  if (tool.kind !== 'endMill' || cut.kind === 'chamfer') return 0;
  if (tool.shankDiameter < tool.diameter - 0.01) return 0;
  return Math.max(0, topZ - tipZ - getLeastStickOut(tool));
}

function getClash(reaching: Reaching, stickOut: number, need: number): string {
  const { context, tool } = reaching;
  const say = (length: number) => formatLength(length, context.units, { unit: true });
  const most = getMostStickOut(tool);
  const least = getLeastStickOut(tool);
  const problems: string[] = [];
  if (need > most + SAME) {
    problems.push(`the tool is too short: it needs ${say(need)} out of the holder and has ${say(most)} to give`);
  } else if (stickOut > most + SAME) {
    problems.push(`only ${say(most)} can stick out with enough shank held`);
  }
  if (stickOut < least - SAME) problems.push(`the holder clamps ${getClampedWord(tool)}`);
  const holder = getHolderClash(reaching, stickOut);
  if (holder > 0) problems.push(`the holder runs ${say(holder)} into the work`);
  const screw = getScrewClash(reaching);
  if (screw > 0) problems.push(`the screw below the saw runs ${say(screw)} into the jaws`);
  const shank = getShankClash(reaching);
  if (shank > 0) problems.push(`the shank is wider than the cutter and rubs on ${say(shank)} of the wall`);
  return problems.join('; ');
}

function getClampedWord(tool: Tool): string {
  if (tool.kind === 'keySeat') return 'the neck';
  return tool.kind === 'slittingSaw' ? 'the saw' : 'the flutes or the neck';
}

/**
 * How far the holder's nose, and the body behind it, goes below the highest metal beside it, mm; 0 where it stays above
 * or clear to the side.
 */
function getHolderClash(reaching: Reaching, stickOut: number): number {
  const { context, holder, tipZ, topZ } = reaching;
  if (holder === null) return Math.max(0, topZ - (tipZ + stickOut)) > SAME ? topZ - (tipZ + stickOut) : 0;
  const axis = getAxisFromWork(reaching);
  const clear = Math.max(0, context.rules.runningClearance);
  const getDepth = (diameter: number, bottomZ: number): number =>
    diameter / 2 + clear > axis + SAME ? Math.max(0, topZ - bottomZ) : 0;
  const noseZ = tipZ + stickOut;
  const depth = Math.max(
    getDepth(holder.noseDiameter, noseZ),
    getDepth(holder.bodyDiameter, noseZ + Math.max(0, holder.noseLength)),
  );
  return depth > SAME ? depth : 0;
}

/** How far the screw below a saw would go below the jaw tops, mm. */
function getScrewClash({ cut, tool, leastClearance }: Reaching): number {
  if (cut.kind !== 'cutOff' || tool.kind !== 'slittingSaw' || !Number.isFinite(leastClearance)) return 0;
  const depth = Math.max(0, tool.screwHeight) - Math.max(0, leastClearance);
  return tool.screwHeight > 0 && depth > SAME ? depth : 0;
}

/** Length of wall that a shank wider than the cutter would rub on, mm. The cut-off's reach already allows for its shank. */
function getShankClash({ cut, tool, tipZ, topZ }: Reaching): number {
  const isWall = cut.kind === 'side' || cut.kind === 'slot' || cut.kind === 'plunge';
  if (!isWall || tool.shankDiameter <= tool.diameter + 0.01) return 0;
  const depth = topZ - (tipZ + getLeastStickOut(tool));
  return depth > SAME ? depth : 0;
}
