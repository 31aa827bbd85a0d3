import type { LengthUnits } from '../../units/length-units';
import type { View } from '../marks';
import { getPaperSize } from '../place-view';

/**
 * Drawing mm to a mm of paper, largest picture first.
 * mm plans: ISO 5455 (1:1 and enlargements read in the standard, reductions from memory).
 * Inch plans: full, half, quarter and so on, as ASME practice has them (from memory).
 */
export const SCALE_SERIES: Readonly<Record<LengthUnits, readonly number[]>> = {
  mm: [1 / 5, 1 / 2, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000],
  in: [1 / 4, 1 / 2, 1, 2, 4, 8, 16, 32, 64, 128, 256, 512],
};

/** A scale as it is written on a drawing: `1:2`, `2:1`. */
export function getScaleText(mmPerPaperMm: number): string {
  const round = (value: number): number => Math.round(value * 1000) / 1000;
  return mmPerPaperMm >= 1 ? `1:${round(mmPerPaperMm)}` : `${round(1 / mmPerPaperMm)}:1`;
}

/** A scale as it is written, such as `1:2`, as drawing mm to a mm of paper; null when the series has none like it. */
export function parseScale(text: string, units: LengthUnits): number | null {
  const written = text.replace(/\s+/gu, '');
  return SCALE_SERIES[units].find((scale) => getScaleText(scale) === written) ?? null;
}

export interface Room {
  width: number;
  height: number;
}

/**
 * The largest scale of the series at which a view fits.
 *
 * @param build draws the view at a scale
 * @param room mm of paper
 * @param largest drawing mm to a mm of paper that is not exceeded; default 1, true size
 * @returns the view; where no scale is low enough, since letters stay as high, the largest that is narrow enough
 */
export function buildFittingView(
  build: (mmPerPaperMm: number) => View,
  units: LengthUnits,
  room: Room,
  largest = 1,
): View {
  const series = SCALE_SERIES[units].filter((scale) => scale >= largest);
  let narrow: View | undefined;
  for (const scale of series) {
    const view = build(scale);
    const size = getPaperSize(view);
    if (size.width <= room.width && size.height <= room.height) {
      return view;
    }
    narrow ??= size.width <= room.width ? view : undefined;
  }
  return narrow ?? build(series.at(-1) ?? 1);
}
