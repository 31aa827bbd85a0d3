import type { HeadlineFigures } from '../../shared/engine/engine-results';
import type { Figure } from '../../shared/engine/figure';
import type { Evaluation } from '../../shared/evaluate';
import type { Finding, Severity } from '../../shared/findings/finding';
import { formatLength, formatMoney } from '../../shared/units/format';
import { formatNumber } from '../../shared/units/format-number';
import type { LengthUnits } from '../../shared/units/length-units';
import { formatQuantity } from '../../shared/units/quantity';

export type FigureKey = keyof HeadlineFigures;

export interface FigureInfo {
  readonly label: string;
  /** Codes of findings that are about this figure begin with one of these. */
  readonly codes: readonly string[];
  /** A short second line. */
  readonly about: (evaluation: Evaluation, units: LengthUnits) => string;
}

/** The figures that never leave the screen, in the order of the work. */
export const FIGURES: Readonly<Record<FigureKey, FigureInfo>> = {
  grip: {
    label: 'Grip',
    codes: ['grip', 'bar-too', 'jaw-', 'no-bar', 'stack'],
    about: (evaluation, units) => {
      const grip = getGoverning(evaluation)?.stack.grip;
      return grip === undefined ? '' : `worst ${formatLength(grip.least, units)}`;
    },
  },
  proudHeight: {
    label: 'Proud',
    codes: ['proud'],
    about: (evaluation) => {
      const stack = getGoverning(evaluation)?.stack;
      if (stack === undefined || stack.grip.nominal <= 0) return '';
      return `${formatNumber(stack.proudHeight.nominal / stack.grip.nominal, { decimals: 1 })} × grip`;
    },
  },
  shelfDepth: {
    label: 'Shelf',
    codes: ['shelf', 'seat', 'spacer', 'ledge', 'parallel', 'counterbore'],
    about: ({ seat }, units) => {
      if (seat === null) return '';
      const words = {
        shelf: `deepest ${formatLength(seat.deepestLegalShelf.value, units)}`,
        parallels: 'on parallels',
        bed: 'on the vise bed',
      };
      return words[seat.choice.value.kind];
    },
  },
  hold: {
    label: 'Hold',
    codes: ['hold', 'slip', 'tip', 'clamp', 'overhang', 'deflection', 'jaw-pressure', 'lift', 'bend'],
    about: (evaluation) => {
      const weakest = getGoverning(evaluation)?.hold.weakest;
      if (weakest === null || weakest === undefined) return '';
      const cut = evaluation.cuts.find((row) => row.cutId === weakest.cutId);
      return `${weakest.by}, ${cut?.name ?? 'cut'}`;
    },
  },
  rib: {
    label: 'Rib',
    codes: ['rib', 'tab', 'cutter', 'release', 'cut-off', 'snap'],
    about: (evaluation) => {
      const parts = evaluation.release?.parts ?? [];
      const worst = parts.reduce<(typeof parts)[number] | undefined>(
        (found, part) => (found === undefined || part.widest.rib > found.widest.rib ? part : found),
        undefined,
      );
      return worst === undefined ? '' : SNAP_WORDS[worst.snapBy];
    },
  },
  stickOut: {
    label: 'Stick-out',
    codes: ['stick-out', 'reach', 'holder', 'tool', 'neck', 'shank'],
    about: (evaluation) => {
      const longest = getLongestReach(evaluation);
      return longest === undefined ? '' : `${formatNumber(longest.ratio.value, { decimals: 1 })} diameters`;
    },
  },
  bars: {
    label: 'Bars',
    codes: ['order', 'bars', 'unplaced', 'zero-margin', 'exact', 'saw'],
    about: (evaluation, units) => {
      const lines = evaluation.order?.purchase ?? [];
      const text = lines.map(
        (line) =>
          `${line.count} × ${formatLength(line.length, units, { decimals: units === 'in' ? 1 : 0, trim: true })}`,
      );
      return text.join(' + ');
    },
  },
  yield: {
    label: 'Yield',
    codes: ['yield'],
    about: (evaluation, units) =>
      evaluation.order === null
        ? ''
        : `${formatQuantity(evaluation.order.yieldByLength.value, evaluation.order.yieldByLength.kind, units)} of length`,
  },
  cost: {
    label: 'Cost',
    codes: ['price', 'cost'],
    about: (evaluation) => {
      const order = evaluation.order;
      if (order === null) return '';
      if (!order.priceKnown) return 'prices missing';
      return order.proven ? 'least, proven' : 'best found';
    },
  },
};

export const FIGURE_KEYS = Object.keys(FIGURES) as readonly FigureKey[];

const SNAP_WORDS = {
  'falls off': 'falls off',
  hand: 'snaps by hand',
  mallet: 'snaps by mallet',
  pry: 'needs a pry bar',
  'will not snap': 'will not snap',
} as const;

/** From here on nobody looks at the cents, and there is no room for them. */
const WHOLE_MONEY = 10_000;

/** The figure's number as the strip shows it: lengths without their unit, which stands once at the strip's end. */
export function formatFigure(figure: Figure, units: LengthUnits, currency: string): string {
  if (figure.kind === 'money' && figure.value >= WHOLE_MONEY) {
    return formatMoney(figure.value, currency, 0);
  }
  return figure.kind === 'length'
    ? formatLength(figure.value, units)
    : formatQuantity(figure.value, figure.kind, units, { currency });
}

/** The worst finding about a figure that has not been accepted. */
export function getFigureSeverity(key: FigureKey, findings: readonly Finding[]): Severity | null {
  const own = findings.filter(
    (finding) =>
      !finding.accepted &&
      finding.severity !== 'note' &&
      FIGURES[key].codes.some((code) => finding.code.startsWith(code)),
  );
  if (own.some((finding) => finding.severity === 'stop')) return 'stop';
  return own.length > 0 ? 'check' : null;
}

function getGoverning(evaluation: Evaluation) {
  return evaluation.blanks[evaluation.governingBlank];
}

function getLongestReach(evaluation: Evaluation) {
  return evaluation.reach.reduce<Evaluation['reach'][number] | undefined>(
    (found, row) => (found === undefined || row.ratio.value > found.ratio.value ? row : found),
    undefined,
  );
}
