import type { AllowanceRow } from '../../shared/engine/results';
import type { Evaluation } from '../../shared/evaluate';
import type { Finding, Severity } from '../../shared/findings/finding';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import { formatLength } from '../../shared/units/format';
import type { LengthUnits } from '../../shared/units/length-units';
import { formatQuantity, type QuantityKind } from '../../shared/units/quantity';
import { FACE_LABELS } from '../panels/faces-panel';
import { FIGURES, type FigureKey } from '../shell/figures';

/** One of the two: its plan and what that comes to in the shop, with the plan's own copies laid over it. */
export interface Compared {
  readonly plan: Plan;
  readonly evaluation: Evaluation;
  readonly shop: Shop;
}

/** A figure as a column shows it. */
interface Cell {
  readonly text: string;
  readonly about: string;
}

export interface ComparedRow {
  readonly label: string;
  readonly left: Cell;
  readonly right: Cell;
  /** How the right one differs, in words; '' where both say the same. */
  readonly difference: string;
}

export interface ComparedGroup {
  readonly title: string;
  readonly rows: readonly ComparedRow[];
}

interface Measured {
  readonly kind: QuantityKind;
  readonly value: number | null;
  readonly about?: string;
  /** Said instead of the sign of a number under 0. */
  readonly under?: string;
}

type Spec =
  | { readonly label: string; readonly measure: (side: Compared) => Measured }
  | { readonly label: string; readonly say: (side: Compared) => string };

const getGoverning = ({ evaluation }: Compared) => evaluation.blanks[evaluation.governingBlank];

const headline =
  (key: FigureKey) =>
  ({ evaluation, plan }: Compared): Measured => {
    const figure = evaluation.figures[key];
    const about = figure === null ? '' : FIGURES[key].about(evaluation, plan.units);
    return { kind: figure?.kind ?? 'plainText', value: figure?.value ?? null, about };
  };

const count =
  (severity: Severity) =>
  ({ evaluation }: Compared): Measured => ({
    kind: 'count',
    value: getOpenFindings(evaluation).filter((finding) => finding.severity === severity).length,
  });

/** What is compared, in the order of the work. */
const GROUPS: readonly { readonly title: string; readonly specs: readonly Spec[] }[] = [
  {
    title: 'Bar and seat',
    specs: [
      { label: 'Bar', say: ({ evaluation }) => evaluation.section?.name ?? 'none fits' },
      { label: 'Way up', say: getWayUp },
      { label: 'Grip', measure: headline('grip') },
      { label: 'Stands proud', measure: headline('proudHeight') },
      { label: 'Seat', say: getSeat },
      { label: 'Shelf depth', measure: headline('shelfDepth') },
    ],
  },
  {
    title: 'Hold and allowance, estimates',
    specs: [
      { label: 'Hold, weakest cut', measure: headline('hold') },
      { label: 'Work bends, most', measure: (side) => getFigureOf(getGoverning(side)?.deflection.worst) },
      {
        label: 'Vises',
        measure: ({ evaluation }) => ({ kind: 'count', value: evaluation.vises?.count.value ?? null }),
      },
      { label: 'Allowance to spare, least', measure: getAllowanceToSpare },
    ],
  },
  {
    title: 'Cut-off and tools',
    specs: [
      { label: 'Cutter reaches', measure: ({ evaluation }) => getFigureOf(evaluation.release?.reach) },
      { label: 'Rib, thickest', measure: headline('rib') },
      { label: 'Stick-out, longest', measure: headline('stickOut') },
    ],
  },
  {
    title: 'Order',
    specs: [
      { label: 'Bars', measure: headline('bars') },
      { label: 'Cost', measure: headline('cost') },
      { label: 'Weight', measure: ({ evaluation }) => getFigureOf(evaluation.order?.massKg) },
      { label: 'Yield', measure: headline('yield') },
    ],
  },
  {
    title: 'Findings',
    specs: [
      { label: 'Stops', measure: count('stop') },
      { label: 'Checks', measure: count('check') },
      { label: 'Notes', measure: count('note') },
    ],
  },
];

/** Every figure of two variants beside each other, both in the same units. */
export function compareFigures(
  left: Compared,
  right: Compared,
  format: { readonly units: LengthUnits; readonly currency: string },
): ComparedGroup[] {
  return GROUPS.map(({ title, specs }) => ({
    title,
    rows: specs.map((spec) =>
      'say' in spec ? compareWords(spec, left, right) : compareMeasures(spec, left, right, format),
    ),
  }));
}

function compareWords(spec: Extract<Spec, { say: unknown }>, left: Compared, right: Compared): ComparedRow {
  const [one, other] = [spec.say(left), spec.say(right)];
  return {
    label: spec.label,
    left: { text: one, about: '' },
    right: { text: other, about: '' },
    difference: one === other ? '' : 'another',
  };
}

function compareMeasures(
  spec: Extract<Spec, { measure: unknown }>,
  left: Compared,
  right: Compared,
  { units, currency }: { readonly units: LengthUnits; readonly currency: string },
): ComparedRow {
  const [one, other] = [spec.measure(left), spec.measure(right)];
  const show = ({ kind, value, under }: Measured): string => {
    if (value === null) return '—';
    const text = formatQuantity(under === undefined ? value : Math.abs(value), kind, units, { currency });
    return under !== undefined && value < 0 ? `${under} ${text}` : text;
  };
  const row = {
    label: spec.label,
    left: { text: show(one), about: one.about ?? '' },
    right: { text: show(other), about: other.about ?? '' },
  };
  if (row.left.text === row.right.text) {
    return { ...row, difference: row.left.about === row.right.about ? '' : row.right.about || 'otherwise' };
  }
  if (one.value === null) return { ...row, difference: 'only here' };
  if (other.value === null) return { ...row, difference: 'not here' };
  const by = other.value - one.value;
  const size = show({ kind: one.kind, value: Math.abs(by) });
  return { ...row, difference: `${size} ${by > 0 ? 'more' : 'less'}` };
}

/** What one variant's findings say that the other's do not, the worst first. */
export function getOwnFindings(side: Compared, other: Compared): Finding[] {
  const said = new Set(getOpenFindings(other.evaluation).map(({ sentence }) => sentence));
  return getOpenFindings(side.evaluation).filter(({ sentence }) => !said.has(sentence));
}

function getOpenFindings({ findings }: Evaluation): Finding[] {
  const order: readonly Severity[] = ['stop', 'check', 'note'];
  return order.flatMap((severity) => findings.filter((finding) => finding.severity === severity && !finding.accepted));
}

function getFigureOf(figure: { kind: QuantityKind; value: number } | undefined): Measured {
  return { kind: figure?.kind ?? 'plainText', value: figure?.value ?? null };
}

function getWayUp({ evaluation }: Compared): string {
  if (evaluation.section === null) return '—';
  return evaluation.section.wayUp.value === 'flat' ? 'flat' : 'on edge';
}

function getSeat({ evaluation, plan, shop }: Compared): string {
  const choice = evaluation.seat?.choice.value;
  switch (choice?.kind) {
    case undefined:
      return '—';
    case 'shelf':
      return 'jaw shelf';
    case 'bed':
      return 'vise bed';
    case 'parallels': {
      const pair = shop.parallels.find(({ id }) => id === choice.parallelId);
      const height = pair === undefined ? '' : ` ${formatLength(pair.height, plan.units, { unit: true })}`;
      return `${choice.count === 1 ? 'one parallel' : 'parallels'}${height}`;
    }
    default:
      return choice satisfies never;
  }
}

/** What is left over the worst case on the face where it is least; under 0 it is short. */
function getAllowanceToSpare({ evaluation, plan }: Compared): Measured {
  const getRoom = (row: AllowanceRow): number => row.left - row.worstCase;
  const [least] = evaluation.allowance.filter((row) => !row.finishedHere).toSorted((a, b) => getRoom(a) - getRoom(b));
  if (least === undefined) return { kind: 'length', value: null };
  const name = plan.parts.find(({ id }) => id === least.partId)?.name ?? '';
  const face = FACE_LABELS[least.face].toLowerCase();
  return { kind: 'length', value: getRoom(least), under: 'short by', about: name === '' ? face : `${face} of ${name}` };
}
