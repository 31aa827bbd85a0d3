import { getScrewHead } from '../model/catalogue/socket-screws';
import type { JawSet } from '../model/shop';
import type { EngineContext } from './context';
import { getDecided, getLengthInput } from './decide';
import type { Decided, Figure } from './figure';
import type { SectionResult } from './results';
import { clamp, roundDownToStep, roundToStep } from './rounding';
import { COMMON_PRACTICE, GEOMETRY, getFigure } from './workings';

export type ShelfLimit = 'floor' | 'counterbore' | 'jaw';

/** The deepest shelf a jaw may be milled to, mm below its top, and what stops it there. */
export interface ShelfDepthLimit {
  depth: Figure;
  limitedBy: ShelfLimit;
}

/**
 * Deepest legal shelf: the jaw kept below it, and the land kept above the screw counterbores.
 *
 * @returns depth 0, limited by the jaw, when there is no jaw or it is not to be milled
 */
export function computeDeepestShelf(context: EngineContext): ShelfDepthLimit {
  const { jawSet, jawHeight, rules } = context;
  const inputs = [getLengthInput('J', jawHeight), getLengthInput('kept below', rules.jawFloor)];
  if (jawSet === null || !jawSet.millable) {
    return {
      depth: getFigure('length', 0, {
        rule: 'This jaw is not to be milled',
        formula: '',
        inputs,
        source: jawSet?.source ?? '',
      }),
      limitedBy: 'jaw',
    };
  }
  const overFloor = Math.max(0, jawHeight - rules.jawFloor);
  const { bolts } = jawSet;
  const counterboreTop = bolts === null ? null : bolts.centreHeight + bolts.counterboreDiameter / 2;
  const overCounterbore =
    counterboreTop === null
      ? Number.POSITIVE_INFINITY
      : Math.max(0, jawHeight - counterboreTop - rules.counterboreLand);
  if (counterboreTop !== null) {
    inputs.push(getLengthInput('counterbore top', counterboreTop), getLengthInput('land', rules.counterboreLand));
  }
  return {
    depth: getFigure('length', Math.min(overFloor, overCounterbore), {
      rule: 'A shelf keeps jaw below it, and a land above the screw counterbores',
      formula:
        counterboreTop === null ? 'S = J - kept below' : 'S = max(0, min(J - kept below, J - counterbore top - land))',
      inputs,
      source: COMMON_PRACTICE,
    }),
    limitedBy: overFloor <= overCounterbore ? 'floor' : 'counterbore',
  };
}

/** How the shelf is milled: spacer, its height, the ledges it leaves and the wall behind them. */
export interface ShelfRecipe {
  spacer: Decided<number>;
  spacerHeight: Decided<number>;
  ledge: Figure;
  /** Jaw left behind the ledge, mm; negative when the ledge is wider than the jaw is thick. */
  wallBehind: number;
  /** Face of the screw heads from the gripping face, mm; null when the jaw has no screws there. */
  headFace: number | null;
  /** True when the ledge reaches the screw heads at a height where they stand. */
  reachesHead: boolean;
}

/**
 * Recipe of a shelf: `ledge = (T - spacer) / 2`, the jaws closed on the spacer while it is milled.
 *
 * @param depth shelf below the jaw tops, mm
 */
export function computeShelfRecipe(context: EngineContext, section: SectionResult, depth: number): ShelfRecipe {
  const { jawSet, jawHeight, rules, plan } = context;
  const thickness = section.thickness.nominal;
  const headFace = getHeadFace(jawSet);
  const floor = jawHeight - depth;
  const isBesideHeads = headFace !== null && floor < getHeadTop(jawSet);
  const widestLedge = Math.min(
    (jawSet?.thickness ?? 0) - rules.wallBehindLedge,
    isBesideHeads ? headFace : Number.POSITIVE_INFINITY,
    thickness / 2,
  );
  const ledgeAim = clamp(rules.ledge, 0, Math.max(0, widestLedge));
  const step = context.spacerStep;
  const mostSpacer = Math.max(0, thickness - 2 * Math.min(rules.leastLedge, ledgeAim));
  const nearest = roundToStep(Math.max(0, thickness - 2 * ledgeAim), step);
  const isTooWide = nearest > mostSpacer;
  const spacerAuto = isTooWide ? roundDownToStep(mostSpacer, step) : nearest;
  const spacer = getDecided(plan.holding.spacer, spacerAuto, {
    rule: isTooWide
      ? 'Spacer that leaves the least ledge, to the step spacers come in'
      : 'Spacer that leaves the ledge aimed at, to the step spacers come in',
    formula: isTooWide
      ? 'spacer = floor((T - 2 least ledge) / step) step'
      : 'spacer = round((T - 2 ledge) / step) step',
    inputs: [
      getLengthInput('T', thickness),
      getLengthInput('ledge', ledgeAim),
      getLengthInput('least ledge', Math.min(rules.leastLedge, ledgeAim)),
      getLengthInput('step', step),
    ],
    source: COMMON_PRACTICE,
  });
  const spacerHeight = getDecided(
    plan.holding.spacerHeight,
    Math.max(0, roundDownToStep(Math.max(0, floor - rules.spacerBelowFloor), step)),
    {
      rule: 'The spacer stands below the shelf floor, out of the way of the cutter',
      formula: 'spacer height = floor((J - S - below) / step) step',
      inputs: [
        getLengthInput('J', jawHeight),
        getLengthInput('S', depth),
        getLengthInput('below', rules.spacerBelowFloor),
        getLengthInput('step', step),
      ],
      source: COMMON_PRACTICE,
    },
  );
  const ledge = (thickness - spacer.value) / 2;
  return {
    spacer,
    spacerHeight,
    ledge: getFigure('length', ledge, {
      rule: 'Ledge on each jaw, milled with the jaws closed on the spacer',
      formula: 'ledge = (T - spacer) / 2',
      inputs: [getLengthInput('T', thickness), getLengthInput('spacer', spacer.value)],
      source: GEOMETRY,
    }),
    wallBehind: (jawSet?.thickness ?? 0) - ledge,
    headFace,
    reachesHead: isBesideHeads && ledge > headFace,
  };
}

function getHeadFace(jawSet: JawSet | null): number | null {
  const bolts = jawSet?.bolts ?? null;
  if (bolts === null) return null;
  return Math.max(0, bolts.counterboreDepth - (getScrewHead(bolts.thread)?.headHeight ?? bolts.counterboreDepth));
}

function getHeadTop(jawSet: JawSet | null): number {
  const bolts = jawSet?.bolts ?? null;
  if (bolts === null) return 0;
  return bolts.centreHeight + (getScrewHead(bolts.thread)?.headDiameter ?? bolts.counterboreDiameter) / 2;
}
