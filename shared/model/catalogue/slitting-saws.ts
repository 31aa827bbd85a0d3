import { inchesToMm } from '../../units/exact';
import type { SlittingSaw } from '../shop';
import { getInchKey, getInchText } from './inch-text';
import { FROM_MEMORY, TYPICAL } from './sources';

type SawRow = readonly [diameter: number, width: number, teeth: number, flange: number, arbor: number, shank: number];

/** Screw and washer below the saw, mm: a low head on a thin washer. Typical, measure your own. */
const SCREW_HEIGHT = 4;

/** Coarse-toothed saws of DIN 1838 (sizes of ISO 2296), mm. */
const METRIC_ROWS: readonly SawRow[] = [
  [50, 1.6, 24, 25, 40, 12],
  [63, 1.6, 32, 32, 40, 16],
  [63, 2, 32, 32, 40, 16],
  [80, 2, 32, 36, 45, 16],
  [100, 2.5, 40, 40, 45, 20],
];

/** Inches. */
const INCH_ROWS: readonly SawRow[] = [
  [2.75, 1 / 16, 28, 1.25, 1.5, 0.625],
  [3, 1 / 16, 30, 1.25, 1.75, 0.75],
  [3, 3 / 32, 30, 1.25, 1.75, 0.75],
  [4, 3 / 32, 36, 1.5, 1.75, 0.75],
];

function getSaw(entry: Pick<SlittingSaw, 'id' | 'name' | 'source'>, row: SawRow, toMm: (value: number) => number) {
  const [diameter, width, teeth, flange, arbor, shank] = row;
  const saw: SlittingSaw = {
    kind: 'slittingSaw',
    ...entry,
    number: '',
    toolMaterial: 'hss',
    diameter: toMm(diameter),
    flutes: teeth,
    shankDiameter: toMm(shank),
    overallLength: 100,
    wearFactor: 1.3,
    coatingFactor: 1,
    width: toMm(width),
    flangeDiameter: toMm(flange),
    arborLength: toMm(arbor),
    screwHeight: SCREW_HEIGHT,
  };
  return saw;
}

function getMetricSaw(row: SawRow): SlittingSaw {
  const [diameter, width] = row;
  const source = `diameter and thickness: ISO 2296 / DIN 1838, ${FROM_MEMORY}; arbor ${TYPICAL}`;
  const id = `tool-slit-${diameter}x${String(width).replace('.', '-')}mm`;
  return getSaw({ id, name: `Slitting saw, ${diameter} × ${width} mm`, source }, row, (mm) => mm);
}

function getInchSaw(row: SawRow): SlittingSaw {
  const [diameter, width] = row;
  const name = `Slitting saw, ${getInchText(diameter)} × ${getInchText(width)} in`;
  return getSaw(
    { id: `tool-slit-${getInchKey(diameter)}x${getInchKey(width)}`, name, source: TYPICAL },
    row,
    inchesToMm,
  );
}

export const SLITTING_SAWS: SlittingSaw[] = [...INCH_ROWS.map(getInchSaw), ...METRIC_ROWS.map(getMetricSaw)];
