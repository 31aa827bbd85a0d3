import { inchesToMm, mmToInches } from '../../units/exact';
import type { KeySeatCutter } from '../shop';
import { getInchKey, getInchText } from './inch-text';
import { getKeyNumberSizes, KEY_NUMBERS } from './key-numbers';
import { FROM_MEMORY, TYPICAL } from './sources';

const STANDARD_SOURCE =
  `diameter and width: ASME B17.2 key number; shank 1/2 in, length 2 in + width ${FROM_MEMORY}; ` + `neck ${TYPICAL}`;
const LONG_SOURCE = `long-necked cutter, ${TYPICAL}`;

const STANDARD_SHANK = inchesToMm(0.5);
const STANDARD_NECK_LENGTH = inchesToMm(0.375);

/** Neck behind the teeth, typical: half the diameter on small cutters. */
function getNeckDiameter(diameter: number): number {
  return Math.min(diameter / 2, diameter > inchesToMm(1.125) ? inchesToMm(0.4375) : inchesToMm(0.375));
}

function getTeeth(diameter: number): number {
  if (diameter < inchesToMm(0.5)) return 6;
  return diameter < inchesToMm(1) ? 8 : 10;
}

function getStandardCutter(keyNumber: string): KeySeatCutter[] {
  const sizes = getKeyNumberSizes(keyNumber);
  if (sizes === undefined) return [];
  const { diameter, width } = sizes;
  return [
    {
      kind: 'keySeat',
      id: `tool-key-${keyNumber.replace('.', '-')}`,
      number: '',
      name: `Key-seat cutter ${keyNumber}, ${getInchText(mmToInches(diameter))} × ${getInchText(mmToInches(width))} in`,
      toolMaterial: 'hss',
      diameter,
      flutes: getTeeth(diameter),
      shankDiameter: STANDARD_SHANK,
      overallLength: inchesToMm(2) + width,
      wearFactor: 1.3,
      coatingFactor: 1,
      source: STANDARD_SOURCE,
      width,
      neckDiameter: getNeckDiameter(diameter),
      neckLength: STANDARD_NECK_LENGTH,
      keyNumber,
    },
  ];
}

type LongInchRow = readonly [diameter: number, width: number, neck: number, neckLength: number];

const LONG_INCH_ROWS: readonly LongInchRow[] = [
  [0.75, 0.125, 0.375, 1.25],
  [0.875, 0.125, 0.375, 1.5],
  [1, 0.125, 0.375, 1.75],
  [1, 0.1875, 0.375, 1.75],
  [1.125, 0.1875, 0.375, 1.75],
  [1.25, 0.1875, 0.4375, 2],
  [1.25, 0.25, 0.4375, 2],
  [1.5, 0.25, 0.5, 2],
];

/** The standard number of these sizes, or '' when B17.2 has none. */
function findKeyNumber(diameter: number, width: number): string {
  const isMatch = (keyNumber: string): boolean => {
    const sizes = getKeyNumberSizes(keyNumber);
    return sizes?.diameter === diameter && sizes.width === width;
  };
  return KEY_NUMBERS.find(isMatch) ?? '';
}

function getLongInchCutter([diameterInch, widthInch, neckInch, neckLengthInch]: LongInchRow): KeySeatCutter {
  const diameter = inchesToMm(diameterInch);
  const width = inchesToMm(widthInch);
  return {
    kind: 'keySeat',
    id: `tool-key-long-${getInchKey(diameterInch)}x${getInchKey(widthInch)}`,
    number: '',
    name: `Long-necked key-seat cutter, ${getInchText(diameterInch)} × ${getInchText(widthInch)} in, carbide`,
    toolMaterial: 'carbide',
    diameter,
    flutes: 6,
    shankDiameter: inchesToMm(0.5),
    overallLength: inchesToMm(4),
    wearFactor: 1.3,
    coatingFactor: 1,
    source: LONG_SOURCE,
    width,
    neckDiameter: inchesToMm(neckInch),
    neckLength: inchesToMm(neckLengthInch),
    keyNumber: findKeyNumber(diameter, width),
  };
}

type LongMetricRow = readonly [diameter: number, width: number, neck: number, neckLength: number, shank: number];

const LONG_METRIC_ROWS: readonly LongMetricRow[] = [
  [16, 2, 7, 25, 10],
  [20, 2, 8, 30, 10],
  [20, 3, 8, 30, 10],
  [25, 3, 10, 40, 12],
  [32, 4, 12, 45, 16],
];

function getLongMetricCutter([diameter, width, neck, neckLength, shank]: LongMetricRow): KeySeatCutter {
  return {
    kind: 'keySeat',
    id: `tool-key-long-${diameter}x${width}mm`,
    number: '',
    name: `Long-necked key-seat cutter, ${diameter} × ${width} mm, carbide`,
    toolMaterial: 'carbide',
    diameter,
    flutes: 6,
    shankDiameter: shank,
    overallLength: 100,
    wearFactor: 1.3,
    coatingFactor: 1,
    source: LONG_SOURCE,
    width,
    neckDiameter: neck,
    neckLength,
    keyNumber: '',
  };
}

/** Every standard key-seat cutter, and long-necked ones that pass a tall wall. */
export const KEY_SEAT_CUTTERS: KeySeatCutter[] = [
  ...KEY_NUMBERS.flatMap(getStandardCutter),
  ...LONG_INCH_ROWS.map(getLongInchCutter),
  ...LONG_METRIC_ROWS.map(getLongMetricCutter),
];
