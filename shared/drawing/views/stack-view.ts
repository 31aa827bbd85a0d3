import type { StackSlice } from '../../engine/results';
import type { Evaluation } from '../../evaluate';
import type { FeatureRef } from '../../findings/finding';
import type { Plan } from '../../model/plan';
import type { Shop } from '../../model/shop';
import { formatLength } from '../../units/format';
import { getBothUnitsText, getDimensionText } from '../dimensions';
import { addLine, addPath, addText, buildView, createDraft, type Draft, TEXT_SIZES, toDrawing } from '../draft';
import type { Fill, Layer, View } from '../marks';
import { getRectangle } from '../paths';
import { getBarSpan, getScene, type Scene } from '../scene';
import { spreadLabels } from '../spread-labels';
import { fitText, getTextWidth } from '../text-width';
import { buildEmptyView, type ViewOptions } from './options';

const SLICE_LOOKS: Readonly<Record<StackSlice['kind'], { layer: Layer; fill: Fill }>> = {
  cleanup: { layer: 'cleanup', fill: 'cleanup' },
  allowanceTop: { layer: 'allowance', fill: 'allowance' },
  part: { layer: 'part', fill: 'part' },
  allowanceBottom: { layer: 'allowance', fill: 'allowance' },
  kerf: { layer: 'kerf', fill: 'kerf' },
  clearance: { layer: 'clearance', fill: 'paper' },
  grip: { layer: 'bar', fill: 'bar' },
};

/** Lengths of paper, mm. */
const COLUMN = 13;
const LEADER = 5;
const FIGURES = 12;
/** Most room a slice's name takes: a part may have a long one. */
const NAME = 32;
const ROW = 2.4;

/**
 * The bar's height as slices, true to scale along Z with 0 at the jaw tops, each with its name and figure, and the sum
 * below. It lines up with the end section drawn at the same scale.
 */
export function buildStack(plan: Plan, evaluation: Evaluation, shop: Shop, options: ViewOptions): View {
  const scene = getScene(plan, evaluation, shop, options.blankIndex);
  if (!scene) {
    return buildEmptyView(plan, 'stack', 'Height stack', options.mmPerPaperMm);
  }
  const draft = createDraft(plan.units, options.mmPerPaperMm, options.bothUnits);
  const slices = scene.blank.stack.slices.filter((slice) => slice.height > 1e-9);
  const width = toDrawing(draft, COLUMN);
  for (const slice of slices) {
    const { layer, fill } = SLICE_LOOKS[slice.kind];
    addPath(draft, layer, getRectangle(0, slice.zTop - slice.height, width, slice.zTop), {
      pen: 'narrow',
      fill,
      feature: getFeature(slice),
    });
  }
  const { bottom, top } = getBarSpan(scene);
  addPath(draft, 'bar', getRectangle(0, bottom, width, top), { pen: 'wide' });
  addLine(
    draft,
    'centre',
    [
      { x: -toDrawing(draft, 3), y: 0 },
      { x: width + toDrawing(draft, 2), y: 0 },
    ],
    { pen: 'chain' },
  );
  if (options.dimensions ?? true) {
    addSliceLabels(draft, slices);
    addSum(draft, scene, bottom, slices);
  }
  return buildView(draft, 'stack', 'Height stack');
}

function getFeature(slice: StackSlice): FeatureRef {
  return { kind: 'stack', id: slice.kind };
}

/** From the lowest slice up, name and figure beside each, moved apart where slices are thin. */
function addSliceLabels(draft: Draft, slices: readonly StackSlice[]): void {
  const rising = slices.toReversed();
  const size = toDrawing(draft, TEXT_SIZES.text);
  const heights = spreadLabels(
    rising.map((slice) => ({ at: slice.zTop - slice.height / 2, size })),
    toDrawing(draft, ROW) - size * 0.4,
  );
  const edge = toDrawing(draft, COLUMN);
  const elbow = edge + toDrawing(draft, LEADER);
  const figures = elbow + toDrawing(draft, FIGURES);
  for (const [index, slice] of rising.entries()) {
    const y = heights[index] ?? 0;
    const feature = getFeature(slice);
    const strong = slice.kind === 'grip' || slice.kind === 'part';
    addLine(
      draft,
      'note',
      [
        { x: edge, y: slice.zTop - slice.height / 2 },
        { x: elbow - toDrawing(draft, 1.5), y },
        { x: elbow - toDrawing(draft, 0.5), y },
      ],
      { pen: 'narrow', feature },
    );
    const weight = strong ? 'semibold' : 'regular';
    const text = getDimensionText(draft, slice.height);
    addText(draft, { x: figures + getPointShift(draft, text), y: y - size / 2 }, text, {
      anchor: 'end',
      weight,
      layer: 'dimension',
      feature,
    });
    addText(
      draft,
      { x: figures + toDrawing(draft, 4), y: y - size / 2 },
      fitText(slice.label, toDrawing(draft, NAME), size, weight),
      {
        weight,
        feature,
      },
    );
  }
}

/** Shifts a figure so that the points of all figures stand below each other: digits are equally wide. */
function getPointShift(draft: Draft, text: string): number {
  const decimals = text.split('.')[1]?.length ?? 0;
  const usual = draft.units === 'in' ? 3 : 2;
  return (decimals - usual) * getTextWidth('0', toDrawing(draft, TEXT_SIZES.text));
}

/** What the slices add up to, beside the bar it must equal, and how the bar is seated. */
function addSum(draft: Draft, scene: Scene, bottom: number, slices: readonly StackSlice[]): void {
  const lowestLabel = getLowestLabel(draft, slices, bottom);
  const sum = slices.reduce((total, slice) => total + slice.height, 0);
  const { height, sizeFrom } = scene.section;
  const { stack } = scene.blank;
  const sameSum = Math.abs(sum - height.nominal) < 1e-6;
  const lines = [
    `sum ${formatLength(sum, draft.units)} ${sameSum ? '=' : '≠'} bar ${getBothUnitsText(draft, height.nominal)}`,
    `smallest bar ${formatLength(height.least, draft.units)}${sizeFrom === 'measured' ? ', measured' : ''}: grip ${getBothUnitsText(draft, stack.grip.least)}`,
    getSeatText(draft, scene),
  ];
  let y = Math.min(bottom, lowestLabel) - toDrawing(draft, 5);
  for (const line of lines) {
    addText(draft, { x: 0, y }, line, { size: TEXT_SIZES.small, feature: { kind: 'stack', id: 'grip' } });
    y -= toDrawing(draft, 3.6);
  }
}

function getLowestLabel(draft: Draft, slices: readonly StackSlice[], bottom: number): number {
  const lowest = draft.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.at.y] : []));
  return slices.length > 0 ? Math.min(bottom, ...lowest) : bottom;
}

function getSeatText(draft: Draft, scene: Scene): string {
  const choice = scene.seat.choice.value;
  switch (choice.kind) {
    case 'shelf':
      return `on a shelf ${getBothUnitsText(draft, scene.seat.shelfDepth.value)} deep`;
    case 'parallels': {
      const row = scene.seat.parallels.find((candidate) => candidate.parallelId === choice.parallelId);
      const height = row ? getBothUnitsText(draft, row.height) : '';
      return choice.count === 2 ? `on a pair of parallels ${height} high` : `on one parallel ${height} high`;
    }
    case 'bed':
      return 'on the vise bed';
    default:
      return choice satisfies never;
  }
}
