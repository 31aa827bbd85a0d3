import { inchesToMm } from '../../units/exact';
import type { SizeClass } from '../shop';
import { getBands, getInchBands } from './size-bands';
import { COMMON_PRACTICE, FROM_MEMORY, TYPICAL } from './sources';

const LARGEST_SECTION = 1000;

const squareCorners = { skinBands: [], cornerBands: [] };

// The printed table runs "0.500-0.749, 0.750-0.999 ...": a 3/4 in bar belongs to the second row.
const EXTRUDED_BANDS = getInchBands([
  [0.749, 0.009, 0.009],
  [0.999, 0.01, 0.01],
  [1.499, 0.012, 0.012],
  [1.999, 0.014, 0.014],
  [3.999, 0.024, 0.024],
]);

const ALUMINIUM_EXTRUDED: SizeClass = {
  id: 'class-aluminium-extruded',
  name: 'Aluminium extruded flat',
  standard: '',
  form: 'extruded',
  surface: 'drawn',
  widthBands: EXTRUDED_BANDS,
  thicknessBands: EXTRUDED_BANDS,
  bandBy: 'each',
  ...squareCorners,
  straightness: {
    perLength: 0.0125 / 12,
    bow: inchesToMm(0.0125),
    overLength: inchesToMm(12),
    source: `0.0125 in a foot, ${FROM_MEMORY}`,
  },
  source: `extruded rectangular bar, inch table; the first row is carried down to small sizes; ${TYPICAL}`,
};

const BRASS_BANDS = getInchBands([
  [1, 0.005, 0.005],
  [2, 0.008, 0.008],
  [4, 0.012, 0.012],
]);

const COPPER_ALLOY_DRAWN: SizeClass = {
  id: 'class-copper-alloy-drawn',
  name: 'Brass drawn flat',
  standard: '',
  form: 'coldFinished',
  surface: 'drawn',
  widthBands: BRASS_BANDS,
  thicknessBands: BRASS_BANDS,
  bandBy: 'each',
  ...squareCorners,
  straightness: { perLength: 0.001, bow: 1, overLength: 1000, source: TYPICAL },
  source: TYPICAL,
};

const GROUND_INCH: SizeClass = {
  id: 'class-ground-inch',
  name: 'Precision-ground flat, inch',
  standard: '',
  form: 'ground',
  surface: 'ground',
  widthBands: getInchBands([[40, 0, 0.005]]),
  thicknessBands: getInchBands([[40, 0.001, 0.001]]),
  bandBy: 'each',
  ...squareCorners,
  straightness: { perLength: 0.0003, bow: 0.3, overLength: 1000, source: TYPICAL },
  source: `width +.005 -0, thickness ±.001 in, ${TYPICAL}`,
};

const GROUND_METRIC: SizeClass = {
  ...GROUND_INCH,
  id: 'class-ground-metric',
  name: 'Precision-ground flat, metric',
  widthBands: getBands([[LARGEST_SECTION, 0, 0.2]]),
  thicknessBands: getBands([[LARGEST_SECTION, 0, 0.05]]),
  source: `width +0.2 -0, thickness +0.05 -0 mm, ${TYPICAL}`,
};

const SAWN_BANDS = getBands([[LARGEST_SECTION, 0, 3]]);

const SAWN_OR_CAST: SizeClass = {
  id: 'class-sawn-or-cast',
  name: 'Cast or sawn from plate, over size',
  standard: '',
  form: 'hotRolled',
  surface: 'sawn',
  widthBands: SAWN_BANDS,
  thicknessBands: SAWN_BANDS,
  bandBy: 'each',
  skinBands: [{ upTo: LARGEST_SECTION, skin: 0.5 }],
  cornerBands: [],
  straightness: { perLength: 0.002, bow: 2, overLength: 1000, source: TYPICAL },
  source: `sold to finish at nominal, +3 -0 mm, skin 0.5 mm: ${COMMON_PRACTICE}`,
};

const ANY_SIZE = getBands([[LARGEST_SECTION, 0, 0]]);

const MEASURED: SizeClass = {
  id: 'class-measured',
  name: 'Measured bar',
  standard: '',
  form: 'measured',
  surface: 'drawn',
  widthBands: ANY_SIZE,
  thicknessBands: ANY_SIZE,
  bandBy: 'each',
  ...squareCorners,
  straightness: { perLength: 0.0015, bow: 1.5, overLength: 1000, source: TYPICAL },
  source: 'the size is what you measured; enter it with the bar',
};

/** Size classes of other metals, ground stock and bars in hand. */
export const OTHER_SIZE_CLASSES: SizeClass[] = [
  ALUMINIUM_EXTRUDED,
  COPPER_ALLOY_DRAWN,
  GROUND_INCH,
  GROUND_METRIC,
  SAWN_OR_CAST,
  MEASURED,
];
