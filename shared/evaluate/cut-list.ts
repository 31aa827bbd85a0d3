import type { BarUse, CutListLine } from '../engine/results';
import type { BarStretch, NestPattern } from '../nest/types';
import { fromNanometres } from '../units/exact';

/**
 * One pattern of a nesting answer as a person saws it: every piece from the left end with the cut that frees it.
 *
 * @param barIndex which pattern of the order this is
 * @param labels blank labels by template id
 * @param headKind what the first piece is: a squaring trim or a bad mill end
 */
export function buildCutList(
  pattern: NestPattern,
  barIndex: number,
  labels: ReadonlyMap<string, string>,
  headKind: 'trim' | 'badEnd',
): CutListLine[] {
  const lines: CutListLine[] = [];
  pattern.stretches.forEach((stretch, index) => {
    if (stretch.kind === 'kerf') return;
    const next = pattern.stretches[index + 1];
    lines.push({
      sequence: lines.length + 1,
      barIndex,
      kind: getLineKind(stretch, headKind),
      blankTemplateId: stretch.demandId ?? '',
      label: getLineLabel(stretch, pattern, labels, headKind),
      length: fromNanometres(stretch.endNm - stretch.startNm),
      from: fromNanometres(stretch.startNm),
      to: fromNanometres(stretch.endNm),
      kerf: next?.kind === 'kerf' ? fromNanometres(next.endNm - next.startNm) : 0,
    });
  });
  return lines;
}

/** What a bar of the order is, beside its cuts. */
export interface BarUseFacts {
  lengthId: string;
  cost: number;
  /** A pattern with less than this to spare is flagged, mm. */
  zeroMargin: number;
}

/** A pattern of a nesting answer with its cut list. */
export function buildBarUse(pattern: NestPattern, barIndex: number, lines: CutListLine[], facts: BarUseFacts): BarUse {
  const margin = fromNanometres(pattern.marginNm);
  return {
    barIndex,
    times: pattern.count,
    lengthId: facts.lengthId,
    kind: pattern.kind,
    length: fromNanometres(pattern.barLengthNm),
    cost: facts.cost,
    lines,
    drop: fromNanometres(pattern.dropNm),
    dropIsRemnant: pattern.isDropKept,
    zeroMargin: margin < facts.zeroMargin,
    margin,
    cuts: pattern.cuts.length,
  };
}

function getLineKind(stretch: BarStretch, headKind: 'trim' | 'badEnd'): CutListLine['kind'] {
  switch (stretch.kind) {
    case 'head':
      return headKind;
    case 'blank':
      return 'blank';
    case 'kerf':
    case 'over':
    case 'drop':
      return 'drop';
    default:
      return stretch.kind satisfies never;
  }
}

function getLineLabel(
  stretch: BarStretch,
  pattern: NestPattern,
  labels: ReadonlyMap<string, string>,
  headKind: 'trim' | 'badEnd',
): string {
  if (stretch.kind === 'head') return headKind === 'trim' ? 'Squaring trim' : 'Bad mill end';
  if (stretch.kind === 'blank') return labels.get(stretch.demandId ?? '') ?? 'Blank';
  if (stretch.kind === 'over') return 'Stays on the last blank';
  return pattern.isDropKept ? 'Remnant, to the rack' : 'Drop';
}
