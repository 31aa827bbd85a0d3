import type { BarUse, CutListLine } from '../../engine/results';
import type { FeatureRef } from '../../findings/finding';
import { formatLength } from '../../units/format';
import type { LengthUnits } from '../../units/length-units';
import { addDimensionRow, getBothUnitsText } from '../dimensions';
import { addPath, addText, buildView, createDraft, type Draft, TEXT_SIZES, toDrawing } from '../draft';
import type { Fill, Layer, View } from '../marks';
import { getPolygon, getRectangle } from '../paths';
import { fitText, getTextWidth } from '../text-width';

export interface BarCutsOptions {
  /** Drawing mm to a mm of paper, along the bar. */
  mmPerPaperMm: number;
  units: LengthUnits;
  dimensions?: boolean;
  /** Height of the bar as drawn, mm of paper: lengths are to scale, the section is not. Default 7. */
  barHeight?: number;
  /** Template whose blanks are pointed at, outlined and named in bold; '' or absent for none. */
  marked?: string;
}

const BAR_HEIGHT = 7;
/** The arrow head over a marked blank, mm of paper. */
const POINTER = { gap: 0.4, length: 1.6, half: 1.1 };

const LINE_LOOKS: Readonly<Record<CutListLine['kind'], { layer: Layer; fill: Fill }>> = {
  trim: { layer: 'cleanup', fill: 'cleanup' },
  badEnd: { layer: 'cleanup', fill: 'cleanup' },
  blank: { layer: 'bar', fill: 'barFace' },
  partBlank: { layer: 'bar', fill: 'barFace' },
  drop: { layer: 'drop', fill: 'drop' },
};

/** A bar with everything sawn from it, lengths to scale from its left end, kerfs in black. */
export function buildBarCuts(bar: BarUse, options: BarCutsOptions): View {
  const draft = createDraft(options.units, options.mmPerPaperMm);
  const height = toDrawing(draft, options.barHeight ?? BAR_HEIGHT);
  const isMarked = (line: CutListLine): boolean =>
    line.blankTemplateId !== '' && line.blankTemplateId === options.marked;
  for (const line of bar.lines) {
    addStretch(draft, bar, line, { height, isMarked: isMarked(line) });
  }
  for (const line of bar.lines) {
    if (line.kerf > 0) {
      addPath(draft, 'kerf', getRectangle(line.to, 0, Math.min(bar.length, line.to + line.kerf), height), {
        pen: 'none',
        fill: 'ink',
        feature: getFeature(bar, line),
      });
    }
  }
  addPath(draft, 'bar', getRectangle(0, 0, bar.length, height), {
    pen: 'wide',
    feature: { kind: 'order', id: String(bar.barIndex) },
  });
  for (const line of bar.lines.filter(isMarked)) {
    addPointer(draft, bar, line, height);
  }
  if (options.dimensions ?? true) {
    const text = getBothUnitsText(draft, bar.length);
    addDimensionRow(draft, [{ from: 0, to: bar.length, text }], -toDrawing(draft, 7), 0);
  }
  return buildView(draft, 'bar', `Bar ${bar.barIndex + 1}`);
}

function getFeature(bar: BarUse, line: CutListLine): FeatureRef {
  return { kind: 'order', id: `${bar.barIndex}:${line.sequence}` };
}

function addPointer(draft: Draft, bar: BarUse, line: CutListLine, height: number): void {
  const tip = { x: (line.from + line.to) / 2, y: height + toDrawing(draft, POINTER.gap) };
  const base = tip.y + toDrawing(draft, POINTER.length);
  const half = toDrawing(draft, POINTER.half);
  addPath(draft, 'bar', getPolygon([tip, { x: tip.x + half, y: base }, { x: tip.x - half, y: base }]), {
    pen: 'none',
    fill: 'ink',
    feature: getFeature(bar, line),
  });
}

function addStretch(
  draft: Draft,
  bar: BarUse,
  line: CutListLine,
  { height, isMarked }: { height: number; isMarked: boolean },
): void {
  const { layer, fill } = LINE_LOOKS[line.kind];
  const feature = getFeature(bar, line);
  const weight = isMarked ? 'semibold' : 'regular';
  addPath(draft, layer, getRectangle(line.from, 0, line.to, height), {
    pen: isMarked ? 'wide' : 'narrow',
    fill,
    feature,
  });
  const room = line.to - line.from - toDrawing(draft, 1.5);
  const size = toDrawing(draft, TEXT_SIZES.small);
  const length = formatLength(line.length, draft.units);
  const name = getLineName(bar, line);
  // A blank's label begins with its letter; that alone names it where there is no room for more.
  const letter = name.split(':')[0] ?? name;
  const texts = [`${name} ${length}`, `${letter} ${length}`, letter];
  const text = texts.find((each) => getTextWidth(each, size, weight) <= room) ?? fitText(letter, room, size, weight);
  // Cut short, a blank's letter still tells it; "d…" tells nothing.
  const isUseless = text.length === 0 || text === '…' || (line.kind === 'drop' && text.endsWith('…'));
  if (isUseless) {
    return;
  }
  if (line.kind === 'drop') {
    const width = getTextWidth(text, size);
    const middle = (line.from + line.to) / 2;
    const pad = toDrawing(draft, 0.6);
    addPath(
      draft,
      'drop',
      getRectangle(middle - width / 2 - pad, height / 2 - size, middle + width / 2 + pad, height / 2 + size),
      { pen: 'none', fill: 'paper', feature },
    );
  }
  addText(draft, { x: (line.from + line.to) / 2, y: (height - size) / 2 }, text, {
    anchor: 'middle',
    size: TEXT_SIZES.small,
    weight,
    // Letters on metal are dark under either theme; a drop's stand on a patch of paper.
    layer: line.kind === 'drop' ? 'note' : 'bar',
    feature,
  });
}

function getLineName(bar: BarUse, line: CutListLine): string {
  if (line.kind === 'drop') {
    return bar.dropIsRemnant ? 'keep' : 'drop';
  }
  return line.label;
}
