import { inchesToMm } from '../../units/exact';
import type { BarLength, BarOffer } from '../shop';
import { getInchKey, getInchText } from './inch-text';
import { MATERIALS } from './materials';
import { COMMON_PRACTICE } from './sources';

const SOURCE = `trade sizes: ${COMMON_PRACTICE}; the price is invented for demonstration: enter your own`;

/** Invented, in the shop's currency; only there so that a comparison of sections has something to compare. */
const INVENTED_PRICE_PER_KG: Readonly<Record<string, number>> = {
  'material-low-carbon-steel': 4,
  'material-4140-annealed': 7,
  'material-42crmo4-qt': 8,
  'material-304': 9,
  'material-316': 12,
  'material-6061-t6': 11,
  'material-6082-t6': 10,
  'material-c954': 24,
  'material-c360': 16,
  'material-grey-iron': 9,
  'material-ti-6al-4v': 90,
};
const INVENTED_CHARGE_PER_BAR = 4;
const INVENTED_SHORT_BAR_FACTOR = 1.2;
const INVENTED_SPECIAL_RUN_FACTOR = 1.25;

/** Sizes that are run to order, at a price above the next size up. */
const SPECIAL_RUN_WIDTHS_INCH: readonly number[] = [1.75, 2.25];

interface Range {
  materialId: string;
  sizeClassId: string;
  /** Part of the id, such as `4140`. */
  key: string;
  finish: string;
  units: 'in' | 'mm';
  /** In the range's units, longest first. */
  lengths: readonly number[];
  /** In the range's units: thickness, then the widths it comes in. */
  sizes: readonly (readonly [thickness: number, widths: readonly number[]])[];
  hasSpecialRuns: boolean;
}

const COMMON_INCH_SIZES: Range['sizes'] = [
  [0.25, [0.5, 0.75, 1, 1.5, 2]],
  [0.375, [0.75, 1, 1.25, 1.5, 2]],
  [0.5, [0.75, 1, 1.25, 1.5, 1.75, 2, 2.5, 3]],
  [0.625, [1, 1.5, 2]],
  [0.75, [1, 1.25, 1.5, 1.75, 2, 2.25, 2.5, 3]],
  [1, [1.5, 2, 2.5, 3]],
];

const STAINLESS_INCH_SIZES: Range['sizes'] = [
  [0.25, [0.5, 0.75, 1, 1.25, 1.5, 2, 3]],
  [0.375, [0.75, 1, 1.25, 1.5, 1.75, 2, 3]],
  [0.5, [1, 1.25, 1.5, 1.75, 2, 2.5, 3]],
  [0.75, [1, 1.5, 2, 2.5, 3]],
  [1, [1.5, 2, 3]],
];

const METRIC_SIZES: Range['sizes'] = [
  [10, [20, 25, 30, 40, 50]],
  [12, [25, 30, 40, 50]],
  [15, [25, 30, 35, 40, 50]],
  [20, [30, 40, 50, 60]],
  [25, [40, 50, 60]],
];

const HOT_ROLLED_SIZES: Range['sizes'] = [
  [12, [30, 40, 50]],
  [15, [30, 40, 50, 60]],
  [20, [40, 50, 60]],
];

const INCH_LENGTHS = [144, 72, 36] as const;

const RANGES: readonly Range[] = [
  {
    materialId: 'material-low-carbon-steel',
    sizeClassId: 'class-a108-low-carbon',
    key: '1018',
    finish: 'cold finished',
    units: 'in',
    lengths: INCH_LENGTHS,
    sizes: COMMON_INCH_SIZES,
    hasSpecialRuns: true,
  },
  {
    materialId: 'material-4140-annealed',
    sizeClassId: 'class-a108-medium-carbon',
    key: '4140',
    finish: 'cold finished',
    units: 'in',
    lengths: INCH_LENGTHS,
    sizes: [
      [0.375, [1, 1.5, 2]],
      [0.5, [1, 1.5, 1.75, 2, 2.5, 3]],
      [0.75, [1.25, 1.5, 1.75, 2, 2.25, 2.5, 3]],
      [1, [1.5, 2, 2.5, 3]],
    ],
    hasSpecialRuns: false,
  },
  {
    materialId: 'material-304',
    sizeClassId: 'class-a484-cold-finished',
    key: '304',
    finish: 'cold finished',
    units: 'in',
    lengths: INCH_LENGTHS,
    sizes: STAINLESS_INCH_SIZES,
    hasSpecialRuns: false,
  },
  {
    materialId: 'material-316',
    sizeClassId: 'class-a484-cold-finished',
    key: '316',
    finish: 'cold finished',
    units: 'in',
    lengths: INCH_LENGTHS,
    sizes: STAINLESS_INCH_SIZES,
    hasSpecialRuns: false,
  },
  {
    materialId: 'material-6061-t6',
    sizeClassId: 'class-aluminium-extruded',
    key: '6061',
    finish: 'extruded',
    units: 'in',
    lengths: INCH_LENGTHS,
    sizes: COMMON_INCH_SIZES,
    hasSpecialRuns: false,
  },
  {
    materialId: 'material-c954',
    sizeClassId: 'class-sawn-or-cast',
    key: 'c954',
    finish: 'continuous cast',
    units: 'in',
    lengths: [36, 12],
    sizes: [
      [0.5, [1, 1.5, 2, 3]],
      [0.75, [1.5, 2, 3]],
      [1, [1.5, 2, 3]],
    ],
    hasSpecialRuns: false,
  },
  {
    materialId: 'material-c360',
    sizeClassId: 'class-copper-alloy-drawn',
    key: 'c360',
    finish: 'drawn',
    units: 'in',
    lengths: [72, 36],
    sizes: [
      [0.25, [0.75, 1, 1.5, 2]],
      [0.375, [0.75, 1, 1.5, 2]],
      [0.5, [1, 1.5, 2]],
      [0.75, [1, 1.5, 2]],
    ],
    hasSpecialRuns: false,
  },
  {
    materialId: 'material-grey-iron',
    sizeClassId: 'class-sawn-or-cast',
    key: 'grey-iron',
    finish: 'continuous cast',
    units: 'in',
    lengths: [36, 12],
    sizes: [
      [0.75, [1.5, 2, 3]],
      [1, [1.5, 2, 2.5, 3]],
    ],
    hasSpecialRuns: false,
  },
  {
    materialId: 'material-ti-6al-4v',
    sizeClassId: 'class-sawn-or-cast',
    key: 'ti-6al-4v',
    finish: 'sawn from plate',
    units: 'in',
    lengths: [36, 12],
    sizes: [
      [0.5, [1, 1.5, 2, 3]],
      [0.75, [1.5, 2, 3]],
    ],
    hasSpecialRuns: false,
  },
  {
    materialId: 'material-low-carbon-steel',
    sizeClassId: 'class-en10278-h11',
    key: 'bright',
    finish: 'bright h11',
    units: 'mm',
    lengths: [3000, 1000],
    sizes: METRIC_SIZES,
    hasSpecialRuns: false,
  },
  {
    materialId: 'material-low-carbon-steel',
    sizeClassId: 'class-en10058',
    key: 'hot-rolled',
    finish: 'hot rolled',
    units: 'mm',
    lengths: [6000, 3000],
    sizes: HOT_ROLLED_SIZES,
    hasSpecialRuns: false,
  },
  {
    materialId: 'material-42crmo4-qt',
    sizeClassId: 'class-en10278-alloy',
    key: '42crmo4',
    finish: 'bright',
    units: 'mm',
    lengths: [3000, 1000],
    sizes: [
      [12, [30, 40, 50]],
      [15, [30, 40, 50, 60]],
      [20, [40, 50, 60]],
    ],
    hasSpecialRuns: false,
  },
  {
    materialId: 'material-304',
    sizeClassId: 'class-en10278-h11',
    key: '1-4301',
    finish: 'bright h11',
    units: 'mm',
    lengths: [3000, 1000],
    sizes: [
      [10, [20, 30, 40, 50]],
      [15, [30, 40, 50]],
      [20, [30, 40, 50, 60]],
    ],
    hasSpecialRuns: false,
  },
  {
    materialId: 'material-6082-t6',
    sizeClassId: 'class-aluminium-extruded',
    key: '6082',
    finish: 'extruded',
    units: 'mm',
    lengths: [3000, 1000],
    sizes: METRIC_SIZES,
    hasSpecialRuns: false,
  },
];

function getSizeText(size: number, units: 'in' | 'mm'): string {
  return units === 'in' ? getInchText(size) : String(size);
}

function getSizeKey(size: number, units: 'in' | 'mm'): string {
  return units === 'in' ? getInchKey(size) : String(size);
}

function toMm(value: number, units: 'in' | 'mm'): number {
  return units === 'in' ? inchesToMm(value) : value;
}

/** Invented price of one bar, to the half. */
function getInventedPrice(range: Range, massKg: number, isLongest: boolean, isSpecial: boolean): number {
  const perKg = INVENTED_PRICE_PER_KG[range.materialId] ?? 10;
  const factor = (isLongest ? 1 : INVENTED_SHORT_BAR_FACTOR) * (isSpecial ? INVENTED_SPECIAL_RUN_FACTOR : 1);
  return Math.ceil((massKg * perKg * factor + INVENTED_CHARGE_PER_BAR) * 2) / 2;
}

function getBarLengths(range: Range, areaMm2: number, isSpecial: boolean): BarLength[] {
  const densityKgM3 = MATERIALS.find((material) => material.id === range.materialId)?.densityKgM3 ?? 0;
  return range.lengths.map((value, index) => {
    const length = toMm(value, range.units);
    const massKg = (areaMm2 * length * densityKgM3) / 1e9;
    return {
      id: `length-${value}${range.units}`,
      length,
      price: getInventedPrice(range, massKg, index === 0, isSpecial),
      stocked: !isSpecial,
      quantity: null,
    };
  });
}

function getBar(range: Range, thicknessInUnits: number, widthInUnits: number): BarOffer {
  const { units } = range;
  const material = MATERIALS.find((candidate) => candidate.id === range.materialId);
  const thickness = toMm(thicknessInUnits, units);
  const width = toMm(widthInUnits, units);
  const isSpecial = range.hasSpecialRuns && SPECIAL_RUN_WIDTHS_INCH.includes(widthInUnits);
  return {
    id: `bar-${range.key}-${getSizeKey(thicknessInUnits, units)}x${getSizeKey(widthInUnits, units)}`,
    name: `${getSizeText(thicknessInUnits, units)} × ${getSizeText(widthInUnits, units)} ${units} ${material?.name ?? ''}, ${range.finish}`,
    materialId: range.materialId,
    sizeClassId: range.sizeClassId,
    width,
    thickness,
    priceBasis: 'piece',
    lengths: getBarLengths(range, thickness * width, isSpecial),
    measured: null,
    source: SOURCE,
  };
}

/** Common flats on offer. Sizes are usual in the trade; every price is invented and its source says so. */
export const BARS: BarOffer[] = RANGES.flatMap((range) =>
  range.sizes.flatMap(([thickness, widths]) => widths.map((width) => getBar(range, thickness, width))),
);
