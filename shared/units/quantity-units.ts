import type { LengthUnits } from './length-units';
import type { QuantityKind } from './quantity';
import {
  KG_M3_PER_LB_PER_CUBIC_INCH,
  KG_PER_LB,
  KW_PER_HP,
  METRES_PER_FOOT,
  MM2_PER_SQUARE_INCH,
  MM3_PER_CUBIC_INCH,
  MPA_PER_PSI,
  NEWTON_METRES_PER_LBF_IN,
  NEWTONS_PER_LBF,
} from './unit-sizes';

/** Kinds that are typed as a number with, perhaps, a unit. Lengths have a grammar of their own; some kinds only stand in workings. */
export type TypedKind = Exclude<QuantityKind, 'length' | 'plainText' | 'sectionModulus' | 'secondMoment' | 'areaRate'>;

interface TypedUnits {
  /** The unit of a bare number, as shown beside the field; '' where there is none. */
  readonly bare: Readonly<Record<LengthUnits, string>>;
  /** Size of every unit that may be typed, in the kind's stored unit, keyed by `getUnitKey`. */
  readonly sizes: Readonly<Record<string, number>>;
}

const TORQUES_NM = {
  nm: 1,
  nmm: 0.001,
  lbfin: NEWTON_METRES_PER_LBF_IN,
  lbin: NEWTON_METRES_PER_LBF_IN,
  inlbf: NEWTON_METRES_PER_LBF_IN,
  inlb: NEWTON_METRES_PER_LBF_IN,
  lbfft: 12 * NEWTON_METRES_PER_LBF_IN,
  lbft: 12 * NEWTON_METRES_PER_LBF_IN,
  ftlbf: 12 * NEWTON_METRES_PER_LBF_IN,
  ftlb: 12 * NEWTON_METRES_PER_LBF_IN,
};

/** The units each kind can be typed in. */
export const TYPED_UNITS: Readonly<Record<TypedKind, TypedUnits>> = {
  area: {
    bare: { in: 'in²', mm: 'mm²' },
    sizes: { 'mm²': 1, mm2: 1, 'in²': MM2_PER_SQUARE_INCH, in2: MM2_PER_SQUARE_INCH },
  },
  volume: {
    bare: { in: 'in³', mm: 'cm³' },
    sizes: { 'cm³': 1000, cm3: 1000, 'in³': MM3_PER_CUBIC_INCH, in3: MM3_PER_CUBIC_INCH },
  },
  angle: {
    bare: { in: '°', mm: '°' },
    sizes: { '°': Math.PI / 180, deg: Math.PI / 180, rad: 1 },
  },
  force: { bare: { in: 'lbf', mm: 'N' }, sizes: { n: 1, kn: 1000, lbf: NEWTONS_PER_LBF, lb: NEWTONS_PER_LBF } },
  torque: { bare: { in: 'lbf·in', mm: 'N·m' }, sizes: TORQUES_NM },
  moment: { bare: { in: 'lbf·in', mm: 'N·m' }, sizes: getScaled(TORQUES_NM, 1000) },
  stress: {
    bare: { in: 'psi', mm: 'MPa' },
    sizes: { mpa: 1, gpa: 1000, 'n/mm²': 1, 'n/mm2': 1, psi: MPA_PER_PSI, ksi: 1000 * MPA_PER_PSI },
  },
  mass: { bare: { in: 'lb', mm: 'kg' }, sizes: { kg: 1, g: 0.001, lb: KG_PER_LB, lbs: KG_PER_LB, oz: KG_PER_LB / 16 } },
  density: {
    bare: { in: 'lb/in³', mm: 'kg/m³' },
    sizes: {
      'kg/m³': 1,
      'kg/m3': 1,
      'g/cm³': 1000,
      'g/cm3': 1000,
      'lb/in³': KG_M3_PER_LB_PER_CUBIC_INCH,
      'lb/in3': KG_M3_PER_LB_PER_CUBIC_INCH,
    },
  },
  power: { bare: { in: 'hp', mm: 'kW' }, sizes: { kw: 1, w: 0.001, hp: KW_PER_HP } },
  time: { bare: { in: 'min', mm: 'min' }, sizes: { min: 1, s: 1 / 60, sec: 1 / 60, h: 60, hr: 60 } },
  speed: {
    bare: { in: 'ft/min', mm: 'm/min' },
    sizes: { 'm/min': 1, 'ft/min': METRES_PER_FOOT, sfm: METRES_PER_FOOT },
  },
  feed: {
    bare: { in: 'in/min', mm: 'mm/min' },
    sizes: { 'mm/min': 1, 'm/min': 1000, 'in/min': 25.4, ipm: 25.4 },
  },
  spindleSpeed: { bare: { in: 'rpm', mm: 'rpm' }, sizes: { rpm: 1, 'r/min': 1 } },
  money: { bare: { in: '', mm: '' }, sizes: {} },
  count: { bare: { in: '', mm: '' }, sizes: {} },
  ratio: { bare: { in: '', mm: '' }, sizes: {} },
  percent: { bare: { in: '%', mm: '%' }, sizes: { '%': 1 } },
  fraction: { bare: { in: '%', mm: '%' }, sizes: { '%': 0.01 } },
};

/** A unit as it is looked up: lower case, no spaces, dots or dashes, so that `lbf·in`, `lbf-in` and `lbf in` agree. */
export function getUnitKey(unit: string): string {
  return unit.toLowerCase().replace(/[ .·⋅*-]/gu, '');
}

function getScaled(sizes: Readonly<Record<string, number>>, factor: number): Record<string, number> {
  return Object.fromEntries(Object.entries(sizes).map(([unit, size]) => [unit, size * factor]));
}
