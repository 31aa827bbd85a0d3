import { inchesToMm } from '../../units/exact';
import type { ParallelPair } from '../shop';

// Heights of the thin inch set: from memory; of the thick one: common practice, no source; metric: typical, measure your own.
const THIN_INCH_HEIGHTS = [1 / 2, 5 / 8, 3 / 4, 7 / 8, 1, 1.125, 1.25, 1.375, 1.5, 1.625] as const;
const THICK_INCH_HEIGHTS = [3 / 4, 7 / 8, 1, 1.125, 1.25, 1.375, 1.5, 1.625, 1.75] as const;
const THIN_METRIC_HEIGHTS = [10, 15, 20, 25, 30, 35, 40] as const;
const THICK_METRIC_HEIGHTS = [20, 25, 30, 35, 40, 45] as const;

function getInchPair(height: number, thickness: number, key: string): ParallelPair {
  return {
    id: `parallel-${key}-${String(Math.round(height * 1000)).padStart(4, '0')}`,
    height: inchesToMm(height),
    thickness: inchesToMm(thickness),
    length: inchesToMm(6),
    count: 2,
  };
}

function getMetricPair(height: number, thickness: number): ParallelPair {
  return { id: `parallel-${thickness}mm-${height}`, height, thickness, length: 150, count: 2 };
}

/** Pairs of parallels: 1/8 and 1/4 in thick, 4 and 8 mm thick. */
export const PARALLELS: ParallelPair[] = [
  ...THIN_INCH_HEIGHTS.map((height) => getInchPair(height, 1 / 8, 'thin')),
  ...THICK_INCH_HEIGHTS.map((height) => getInchPair(height, 1 / 4, 'thick')),
  ...THIN_METRIC_HEIGHTS.map((height) => getMetricPair(height, 4)),
  ...THICK_METRIC_HEIGHTS.map((height) => getMetricPair(height, 8)),
];
