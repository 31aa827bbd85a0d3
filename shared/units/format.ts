import { getMoneyDecimals } from './currency';
import { mmToInches } from './exact';
import { formatNumber, getDecimalsForThreeDigits, NO_VALUE } from './format-number';
import type { LengthUnits } from './length-units';
import {
  KG_M3_PER_LB_PER_CUBIC_INCH,
  KG_PER_LB,
  KW_PER_HP,
  METRES_PER_FOOT,
  MM2_PER_SQUARE_INCH,
  MM3_PER_CUBIC_INCH,
  MM4_PER_INCH_TO_THE_FOURTH,
  MPA_PER_PSI,
  NEWTON_METRES_PER_LBF_IN,
  NEWTONS_PER_LBF,
} from './unit-sizes';

/** The largest denominator of a shop fraction. */
export type FractionDenominator = 2 | 4 | 8 | 16 | 32 | 64;

export interface LengthFormat {
  /** Digits after the point. By default 3 for inch and 2 for mm, one more where that says the value better. */
  readonly decimals?: number;
  /** Show inch values that are exact to this denominator as shop fractions (`1-1/2`); others stay decimal. */
  readonly fractions?: FractionDenominator;
  /** Drop zeros at the end of the decimals. */
  readonly trim?: boolean;
  /** Add the unit after the figure: `1.500 in`. */
  readonly unit?: boolean;
}

const SMALLEST_SHOP_FRACTION = 64;

/** Below this a length is a tolerance or a deflection and gets one more decimal. */
const SMALL_LENGTH: Readonly<Record<LengthUnits, number>> = { in: 0.01, mm: 0.1 };

const DEFAULT_DECIMALS: Readonly<Record<LengthUnits, number>> = { in: 3, mm: 2 };

/**
 * A length as text in the plan's units.
 *
 * Without `decimals`: inch 3, or 4 where the value is exact at 4, a whole number of 64ths, or under
 * 0.010 in; mm 2, or 3 where the value is exact at 3 or under 0.1 mm.
 *
 * @param mm length in mm, any sign
 * @returns the figure, without a unit unless asked; an em dash when `mm` is not finite; never "-0.000"
 * @example formatLength(38.1, 'in') // "1.500"
 * @example formatLength(7.9375, 'in') // "0.3125"
 * @example formatLength(38.1, 'in', { fractions: 64, unit: true }) // "1-1/2 in"
 */
export function formatLength(mm: number, units: LengthUnits, format: LengthFormat = {}): string {
  if (!Number.isFinite(mm)) {
    return NO_VALUE;
  }
  const figure = getFraction(mm, units, format) ?? getDecimal(mm, units, format);
  return format.unit ? `${figure} ${units}` : figure;
}

/**
 * A length in both units, as shown beside the field it was typed in.
 *
 * @param mm length in mm
 * @example echoBoth(38.1) // "1.500 in / 38.10 mm"
 */
export function echoBoth(mm: number): string {
  return `${formatLength(mm, 'in', { unit: true })} / ${formatLength(mm, 'mm', { unit: true })}`;
}

/**
 * A length as a shop fraction of an inch.
 *
 * @param mm length in mm
 * @param denominator the finest division allowed
 * @returns `1-1/2`, `3/8`, `-8-3/4` or `2`; undefined when the length is not a whole number of divisions (to 1 nm)
 */
export function formatFraction(mm: number, denominator: FractionDenominator): string | undefined {
  const divisions = Math.round(mmToInches(Math.abs(mm)) * denominator);
  const isExact = Math.abs(divisions * (25.4 / denominator) - Math.abs(mm)) <= 1e-6;
  if (!isExact) {
    return undefined;
  }
  const whole = Math.floor(divisions / denominator);
  const fraction = reduceToText(divisions % denominator, denominator);
  const parts = [whole > 0 || fraction === '' ? String(whole) : '', fraction];
  const shown = parts.filter((part) => part !== '').join('-');
  return mm < 0 && divisions > 0 ? `-${shown}` : shown;
}

/** Force: N, or lbf in an inch plan. */
export function formatForce(forceN: number, units: LengthUnits): string {
  return units === 'mm' ? withUnit(forceN, 'N') : withUnit(forceN / NEWTONS_PER_LBF, 'lbf');
}

/** Torque or moment given in N·m: N·m, or in an inch plan lbf·in, from 10 lbf·ft up lbf·ft. */
export function formatTorque(torqueNm: number, units: LengthUnits): string {
  if (units === 'mm') {
    return withUnit(torqueNm, 'N·m');
  }
  const torqueLbfIn = torqueNm / NEWTON_METRES_PER_LBF_IN;
  return Math.abs(torqueLbfIn) < 120 ? withUnit(torqueLbfIn, 'lbf·in') : withUnit(torqueLbfIn / 12, 'lbf·ft');
}

/** Mass: kg, or lb in an inch plan. */
export function formatMass(massKg: number, units: LengthUnits): string {
  return units === 'mm' ? withUnit(massKg, 'kg') : withUnit(massKg / KG_PER_LB, 'lb');
}

/** Stress or pressure: MPa (N/mm²), or psi in an inch plan. */
export function formatStress(stressMPa: number, units: LengthUnits): string {
  return units === 'mm' ? withUnit(stressMPa, 'MPa') : withUnit(stressMPa / MPA_PER_PSI, 'psi');
}

/** Power: kW, or hp in an inch plan. */
export function formatPower(powerKw: number, units: LengthUnits): string {
  return units === 'mm' ? withUnit(powerKw, 'kW') : withUnit(powerKw / KW_PER_HP, 'hp');
}

/** Cutting speed given in m/min: m/min, or ft/min in an inch plan. */
export function formatSpeed(speedMPerMin: number, units: LengthUnits): string {
  return units === 'mm' ? withUnit(speedMPerMin, 'm/min') : withUnit(speedMPerMin / METRES_PER_FOOT, 'ft/min');
}

/** Feed rate given in mm/min: mm/min, or in/min in an inch plan. */
export function formatFeed(feedMmPerMin: number, units: LengthUnits): string {
  return units === 'mm' ? withUnit(feedMmPerMin, 'mm/min') : withUnit(mmToInches(feedMmPerMin), 'in/min');
}

/** Spindle speed, whole revolutions per minute. */
export function formatSpindleSpeed(spindleSpeedRpm: number): string {
  return withUnit(spindleSpeedRpm, 'rpm', 0);
}

/** Density given in kg/m³: kg/m³, or lb/in³ (four decimals) in an inch plan. */
export function formatDensity(densityKgM3: number, units: LengthUnits): string {
  return units === 'mm'
    ? withUnit(densityKgM3, 'kg/m³')
    : withUnit(densityKgM3 / KG_M3_PER_LB_PER_CUBIC_INCH, 'lb/in³', 4);
}

/** Area given in mm²: mm², or in² in an inch plan. */
export function formatArea(areaMm2: number, units: LengthUnits): string {
  return units === 'mm' ? withUnit(areaMm2, 'mm²') : withUnit(areaMm2 / MM2_PER_SQUARE_INCH, 'in²', 3);
}

/** Volume given in mm³: cm³, or in³ in an inch plan. */
export function formatVolume(volumeMm3: number, units: LengthUnits): string {
  return units === 'mm' ? withUnit(volumeMm3 / 1000, 'cm³') : withUnit(volumeMm3 / MM3_PER_CUBIC_INCH, 'in³');
}

/** Section modulus given in mm³, or in³ in an inch plan. */
export function formatSectionModulus(modulusMm3: number, units: LengthUnits): string {
  return units === 'mm' ? withUnit(modulusMm3, 'mm³') : withFullDigits(modulusMm3 / MM3_PER_CUBIC_INCH, 'in³');
}

/** Second moment of area given in mm⁴, or in⁴ in an inch plan. */
export function formatSecondMoment(momentMm4: number, units: LengthUnits): string {
  return units === 'mm' ? withUnit(momentMm4, 'mm⁴') : withFullDigits(momentMm4 / MM4_PER_INCH_TO_THE_FOURTH, 'in⁴');
}

/** Area cut in a time, given in mm²/min: mm²/min, or in²/min in an inch plan. */
export function formatAreaRate(rateMm2PerMin: number, units: LengthUnits): string {
  return units === 'mm' ? withUnit(rateMm2PerMin, 'mm²/min') : withUnit(rateMm2PerMin / MM2_PER_SQUARE_INCH, 'in²/min');
}

/** Time given in minutes: `45 s`, `12 min`, `1 h 25 min`. */
export function formatTime(timeMin: number): string {
  if (!Number.isFinite(timeMin)) {
    return NO_VALUE;
  }
  const sign = timeMin < 0 ? '-' : '';
  const size = Math.abs(timeMin);
  if (Math.round(size * 60) < 60) {
    return `${Math.round(size * 60) > 0 ? sign : ''}${Math.round(size * 60)} s`;
  }
  if (size < 9.95) {
    return `${sign}${formatNumber(size, { decimals: 1, trim: true })} min`;
  }
  const minutes = Math.round(size);
  const hours = Math.floor(minutes / 60);
  return hours === 0 ? `${sign}${minutes} min` : `${sign}${hours} h ${minutes % 60} min`;
}

/** Angle given in radians: degrees with one decimal. */
export function formatAngle(angleRad: number): string {
  return joined(formatNumber((angleRad * 180) / Math.PI, { decimals: 1 }), '°', '');
}

/** A percentage that is already in percent: 8.5 gives `8.5 %`. */
export function formatPercent(percent: number): string {
  return joined(formatNumber(percent, { decimals: 1, trim: true }), '%');
}

/** A factor: 2.4 gives `× 2.4`, at most two decimals. */
export function formatRatio(ratio: number): string {
  const figure = formatNumber(ratio, { decimals: 2, trim: true });
  return figure === NO_VALUE ? figure : `× ${figure}`;
}

/**
 * An amount of money with the currency's decimals and the plan's own label of it: a sign stands before the
 * figure (`$38.00`), a word or code after it (`38.00 EUR`).
 */
export function formatMoney(amount: number, currency = '', decimals = getMoneyDecimals(currency)): string {
  const figure = formatNumber(amount, { decimals });
  const label = currency.trim();
  if (label === '' || figure === NO_VALUE) {
    return figure;
  }
  const isSign = /^\p{Sc}$/u.test(label);
  if (!isSign) {
    return `${figure} ${label}`;
  }
  return figure.startsWith('-') ? `-${label}${figure.slice(1)}` : `${label}${figure}`;
}

function withUnit(value: number, unit: string, decimals = getDecimalsForThreeDigits(value)): string {
  return joined(formatNumber(value, { decimals }), unit);
}

/** Three digits however small the value. */
function withFullDigits(value: number, unit: string): string {
  return withUnit(value, unit, getDecimalsForThreeDigits(value, 12));
}

function joined(figure: string, unit: string, gap = ' '): string {
  return figure === NO_VALUE ? figure : `${figure}${gap}${unit}`;
}

function getFraction(mm: number, units: LengthUnits, format: LengthFormat): string | undefined {
  return units === 'in' && format.fractions !== undefined ? formatFraction(mm, format.fractions) : undefined;
}

function getDecimal(mm: number, units: LengthUnits, format: LengthFormat): string {
  const value = units === 'in' ? mmToInches(mm) : mm;
  const decimals = format.decimals ?? getDefaultDecimals(value, units);
  return formatNumber(value, { decimals, trim: format.trim ?? false });
}

function getDefaultDecimals(value: number, units: LengthUnits): number {
  const few = DEFAULT_DECIMALS[units];
  const isSmall = Math.abs(value) < SMALL_LENGTH[units];
  if (isWhole(value * 10 ** few)) {
    return few;
  }
  const is64th = units === 'in' && isWhole(value * SMALLEST_SHOP_FRACTION);
  return isSmall || is64th || isWhole(value * 10 ** (few + 1)) ? few + 1 : few;
}

function isWhole(value: number): boolean {
  return Math.abs(value - Math.round(value)) < 1e-6;
}

function reduceToText(numerator: number, denominator: number): string {
  if (numerator === 0) {
    return '';
  }
  return numerator % 2 === 0 ? reduceToText(numerator / 2, denominator / 2) : `${numerator}/${denominator}`;
}
