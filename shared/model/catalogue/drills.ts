import { inchesToMm } from '../../units/exact';
import type { Drill } from '../shop';
import { getInchKey, getInchText } from './inch-text';
import { FROM_MEMORY } from './sources';

type Row = readonly [diameter: number, flute: number, overall: number];

/** Jobber-length drills, inches. */
const INCH_ROWS: readonly Row[] = [
  [0.125, 1.625, 2.75],
  [0.1875, 2.3125, 3.5],
  [0.25, 2.75, 4],
  [0.3125, 3.1875, 4.5],
  [0.375, 3.625, 5],
  [0.5, 4.5, 6],
];

/** Jobber-length drills of DIN 338, mm. */
const METRIC_ROWS: readonly Row[] = [
  [3, 33, 61],
  [4, 43, 75],
  [5, 52, 86],
  [6, 57, 93],
  [8, 75, 117],
  [10, 87, 133],
  [12, 101, 151],
];

function getDrill(entry: Pick<Drill, 'id' | 'name' | 'source'>, row: Row, toMm: (value: number) => number): Drill {
  const [diameter, flute, overall] = row;
  return {
    kind: 'drill',
    ...entry,
    number: '',
    toolMaterial: 'hss',
    diameter: toMm(diameter),
    flutes: 2,
    shankDiameter: toMm(diameter),
    overallLength: toMm(overall),
    wearFactor: 1.3,
    coatingFactor: 1,
    pointAngleDeg: 118,
    fluteLength: toMm(flute),
  };
}

function getInchDrill(row: Row): Drill {
  const source = `jobber length, ${FROM_MEMORY}`;
  return getDrill(
    { id: `tool-drill-${getInchKey(row[0])}`, name: `Drill ${getInchText(row[0])} in`, source },
    row,
    inchesToMm,
  );
}

function getMetricDrill(row: Row): Drill {
  const source = `DIN 338, ${FROM_MEMORY}`;
  return getDrill({ id: `tool-drill-${row[0]}mm`, name: `Drill ${row[0]} mm`, source }, row, (mm) => mm);
}

export const DRILLS: Drill[] = [...INCH_ROWS.map(getInchDrill), ...METRIC_ROWS.map(getMetricDrill)];
