import { inchesToMm } from '../../units/exact';
import type { EndMill, ToolMaterial } from '../shop';
import { getInchKey, getInchText } from './inch-text';
import { TYPICAL } from './sources';

/** Diameter, flute length, overall length; the shank follows the diameter. */
type Row = readonly [diameter: number, flute: number, overall: number];

interface Range {
  key: string;
  label: string;
  toolMaterial: ToolMaterial;
  flutes: number;
  helixDeg: number;
  units: 'in' | 'mm';
  rows: readonly Row[];
}

const RANGES: readonly Range[] = [
  {
    key: 'carbide',
    label: 'carbide, 4 flutes',
    toolMaterial: 'carbide',
    flutes: 4,
    helixDeg: 38,
    units: 'in',
    rows: [
      [0.125, 0.5, 1.5],
      [0.1875, 0.625, 2],
      [0.25, 0.75, 2.5],
      [0.3125, 0.8125, 2.5],
      [0.375, 1, 2.5],
      [0.5, 1, 3],
      [0.625, 1.25, 3.5],
      [0.75, 1.5, 4],
    ],
  },
  {
    key: 'carbide-long',
    label: 'carbide, long, 4 flutes',
    toolMaterial: 'carbide',
    flutes: 4,
    helixDeg: 38,
    units: 'in',
    rows: [
      [0.25, 1.25, 4],
      [0.375, 1.5, 4],
      [0.5, 2, 4],
      [0.625, 2.25, 5],
      [0.75, 2.5, 5],
    ],
  },
  {
    key: 'carbide-aluminium',
    label: 'carbide, 3 flutes, for aluminium',
    toolMaterial: 'carbide',
    flutes: 3,
    helixDeg: 45,
    units: 'in',
    rows: [
      [0.25, 0.75, 2.5],
      [0.375, 1, 2.5],
      [0.5, 1.25, 3],
    ],
  },
  {
    key: 'hss',
    label: 'high-speed steel, 4 flutes',
    toolMaterial: 'hss',
    flutes: 4,
    helixDeg: 30,
    units: 'in',
    rows: [
      [0.25, 0.625, 2.4375],
      [0.375, 0.75, 2.5],
      [0.5, 1.25, 3.25],
      [0.625, 1.625, 3.75],
      [0.75, 1.625, 3.875],
    ],
  },
  {
    key: 'carbide',
    label: 'carbide, 4 flutes',
    toolMaterial: 'carbide',
    flutes: 4,
    helixDeg: 38,
    units: 'mm',
    rows: [
      [3, 8, 50],
      [4, 11, 50],
      [6, 13, 57],
      [8, 19, 63],
      [10, 22, 72],
      [12, 26, 83],
      [16, 32, 92],
      [20, 38, 104],
    ],
  },
  {
    key: 'carbide-long',
    label: 'carbide, long, 4 flutes',
    toolMaterial: 'carbide',
    flutes: 4,
    helixDeg: 38,
    units: 'mm',
    rows: [
      [6, 25, 75],
      [8, 30, 80],
      [10, 40, 100],
      [12, 45, 100],
      [16, 55, 120],
    ],
  },
  {
    key: 'carbide-aluminium',
    label: 'carbide, 3 flutes, for aluminium',
    toolMaterial: 'carbide',
    flutes: 3,
    helixDeg: 45,
    units: 'mm',
    rows: [
      [6, 18, 63],
      [8, 24, 75],
      [10, 30, 75],
      [12, 36, 83],
    ],
  },
  {
    key: 'hss',
    label: 'high-speed steel, 4 flutes',
    toolMaterial: 'hss',
    flutes: 4,
    helixDeg: 30,
    units: 'mm',
    rows: [
      [6, 13, 57],
      [8, 19, 69],
      [10, 22, 72],
      [12, 26, 83],
      [16, 32, 92],
      [20, 38, 104],
    ],
  },
];

function getEndMill(range: Range, [diameter, flute, overall]: Row): EndMill {
  const isInch = range.units === 'in';
  const toMm = isInch ? inchesToMm : (mm: number): number => mm;
  return {
    kind: 'endMill',
    id: `tool-em-${range.key}-${isInch ? getInchKey(diameter) : `${diameter}mm`}`,
    number: '',
    name: `End mill ${isInch ? getInchText(diameter) : diameter} ${range.units}, ${range.label}`,
    toolMaterial: range.toolMaterial,
    diameter: toMm(diameter),
    flutes: range.flutes,
    shankDiameter: toMm(diameter),
    overallLength: toMm(overall),
    wearFactor: 1.3,
    coatingFactor: 1,
    source: TYPICAL,
    helixDeg: range.helixDeg,
    fluteLength: toMm(flute),
    cornerRadius: 0,
    neck: null,
  };
}

/** End mills with a flute behind which the neck is relieved, for tall walls. */
const NECKED: readonly EndMill[] = [
  {
    ...getEndMill(
      {
        key: 'carbide-necked',
        label: 'carbide, necked, 4 flutes',
        toolMaterial: 'carbide',
        flutes: 4,
        helixDeg: 38,
        units: 'in',
        rows: [],
      },
      [0.5, 0.625, 4],
    ),
    neck: { diameter: inchesToMm(0.47), length: inchesToMm(1.625) },
  },
  {
    ...getEndMill(
      {
        key: 'carbide-necked',
        label: 'carbide, necked, 4 flutes',
        toolMaterial: 'carbide',
        flutes: 4,
        helixDeg: 38,
        units: 'mm',
        rows: [],
      },
      [12, 15, 100],
    ),
    neck: { diameter: 11.4, length: 35 },
  },
];

/** End mills in inch and metric sizes. */
export const END_MILLS: EndMill[] = [
  ...RANGES.flatMap((range) => range.rows.map((row) => getEndMill(range, row))),
  ...NECKED,
];
