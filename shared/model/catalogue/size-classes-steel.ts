import { inchesToMm } from '../../units/exact';
import type { SizeClass } from '../shop';
import { getEvenBands, getInchBands, getMinusBands } from './size-bands';
import { FROM_MEMORY } from './sources';

const TEN_FEET = inchesToMm(120);
const FIVE_FEET = inchesToMm(60);

/** One band, found by width, holds for width and thickness; the metal is never over size. */
function getColdFinishedBands(tolerances: readonly [number, number, number, number, number, number]) {
  const widths = [0.75, 1.5, 3, 4, 6, 12] as const;
  return getInchBands(widths.map((upTo, index) => [upTo, tolerances[index] ?? 0, 0]));
}

function getColdFinished(
  entry: Pick<SizeClass, 'id' | 'name'>,
  tolerances: readonly [number, number, number, number, number, number],
  bowIn120: number,
): SizeClass {
  const bands = getColdFinishedBands(tolerances);
  const bow = inchesToMm(bowIn120);
  return {
    ...entry,
    standard: 'ASTM A108',
    form: 'coldFinished',
    surface: 'drawn',
    widthBands: bands,
    thicknessBands: bands,
    bandBy: 'width',
    skinBands: [],
    cornerBands: [],
    straightness: {
      perLength: bow / TEN_FEET,
      bow,
      overLength: TEN_FEET,
      source: 'ASTM A108 Table A1.4, level 1, squares 5/8 in and over, under 15 ft, taken for flats',
    },
    source: `ASTM A108 sizes: all minus, one band by width; figures ${FROM_MEMORY}`,
  };
}

const LOW_CARBON_COLD_FINISHED = getColdFinished(
  { id: 'class-a108-low-carbon', name: 'Cold-finished flat, to 0.28 % C' },
  [0.003, 0.004, 0.005, 0.006, 0.008, 0.013],
  1 / 8,
);

const MEDIUM_CARBON_COLD_FINISHED = getColdFinished(
  { id: 'class-a108-medium-carbon', name: 'Cold-finished flat, over 0.28 % C or alloy' },
  [0.004, 0.005, 0.006, 0.008, 0.01, 0.015],
  3 / 16,
);

/** EN 10278 flats, width: h11 to 100 mm, then its own figures. */
const BRIGHT_WIDTH_BANDS = [
  ...getMinusBands([
    [3, 0.06],
    [6, 0.075],
    [10, 0.09],
    [18, 0.11],
    [30, 0.13],
    [50, 0.16],
    [80, 0.19],
    [100, 0.22],
  ]),
  { over: 100, upTo: 150, minus: 0.5, plus: 0.5 },
  { over: 150, upTo: 200, minus: 1, plus: 1 },
];

const BRIGHT_FLAT: SizeClass = {
  id: 'class-en10278-h11',
  name: 'Bright flat h11, to 0.20 % C',
  standard: 'EN 10278',
  form: 'coldFinished',
  surface: 'drawn',
  widthBands: BRIGHT_WIDTH_BANDS,
  thicknessBands: getMinusBands([
    [3, 0.06],
    [6, 0.075],
    [10, 0.09],
    [18, 0.11],
    [30, 0.13],
    [50, 0.16],
    [60, 0.19],
    [80, 0.3],
    [100, 0.35],
  ]),
  bandBy: 'each',
  skinBands: [],
  cornerBands: [],
  straightness: { perLength: 0.0015, bow: 1.5, overLength: 1000, source: 'EN 10278, flats under 120 mm wide' },
  source: 'EN 10278 flats; h11 of ISO 286-2 to 100 mm wide and 60 mm thick',
};

const BRIGHT_FLAT_ALLOY: SizeClass = {
  ...BRIGHT_FLAT,
  id: 'class-en10278-alloy',
  name: 'Bright flat, over 0.20 % C or alloy',
  thicknessBands: getMinusBands([
    [3, 0.12],
    [6, 0.15],
    [10, 0.18],
    [18, 0.22],
    [30, 0.26],
    [50, 0.32],
    [60, 0.38],
    [80, 0.6],
    [100, 0.7],
  ]),
  straightness: { perLength: 0.002, bow: 2, overLength: 1000, source: 'EN 10278, flats under 120 mm wide, alloy' },
  source: 'EN 10278 flats over 0.20 % C: the thickness limit of h11 is doubled (one reading)',
};

const HOT_ROLLED_FLAT: SizeClass = {
  id: 'class-en10058',
  name: 'Hot-rolled flat',
  standard: 'EN 10058',
  form: 'hotRolled',
  surface: 'rolled',
  widthBands: getEvenBands([
    [40, 0.75],
    [80, 1],
    [100, 1.5],
    [120, 2],
    [150, 2.5],
  ]),
  thicknessBands: getEvenBands([
    [20, 0.5],
    [40, 1],
    [80, 1.5],
  ]),
  bandBy: 'each',
  // Inch table: to 1/2 .030, 3/4 .045, 1 .060, 1-1/2 .075, 2 .090 in; the rows past 2 in carry the same slope on.
  skinBands: [
    { upTo: inchesToMm(0.5), skin: inchesToMm(0.03) },
    { upTo: inchesToMm(0.75), skin: inchesToMm(0.045) },
    { upTo: inchesToMm(1), skin: inchesToMm(0.06) },
    { upTo: inchesToMm(1.5), skin: inchesToMm(0.075) },
    { upTo: inchesToMm(2), skin: inchesToMm(0.09) },
    { upTo: inchesToMm(3), skin: inchesToMm(0.125) },
    { upTo: inchesToMm(6), skin: inchesToMm(0.19) },
  ],
  cornerBands: [
    { upTo: 12, radius: 1 },
    { upTo: 20, radius: 1.5 },
    { upTo: 30, radius: 2 },
    { upTo: 50, radius: 2.5 },
    { upTo: 80, radius: 3 },
  ],
  straightness: {
    perLength: 0.004,
    bow: 4,
    overLength: 1000,
    source: 'EN 10058: 0.4 % of length under 1000 mm²; larger sections are held to 0.25 %',
  },
  source: `EN 10058 sizes; skin: least stock removal of hot-rolled carbon and alloy bar, over 2 in ${FROM_MEMORY}; corners to 12 mm and over 50 mm ${FROM_MEMORY}`,
};

const STAINLESS_COLD_FINISHED: SizeClass = {
  id: 'class-a484-cold-finished',
  name: 'Stainless cold-finished flat',
  standard: 'ASTM A484',
  form: 'coldFinished',
  surface: 'drawn',
  widthBands: getInchBands([
    [0.375, 0.005, 0.005],
    [1, 0.005, 0.005],
    [2, 0.006, 0.006],
    [3, 0.008, 0.008],
    [4.5, 0.01, 0.01],
  ]),
  thicknessBands: getInchBands([
    [0.125, 0.003, 0.003],
    [1, 0.004, 0.004],
    [2, 0.006, 0.006],
    [3, 0.008, 0.008],
    [4.5, 0.01, 0.01],
  ]),
  bandBy: 'each',
  skinBands: [],
  cornerBands: [],
  straightness: {
    perLength: inchesToMm(1 / 16) / FIVE_FEET,
    bow: inchesToMm(1 / 16),
    overLength: FIVE_FEET,
    source: `ASTM A484 cold-finished, ${FROM_MEMORY}`,
  },
  source: `ASTM A484 cold-finished flats: figures ${FROM_MEMORY}, measure your own`,
};

/** Size classes of steel and stainless flats. */
export const STEEL_SIZE_CLASSES: SizeClass[] = [
  LOW_CARBON_COLD_FINISHED,
  MEDIUM_CARBON_COLD_FINISHED,
  BRIGHT_FLAT,
  BRIGHT_FLAT_ALLOY,
  HOT_ROLLED_FLAT,
  STAINLESS_COLD_FINISHED,
];
