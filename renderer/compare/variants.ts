import type { SectionRow } from '../../shared/engine/results';
import type { Evaluation } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import type { PastPlan } from '../state/documents';

/** A plan that may stand beside another. */
export interface Variant {
  readonly id: string;
  readonly label: string;
  /** A second line in the list. */
  readonly about: string;
  readonly plan: Plan;
  /** Name of the step that takes it; '' for the plan as it is. */
  readonly step: string;
}

/** The id of the plan as it is. */
export const AS_IT_IS = 'now';

/** Further back than this nobody remembers what a step was. */
const MOST_STEPS_BACK = 12;

type Section = Pick<SectionRow, 'barId' | 'wayUp' | 'name'>;

export function getSectionId({ barId, wayUp }: Pick<SectionRow, 'barId' | 'wayUp'>): string {
  return `bar:${wayUp}:${barId}`;
}

/** @example '3/4 × 2-1/2 in 4140, cold finished, on edge' */
export function getSectionName({ name, wayUp }: Section): string {
  return `${name}, ${wayUp === 'flat' ? 'flat' : 'on edge'}`;
}

/** The plan with this bar pinned, this way up. */
export function takeSection(plan: Plan, { barId, wayUp }: Section): Plan {
  return { ...plan, stock: { ...plan.stock, barId: { pinned: barId }, wayUp: { pinned: wayUp } } };
}

export interface VariantParts {
  readonly plan: Plan;
  readonly evaluation: Evaluation;
  readonly past: readonly PastPlan[];
  /** The plan on file where it differs from the one that is open, else null. */
  readonly onFile: Plan | null;
}

/** What a plan can be compared with: itself as it is, with every other bar on offer, and as it was. */
export function buildVariants({ plan, evaluation, past, onFile }: VariantParts): Variant[] {
  const bars = evaluation.sections
    .filter((row) => !row.chosen)
    .map((row) => {
      const name = getSectionName(row);
      const about = row.fitsWorst ? row.weakest : row.reason;
      return { id: getSectionId(row), label: name, about, plan: takeSection(plan, row), step: `take the ${name} bar` };
    });
  const before = past.slice(0, MOST_STEPS_BACK).map(({ step, plan: was }, index) => ({
    id: `before:${index}`,
    label: `as it was before “${step}”`,
    about: '',
    plan: was,
    step: `take the plan as it was before “${step}”`,
  }));
  const filed =
    onFile === null
      ? []
      : [{ id: 'file', label: 'as it is on file', about: '', plan: onFile, step: 'take the plan as it is on file' }];
  return [{ id: AS_IT_IS, label: 'the plan as it is', about: '', plan, step: '' }, ...bars, ...before, ...filed];
}

/**
 * The variant to begin with where none is asked for: the next bar up in height that fits, else the cheapest other one,
 * else the plan as it was.
 */
export function getFirstBeside(variants: readonly Variant[], { sections }: Evaluation): string {
  const chosen = sections.find((row) => row.chosen);
  const fitting = sections.filter((row) => !row.chosen && row.fitsWorst);
  const [next] = fitting
    .filter((row) => chosen !== undefined && row.height > chosen.height)
    .toSorted((a, b) => getStep(a, chosen) - getStep(b, chosen));
  const first = next ?? fitting[0];
  if (first !== undefined) return getSectionId(first);
  return variants.find(({ id }) => id.startsWith('before:'))?.id ?? variants[1]?.id ?? AS_IT_IS;
}

/** How far a section is from another; another thickness counts as well as another height. */
function getStep(row: SectionRow, from: SectionRow | undefined): number {
  if (from === undefined) return 0;
  return Math.abs(row.height - from.height) + 2 * Math.abs(row.thickness - from.thickness);
}
