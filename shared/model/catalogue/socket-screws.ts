import { inchesToMm } from '../../units/exact';

/** Head of a socket-head cap screw and the counterbore it sits in, mm. */
export interface ScrewHead {
  /** `M10` or `3/8`. */
  thread: string;
  /** Largest head diameter and height of the standard, for clearance. */
  headDiameter: number;
  headHeight: number;
  counterboreDiameter: number;
  counterboreDepth: number;
  source: string;
}

const METRIC_SOURCE = 'head: ISO 4762; counterbore: DIN 974-1 row 1';
const INCH_SOURCE =
  'head: ASME B18.3; counterbore diameter: ASME B18.3 appendix, from memory; depth: head height + 1/32 in, common practice';

type Row = readonly [thread: string, headDiameter: number, headHeight: number, counterbore: number, depth: number];

const METRIC_ROWS: readonly Row[] = [
  ['M6', 10, 6, 11, 6.8],
  ['M8', 13, 8, 15, 9],
  ['M10', 16, 10, 18, 11],
  ['M12', 18, 12, 20, 13],
  ['M16', 24, 16, 26, 17.5],
];

const INCH_ROWS: readonly Row[] = [
  ['1/4', 0.375, 0.25, 7 / 16, 0.25 + 1 / 32],
  ['5/16', 0.469, 0.312, 17 / 32, 0.312 + 1 / 32],
  ['3/8', 0.562, 0.375, 5 / 8, 0.375 + 1 / 32],
  ['1/2', 0.75, 0.5, 13 / 16, 0.5 + 1 / 32],
  ['5/8', 0.938, 0.625, 1, 0.625 + 1 / 32],
];

function getHead([thread, ...sizes]: Row, toMm: (value: number) => number, source: string): ScrewHead {
  const [headDiameter, headHeight, counterboreDiameter, counterboreDepth] = sizes.map(toMm) as [
    number,
    number,
    number,
    number,
  ];
  return { thread, headDiameter, headHeight, counterboreDiameter, counterboreDepth, source };
}

/** Socket-head cap screws that hold vise jaws. */
export const SCREW_HEADS: readonly ScrewHead[] = [
  ...METRIC_ROWS.map((row) => getHead(row, (mm) => mm, METRIC_SOURCE)),
  ...INCH_ROWS.map((row) => getHead(row, inchesToMm, INCH_SOURCE)),
];

/**
 * Head and counterbore of a socket-head cap screw.
 *
 * @param thread nominal thread, `M10` or `3/8`; a pitch after it (`3/8-16`, `M10x1.5`) is ignored
 * @returns sizes in mm; undefined for a thread outside the table (M6 to M16, 1/4 to 5/8)
 * @example getScrewHead('M10')?.headDiameter // 16
 */
export function getScrewHead(thread: string): ScrewHead | undefined {
  const nominal = thread.trim().toUpperCase().split(/[-X×]/)[0];
  return SCREW_HEADS.find((head) => head.thread === nominal);
}
