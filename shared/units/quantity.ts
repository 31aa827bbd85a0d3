import {
  formatAngle,
  formatArea,
  formatAreaRate,
  formatDensity,
  formatFeed,
  formatForce,
  formatLength,
  formatMass,
  formatMoney,
  formatPercent,
  formatPower,
  formatRatio,
  formatSecondMoment,
  formatSectionModulus,
  formatSpeed,
  formatSpindleSpeed,
  formatStress,
  formatTime,
  formatTorque,
  formatVolume,
} from './format';
import { formatNumber } from './format-number';
import type { LengthUnits } from './length-units';

/** What a number in a plan or a finding measures; the kind alone says which unit it is stored in. */
export type QuantityKind =
  | 'length'
  | 'area'
  | 'volume'
  | 'sectionModulus'
  | 'secondMoment'
  | 'areaRate'
  | 'angle'
  | 'force'
  | 'torque'
  | 'moment'
  | 'stress'
  | 'mass'
  | 'density'
  | 'power'
  | 'time'
  | 'speed'
  | 'feed'
  | 'spindleSpeed'
  | 'money'
  | 'count'
  | 'ratio'
  | 'percent'
  | 'fraction'
  | 'plainText';

export interface QuantityFormat {
  /** The plan's currency label, for money. */
  readonly currency?: string;
}

interface Quantity {
  /** The unit a value of this kind is stored in. */
  readonly storedUnit: string;
  readonly format: (value: number, units: LengthUnits, format: QuantityFormat) => string;
}

/** Every kind with its stored unit and how it is shown. */
export const QUANTITIES: Readonly<Record<QuantityKind, Quantity>> = {
  length: { storedUnit: 'mm', format: (value, units) => formatLength(value, units, { unit: true }) },
  area: { storedUnit: 'mm²', format: formatArea },
  volume: { storedUnit: 'mm³', format: formatVolume },
  sectionModulus: { storedUnit: 'mm³', format: formatSectionModulus },
  secondMoment: { storedUnit: 'mm⁴', format: formatSecondMoment },
  areaRate: { storedUnit: 'mm²/min', format: formatAreaRate },
  angle: { storedUnit: 'rad', format: formatAngle },
  force: { storedUnit: 'N', format: formatForce },
  torque: { storedUnit: 'N·m', format: formatTorque },
  moment: { storedUnit: 'N·mm', format: (value, units) => formatTorque(value / 1000, units) },
  stress: { storedUnit: 'MPa', format: formatStress },
  mass: { storedUnit: 'kg', format: formatMass },
  density: { storedUnit: 'kg/m³', format: formatDensity },
  power: { storedUnit: 'kW', format: formatPower },
  time: { storedUnit: 'min', format: formatTime },
  speed: { storedUnit: 'm/min', format: formatSpeed },
  feed: { storedUnit: 'mm/min', format: formatFeed },
  spindleSpeed: { storedUnit: 'rpm', format: formatSpindleSpeed },
  money: { storedUnit: 'currency', format: (value, _units, format) => formatMoney(value, format.currency) },
  count: { storedUnit: '', format: (value) => formatNumber(value, { decimals: 0 }) },
  ratio: { storedUnit: '', format: formatRatio },
  percent: { storedUnit: '%', format: formatPercent },
  fraction: { storedUnit: '', format: (value) => formatPercent(value * 100) },
  plainText: { storedUnit: '', format: (value) => String(value) },
};

/**
 * A value of any kind as text in the plan's units, unit included.
 *
 * @param value in the kind's stored unit ({@link QUANTITIES}); text is returned as it is
 * @param kind what it measures; `percent` is already in percent, `fraction` is 0 to 1 shown as a percentage
 * @param units the plan's units
 * @returns the text; an em dash for a number that is not finite
 * @example formatQuantity(38.1, 'length', 'in') // "1.500 in"
 * @example formatQuantity(0.87, 'fraction', 'mm') // "87 %"
 */
export function formatQuantity(
  value: number | string,
  kind: QuantityKind,
  units: LengthUnits,
  format: QuantityFormat = {},
): string {
  return typeof value === 'string' ? value : QUANTITIES[kind].format(value, units, format);
}
