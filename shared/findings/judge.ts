import type { EngineResults } from '../engine/engine-results';
import type { WhyInput } from '../engine/figure';
import { getBarEdits } from '../engine/remedy-edits';
import type { SectionRow } from '../engine/results';
import type { Part, Plan } from '../model/plan';
import type { Shop } from '../model/shop';
import { formatLength } from '../units/format';
import type { QuantityKind } from '../units/quantity';
import { formatQuantity } from '../units/quantity';
import type { FeatureRef, Fix, Severity } from './finding';

/** What every group of rules is given: the plan, the shop in force, the results, and how to say a number. */
export interface Judge {
  readonly plan: Plan;
  readonly shop: Shop;
  readonly judged: EngineResults;
  /** A length in the plan's units, without the unit. */
  readonly say: (mm: number) => string;
  /** A length with its unit. */
  readonly sayUnit: (mm: number) => string;
  readonly sayKind: (value: number, kind: QuantityKind) => string;
}

/** A finding as a rule states it; key and acceptance are added when all are gathered. */
export interface Draft {
  code: string;
  severity: Severity;
  /** What it is about when the code alone is not unique, such as a part's id. */
  about?: string;
  sentence: string;
  detail?: string;
  numbers?: WhyInput[];
  features?: FeatureRef[];
  fixes?: Fix[];
}

/** One group of rules. */
export type JudgeGroup = (judge: Judge) => Draft[];

export function buildJudge(plan: Plan, shop: Shop, judged: EngineResults): Judge {
  return {
    plan,
    shop,
    judged,
    say: (mm) => formatLength(mm, plan.units),
    sayUnit: (mm) => formatLength(mm, plan.units, { unit: true }),
    sayKind: (value, kind) => formatQuantity(value, kind, plan.units, { currency: shop.currency }),
  };
}

/** How a part is called in a sentence. */
export function getPartName(plan: Plan, partId: string): string {
  const index = plan.parts.findIndex((part) => part.id === partId);
  const part = plan.parts[index];
  if (part === undefined) return 'A part';
  return part.name.trim() === '' ? `Part ${index + 1}` : part.name.trim();
}

export function getPart(plan: Plan, partId: string): Part | undefined {
  return plan.parts.find((part) => part.id === partId);
}

export function lengthInput(name: string, value: number): WhyInput {
  return { name, value, kind: 'length' };
}

/** A fix that pins or sets one value. */
export function buildFix(label: string, path: (string | number)[], value: unknown): Fix {
  return { label, edits: [{ path, value }] };
}

/** A fix that takes another bar, as one row of the comparison names it. */
export function buildBarFix(row: SectionRow, judge: Judge, reason: string): Fix {
  const chosen = judge.judged.sections.find((candidate) => candidate.chosen);
  const extra = row.cost !== null && chosen?.cost != null ? row.cost - chosen.cost : null;
  const price = extra === null ? '' : `, ${extra < 0 ? '−' : '+'}${judge.sayKind(Math.abs(extra), 'money')}`;
  return {
    label: `Take the ${row.name} bar${row.wayUp === 'flat' ? ', flat' : ''} (${reason}${price})`,
    edits: getBarEdits(judge.plan.stock, row.barId, row.wayUp),
  };
}

/** The cheapest bar that fits at its smallest and passes `test`; null when none does. */
export function findBar(judge: Judge, test: (row: SectionRow) => boolean): SectionRow | null {
  const rows = judge.judged.sections.filter(
    (row) => !row.chosen && row.fitsWorst && row.verdict !== 'stop' && test(row),
  );
  rows.sort((a, b) => (a.cost ?? Number.MAX_VALUE) - (b.cost ?? Number.MAX_VALUE) || a.height - b.height);
  return rows[0] ?? null;
}
