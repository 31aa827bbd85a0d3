import { FACES, type Face } from '../model/faces';
import type { Cut, Part } from '../model/plan';
import { computeBowConstant, computeReleaseBow, ONE_SIDED_REFERENCE } from './bow';
import { type EngineContext, getAllowance } from './context';
import type { AllowanceRow, AllowanceTerm, BowResult, CutForceResult, DeflectionResult, ReachResult } from './results';
import type { SeatedBlank, Setup } from './setup';
import { getNonNegative } from './workings';

/** What the allowance check reads of the rest. */
export interface AllowanceInputs {
  bow: readonly BowResult[];
  reach: readonly ReachResult[];
  /** Deflection of each blank of the setup, in its order, under the heaviest cut. */
  deflection: readonly DeflectionResult[];
  cuts: readonly CutForceResult[];
}

/**
 * Worst-case sum of the terms, mm.
 *
 * @example getWorstCase([{ cause: 'bow', name: 'bow', value: 0.2, isFixed: false }]) // 0.2
 */
export function getWorstCase(terms: readonly AllowanceTerm[]): number {
  return terms.reduce((sum, term) => sum + getNonNegative(term.value), 0);
}

/**
 * Root-sum-square of the terms that vary by chance, and the fixed ones on top: the cut that must at least be taken does
 * not average out. mm.
 */
export function getRootSumSquare(terms: readonly AllowanceTerm[]): number {
  const fixed = terms.filter((term) => term.isFixed).reduce((sum, term) => sum + getNonNegative(term.value), 0);
  const varying = terms.filter((term) => !term.isFixed).map((term) => getNonNegative(term.value));
  return fixed + Math.hypot(...varying);
}

/**
 * What is left on each face against what may go wrong before the last cut: bow, locating error, straightness, bending
 * of work and cutter, and the least cut that cleans up. A face that keeps nothing is
 * finished here and always passes.
 */
export function computeAllowance(context: EngineContext, setup: Setup, inputs: AllowanceInputs): AllowanceRow[] {
  return context.parts.flatMap((part) => {
    const allowance = getAllowance(context, part);
    const causes = getCauses(context, setup, part, inputs);
    return FACES.map((face): AllowanceRow => {
      const terms = TERMS_BY_FACE[face](causes).filter((term) => term.value > 0);
      const worstCase = getWorstCase(terms);
      const left = allowance[face];
      return {
        partId: part.id,
        face,
        left,
        worstCase,
        rootSumSquare: getRootSumSquare(terms),
        terms,
        ok: left <= 0 || left >= worstCase - 1e-9,
        finishedHere: left <= 0,
      };
    });
  });
}

/** What may go wrong with one part, mm. */
interface Causes {
  bow: number;
  sidewaysBow: number;
  oneSided: boolean;
  springBack: number;
  locating: number;
  workBending: number;
  toolBending: number;
  leastCut: number;
}

const TERMS_BY_FACE: Readonly<Record<Face, (causes: Causes) => AllowanceTerm[]>> = {
  top: getHeightTerms,
  bottom: getHeightTerms,
  fixedSide: getSideTerms,
  movingSide: getSideTerms,
  leftEnd: getEndTerms,
  rightEnd: getEndTerms,
};

function getHeightTerms(causes: Causes): AllowanceTerm[] {
  return [
    { cause: 'bow', name: 'bow on release', value: causes.bow, isFixed: false },
    { cause: 'locating', name: 'locating error', value: causes.locating, isFixed: false },
    { cause: 'leastCut', name: 'least finishing cut', value: causes.leastCut, isFixed: true },
  ];
}

function getSideTerms(causes: Causes): AllowanceTerm[] {
  return [
    causes.oneSided
      ? { cause: 'curl', name: 'bow, cut on one side only (a guess)', value: causes.sidewaysBow, isFixed: false }
      : { cause: 'bow', name: 'bow on release', value: causes.bow, isFixed: false },
    { cause: 'springBack', name: 'bar pulled straight springs back', value: causes.springBack, isFixed: false },
    { cause: 'locating', name: 'locating error', value: causes.locating, isFixed: false },
    { cause: 'workBending', name: 'work bends', value: causes.workBending, isFixed: false },
    { cause: 'toolBending', name: 'cutter bends', value: causes.toolBending, isFixed: false },
    { cause: 'leastCut', name: 'least finishing cut', value: causes.leastCut, isFixed: true },
  ];
}

function getEndTerms(causes: Causes): AllowanceTerm[] {
  return [
    { cause: 'locating', name: 'locating error', value: causes.locating, isFixed: false },
    { cause: 'toolBending', name: 'cutter bends', value: causes.toolBending, isFixed: false },
    { cause: 'leastCut', name: 'least finishing cut', value: causes.leastCut, isFixed: true },
  ];
}

function getCauses(context: EngineContext, setup: Setup, part: Part, inputs: AllowanceInputs): Causes {
  const row = inputs.bow.find((one) => one.partId === part.id);
  const bow = row?.bow.value ?? 0;
  const oneSided = setup.across.find((across) => across.partId === part.id)?.oneSided ?? false;
  const guess = computeReleaseBow(computeBowConstant(ONE_SIDED_REFERENCE), part.length, part.thickness);
  return {
    bow,
    sidewaysBow: Math.max(bow, guess),
    oneSided,
    springBack: row?.springBack ?? 0,
    locating: getNonNegative(context.rules.locatingError),
    workBending: getWorkBending(setup, part, inputs.deflection) * getFinishingShare(context, inputs.cuts),
    toolBending: getToolBending(context, inputs.reach),
    leastCut: getNonNegative(context.rules.leastFinishingCut),
  };
}

function getWorkBending(setup: Setup, part: Part, deflections: readonly DeflectionResult[]): number {
  const carries = (blank: SeatedBlank) => blank.parts.some((placed) => placed.partId === part.id);
  const bends = setup.blanks.map((blank, index) => (carries(blank) ? (deflections[index]?.worst.value ?? 0) : 0));
  return Math.max(0, ...bends);
}

/** The last side cut in the order of work: the one whose bending is left on the face. */
function getFinishingCut(context: EngineContext): Cut | undefined {
  return context.plan.cuts.findLast((cut) => cut.kind === 'side');
}

/** Side force of the finishing cut over that of the heaviest; the work bends in proportion. */
function getFinishingShare(context: EngineContext, cuts: readonly CutForceResult[]): number {
  const finishing = getFinishingCut(context);
  const force = cuts.find((cut) => cut.cutId === finishing?.id)?.sideForceN.value ?? 0;
  const heaviest = Math.max(0, ...cuts.map((cut) => cut.sideForceN.value));
  return heaviest > 0 ? force / heaviest : 0;
}

/** Bending of the tool that finishes the sides. */
function getToolBending(context: EngineContext, reach: readonly ReachResult[]): number {
  const finishing = getFinishingCut(context);
  return reach.find((row) => row.cutId === finishing?.id)?.deflection.value ?? 0;
}
