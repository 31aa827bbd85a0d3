import { getPinned } from '../model/choice';
import type { Part } from '../model/plan';
import { type EngineContext, getAllowance } from './context';
import { getLengthInput } from './decide';
import type { AcrossResult, SectionResult } from './results';
import { GEOMETRY, getFigure, getTextInput } from './workings';

/** The sum that the thinnest bar must be, mm, and its terms. */
export interface AcrossNeed {
  need: number;
  least: number;
  skinFixed: number;
  skinMoving: number;
  bow: number;
  bothAsSupplied: boolean;
}

/**
 * Thickness a bar must have for a part: `t + allowances + skin on both sides + bow`. A side that stays as supplied needs
 * no skin; when both do, the bar itself must keep the least size of the part.
 *
 * @param bow bow of the bar over the blank, mm; it costs thickness because the part is cut straight out of a bent bar
 */
export function getAcrossNeed(context: EngineContext, section: SectionResult, part: Part, bow: number): AcrossNeed {
  const allowance = getAllowance(context, part);
  const fixedAsSupplied = part.asSupplied.includes('fixedSide');
  const movingAsSupplied = part.asSupplied.includes('movingSide');
  const bothAsSupplied = fixedAsSupplied && movingAsSupplied;
  const skin = Math.max(0, section.skinPerSide.value);
  const skinFixed = fixedAsSupplied ? 0 : skin;
  const skinMoving = movingAsSupplied ? 0 : skin;
  const least = part.thickness - (bothAsSupplied ? Math.max(0, part.thicknessTolerance?.minus ?? 0) : 0);
  const bowCounted = bothAsSupplied ? 0 : bow;
  const need = least + allowance.fixedSide + allowance.movingSide + skinFixed + skinMoving + bowCounted;
  return { need, least, skinFixed, skinMoving, bow: bowCounted, bothAsSupplied };
}

/**
 * How much is missing on one side or the other of a part whose place across the jaws is pinned, mm; 0 where it is not.
 *
 * @param thickness of the bar, mm
 */
export function getPlacedShort(context: EngineContext, section: SectionResult, part: Part, thickness: number): number {
  const fromFixedJaw = getPinned(context.plan.cleanup.fromFixedJaw);
  if (fromFixedJaw === undefined || !Number.isFinite(fromFixedJaw)) return 0;
  const { fixedSide, movingSide } = getAllowance(context, part);
  const skin = Math.max(0, section.skinPerSide.value);
  const skinFixed = part.asSupplied.includes('fixedSide') ? 0 : skin;
  const skinMoving = part.asSupplied.includes('movingSide') ? 0 : skin;
  const left = thickness - fromFixedJaw - fixedSide - part.thickness - movingSide;
  return Math.max(0, skinFixed - fromFixedJaw, skinMoving - left);
}

/**
 * Whether a part comes out of the bar across the jaws: `Tmin >= t + allowances + skin on both sides + bow`,
 * and where it lies between them.
 */
export function computeAcross(context: EngineContext, section: SectionResult, part: Part, bow: number): AcrossResult {
  const allowance = getAllowance(context, part);
  const fixedAsSupplied = part.asSupplied.includes('fixedSide');
  const movingAsSupplied = part.asSupplied.includes('movingSide');
  const counted = getAcrossNeed(context, section, part, bow);
  const { need, least, skinFixed, skinMoving, bothAsSupplied } = counted;
  const most = part.thickness + Math.max(0, part.thicknessTolerance?.plus ?? 0);

  const rest = section.thickness.nominal - part.thickness - allowance.fixedSide - allowance.movingSide;
  const cleanupFixed = getFixedSideCleanup(context, rest, fixedAsSupplied, movingAsSupplied);
  const cleanup = { fixedSide: cleanupFixed, movingSide: rest - cleanupFixed };
  const shortAcross = need - section.thickness.least;

  return {
    partId: part.id,
    shortBy: Math.max(0, shortAcross, getPlacedShort(context, section, part, section.thickness.least)),
    overBy: bothAsSupplied && part.thicknessTolerance !== null ? Math.max(0, section.thickness.most - most) : 0,
    need,
    bow: counted.bow,
    partFromFixedJaw: cleanup.fixedSide + allowance.fixedSide,
    cleanup,
    oneSided: !bothAsSupplied && isOneSided(cleanup.fixedSide, cleanup.movingSide, context.rules.oneSidedRatio),
    why: getFigure('length', need, {
      rule: bothAsSupplied
        ? 'Sides stay as supplied: the thinnest bar must keep the least size of the part'
        : 'The thinnest bar must hold the part, its allowances, the skin to come off and the bow',
      formula: 'need = t + allowance fixed + allowance moving + skin fixed + skin moving + bow <= Tmin',
      inputs: [
        getTextInput('part', part.name),
        getLengthInput('t', least),
        getLengthInput('allowance fixed', allowance.fixedSide),
        getLengthInput('allowance moving', allowance.movingSide),
        getLengthInput('skin fixed', skinFixed),
        getLengthInput('skin moving', skinMoving),
        getLengthInput('bow', counted.bow),
        getLengthInput('Tmin', section.thickness.least),
      ],
      source: GEOMETRY,
    }),
  };
}

/** Auto: the same off both sides; a side left as supplied gives nothing. */
function getFixedSideCleanup(
  context: EngineContext,
  rest: number,
  fixedAsSupplied: boolean,
  movingAsSupplied: boolean,
): number {
  const pinned = getPinned(context.plan.cleanup.fromFixedJaw);
  if (pinned !== undefined && Number.isFinite(pinned)) return pinned;
  if (fixedAsSupplied) return 0;
  return movingAsSupplied ? rest : rest / 2;
}

function isOneSided(fixedSide: number, movingSide: number, ratio: number): boolean {
  const larger = Math.max(fixedSide, movingSide, 0);
  const smaller = Math.max(0, Math.min(fixedSide, movingSide));
  return larger > 1e-6 && larger > smaller * ratio;
}
