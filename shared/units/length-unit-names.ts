import Fraction from 'fraction.js';

export interface LengthUnitName {
  /** How the unit is shown in a message. */
  readonly shown: string;
  /** Exact size in mm. */
  readonly mm: Fraction;
  /** Whether fractions of it are read off an inch rule, so that odd denominators deserve a warning. */
  readonly isInchRule: boolean;
}

/** Exact: 1 in = 25.4 mm by definition (international yard and pound agreement, 1959). */
export const MM_PER_INCH = new Fraction(127, 5);

export const INCH: LengthUnitName = { shown: 'in', mm: MM_PER_INCH, isInchRule: true };

const FOOT: LengthUnitName = { shown: 'ft', mm: MM_PER_INCH.mul(12), isInchRule: true };
const THOU: LengthUnitName = { shown: 'thou', mm: MM_PER_INCH.div(1000), isInchRule: false };
const MILLIMETRE: LengthUnitName = { shown: 'mm', mm: new Fraction(1), isInchRule: false };
const CENTIMETRE: LengthUnitName = { shown: 'cm', mm: new Fraction(10), isInchRule: false };
const METRE: LengthUnitName = { shown: 'm', mm: new Fraction(1000), isInchRule: false };
const MICROMETRE: LengthUnitName = { shown: 'µm', mm: new Fraction(1, 1000), isInchRule: false };

/** What may be typed after a figure, in lower case, without a full stop. */
export const LENGTH_UNIT_NAMES: ReadonlyMap<string, LengthUnitName> = new Map([
  ...named(INCH, '"', 'in', 'ins', 'inch', 'inches'),
  ...named(FOOT, "'", 'ft', 'foot', 'feet'),
  ...named(THOU, 'thou', 'thous', 'thousandth', 'thousandths'),
  ...named(MILLIMETRE, 'mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'),
  ...named(CENTIMETRE, 'cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'),
  ...named(METRE, 'm', 'metre', 'metres', 'meter', 'meters'),
  ...named(MICROMETRE, 'um', 'micron', 'microns', 'micrometre', 'micrometres', 'micrometer', 'micrometers'),
]);

function named(unit: LengthUnitName, ...names: string[]): [string, LengthUnitName][] {
  return names.map((name) => [name, unit]);
}
