import { getPinned } from '../model/choice';
import type { Part } from '../model/plan';
import { type EngineContext, getAllowance } from './context';
import { getLengthInput } from './decide';
import type { Limits } from './figure';
import type { SeatResult, SectionResult, StackResult, StackSlice } from './results';
import type { CutterChoice } from './setup';
import { GEOMETRY, getFigure, getTextInput } from './workings';

/** Raw surface taken off the top above one part, mm; a top that stays as supplied keeps it all. */
export function getTopCleanup(context: EngineContext, part: Part): number {
  return part.asSupplied.includes('top') ? 0 : Math.max(0, context.plan.cleanup.top);
}

/**
 * What must stand above the jaws to make a part and cut it off, mm: cleanup, allowances, the part, the cut-off kerf and
 * the clearance but not the grip.
 */
export function getNeedAboveJaws(context: EngineContext, cutter: CutterChoice, part: Part): number {
  const allowance = getAllowance(context, part);
  return (
    getTopCleanup(context, part) +
    allowance.top +
    part.height +
    allowance.bottom +
    cutter.kerf +
    Math.max(0, cutter.clearance.value)
  );
}

/** Bar height less what must stand above the jaws, at nominal, smallest and largest bar, mm; negative when it is short. */
export function getAvailableGrip(section: SectionResult, needAboveJaws: number): Limits {
  const { nominal, least, most } = section.height;
  return { nominal: nominal - needAboveJaws, least: least - needAboveJaws, most: most - needAboveJaws };
}

/** Grip a blank must get, mm: pinned by the plan, else the jaw's least flat grip and the corner that does not count. */
export function getGripAsked(context: EngineContext, section: SectionResult): number {
  return getPinned(context.plan.holding.targetGrip) ?? (context.jawSet?.leastFlatGrip ?? 0) + section.cornerRadius;
}

/**
 * The height stack of one blank as it sits on its seat.
 *
 * The seat fixes the grip whatever the bar measures; what a bar is short of comes off the top, and what it is over makes
 * the clearance larger. When the seat is too deep for the stack, first the cleanup shrinks, then the clearance, which
 * goes under 0 when the cutter would run into the jaws. The slices always add up to the bar.
 *
 * @param part the part that needs most above the jaws
 * @param seat the seat in force; its grip is in mm below the jaw tops
 */
export function computeStack(
  context: EngineContext,
  section: SectionResult,
  cutter: CutterChoice,
  part: Part,
  seat: Pick<SeatResult, 'grip'>,
): StackResult {
  const allowance = getAllowance(context, part);
  const needAboveJaws = getNeedAboveJaws(context, cutter, part);
  const availableGrip = getAvailableGrip(section, needAboveJaws);
  const grip = seat.grip;
  const proudHeight: Limits = {
    nominal: section.height.nominal - grip,
    least: section.height.least - grip,
    most: section.height.most - grip,
  };
  const fixed = allowance.top + part.height + allowance.bottom + cutter.kerf;
  const { cleanup, clearance } = shareRest(
    proudHeight.nominal - fixed,
    getTopCleanup(context, part),
    Math.max(0, cutter.clearance.value),
  );
  const gripAsked = getGripAsked(context, section);
  const slices = buildSlices([
    ['cleanup', 'Cleanup', cleanup],
    ['allowanceTop', 'Top allowance', allowance.top],
    ['part', part.name === '' ? 'Part' : part.name, part.height],
    ['allowanceBottom', 'Bottom allowance', allowance.bottom],
    ['kerf', 'Cut-off kerf', cutter.kerf],
    ['clearance', 'Clearance', clearance],
    ['grip', 'Grip', grip],
  ]);
  const partBottomZ = clearance + cutter.kerf + allowance.bottom;

  return {
    governingPartId: part.id,
    slices,
    needAboveJaws,
    availableGrip,
    gripAsked,
    grip: { nominal: grip, least: grip, most: grip },
    proudHeight,
    clearance,
    shortBy: Math.max(0, needAboveJaws + Math.max(grip, gripAsked) - section.height.least),
    partBottomZ,
    partTopZ: partBottomZ + part.height,
    gripFigure: getFigure('length', grip, {
      rule: 'The seat decides the grip; it never takes more than the smallest bar has left under the stack',
      formula: 'g <= Hmin - (cleanup + allowance top + h + allowance bottom + k + c)',
      inputs: [
        getLengthInput('g', grip),
        getLengthInput('Hmin', section.height.least),
        ...slices.slice(0, 5).map((slice) => getLengthInput(STACK_SYMBOLS[slice.kind], slice.height)),
        getLengthInput('c', cutter.clearance.value),
        getTextInput('tallest part', part.name),
      ],
      source: GEOMETRY,
    }),
    proudFigure: getFigure('length', proudHeight.nominal, {
      rule: 'What stands above the jaws',
      formula: 'e = H - g',
      inputs: [getLengthInput('H', section.height.nominal), getLengthInput('g', grip)],
      source: GEOMETRY,
    }),
  };
}

const STACK_SYMBOLS: Record<StackSlice['kind'], string> = {
  cleanup: 'cleanup',
  allowanceTop: 'allowance top',
  part: 'h',
  allowanceBottom: 'allowance bottom',
  kerf: 'k',
  clearance: 'c',
  grip: 'g',
};

function shareRest(rest: number, cleanupAsked: number, clearanceAsked: number): { cleanup: number; clearance: number } {
  const cleanup = Math.max(0, Math.min(cleanupAsked, rest - clearanceAsked));
  return { cleanup, clearance: rest - cleanup };
}

/** From the bottom up, so that the jaw tops are at 0 exactly. */
function buildSlices(rows: [StackSlice['kind'], string, number][]): StackSlice[] {
  let zTop = 0;
  return rows
    .reverse()
    .map(([kind, label, height]) => {
      zTop = kind === 'grip' ? 0 : zTop + height;
      return { kind, label, height, zTop };
    })
    .reverse();
}
