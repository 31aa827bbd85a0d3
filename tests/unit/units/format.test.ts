import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  echoBoth,
  formatAngle,
  formatDensity,
  formatForce,
  formatFraction,
  formatLength,
  formatMass,
  formatMoney,
  formatPercent,
  formatRatio,
  formatSpeed,
  formatStress,
  formatTime,
  formatTorque,
} from '../../../shared/units/format';
import { formatNumber, getDecimalsForThreeDigits } from '../../../shared/units/format-number';

describe('formatLength', () => {
  it.each([
    [38.1, '1.500'],
    [38, '1.496'],
    [9.525, '0.375'],
    [7.9375, '0.3125'],
    [0.396875, '0.0156'],
    [1.190625, '0.0469'],
    [0.127, '0.005'],
    [0.13, '0.0051'],
    [-222.25, '-8.750'],
    [0, '0.000'],
    [3657.6, '144.000'],
    [38.099999999999994, '1.500'],
  ])('%d mm in inches is %s', (mm, shown) => {
    expect(formatLength(mm, 'in')).toBe(shown);
  });

  it.each([
    [38.1, '38.10'],
    [9.525, '9.525'],
    [27.516666666666666, '27.52'],
    [0.0254, '0.025'],
    [1.005, '1.005'],
    [0, '0.00'],
    [6000, '6000.00'],
  ])('%d mm in mm is %s', (mm, shown) => {
    expect(formatLength(mm, 'mm')).toBe(shown);
  });

  it('rounds halves away from zero as a person does with the written figure', () => {
    expect(formatLength(1.005, 'mm', { decimals: 2 })).toBe('1.01');
    expect(formatLength(-1.005, 'mm', { decimals: 2 })).toBe('-1.01');
    expect(formatLength(1.5875, 'in', { decimals: 3 })).toBe('0.063');
  });

  it.each([
    [38.1, '1-1/2'],
    [9.525, '3/8'],
    [50.8, '2'],
    [-222.25, '-8-3/4'],
    [-9.525, '-3/8'],
    [0, '0'],
    [0.396875, '1/64'],
    [38, '1.496'],
    [38.2, '1.504'],
  ])('%d mm with shop fractions is %s', (mm, shown) => {
    expect(formatLength(mm, 'in', { fractions: 64 })).toBe(shown);
  });

  it('shows decimals where the fraction is finer than asked, and in mm', () => {
    expect(formatLength(0.79375, 'in', { fractions: 16 })).toBe('0.0313');
    expect(formatLength(38.1, 'mm', { fractions: 64 })).toBe('38.10');
    expect(formatFraction(0.79375, 16)).toBeUndefined();
    expect(formatFraction(0.79375, 32)).toBe('1/32');
  });

  it('trims zeros and adds the unit when asked', () => {
    expect(formatLength(38.1, 'in', { trim: true })).toBe('1.5');
    expect(formatLength(50.8, 'in', { trim: true })).toBe('2');
    expect(formatLength(25_400, 'in', { trim: true })).toBe('1000');
    expect(formatLength(38.1, 'in', { unit: true })).toBe('1.500 in');
    expect(formatLength(38.1, 'in', { fractions: 64, unit: true })).toBe('1-1/2 in');
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])('shows a dash for %d', (mm) => {
    expect(formatLength(mm, 'in', { fractions: 64, unit: true })).toBe('—');
  });

  it('is never "-0.000", and always plain digits with a point', () => {
    expect(formatLength(-0.0001, 'in')).toBe('0.0000');
    expect(formatLength(-0, 'in')).toBe('0.000');
    fc.assert(
      fc.property(
        fc.oneof(fc.double({ min: -1e6, max: 1e6, noNaN: true }), fc.double({ min: -1e-3, max: 1e-3, noNaN: true })),
        fc.constantFrom('in' as const, 'mm' as const),
        fc.option(fc.integer({ min: 0, max: 6 }), { nil: undefined }),
        (mm, units, decimals) => {
          const shown = formatLength(mm, units, decimals === undefined ? {} : { decimals });
          expect(shown).toMatch(/^-?\d+(\.\d+)?$/u);
          expect(shown).not.toMatch(/^-[0.]*$/u);
        },
      ),
    );
  });
});

describe('echoBoth', () => {
  it('shows both units', () => {
    expect(echoBoth(38.1)).toBe('1.500 in / 38.10 mm');
    expect(echoBoth(38)).toBe('1.496 in / 38.00 mm');
    expect(echoBoth(Number.NaN)).toBe('— / —');
  });
});

describe('formatNumber', () => {
  it.each([
    [1.005, 2, '1.01'],
    [0.1 + 0.2, 3, '0.300'],
    [1e-9, 3, '0.000'],
    [123_456_789, 0, '123456789'],
    [2.5, 0, '3'],
    [-2.5, 0, '-3'],
    [1e20, 1, '100000000000000000000.0'],
  ])('%d to %d decimals is %s', (value, decimals, shown) => {
    expect(formatNumber(value, { decimals })).toBe(shown);
  });

  it.each([
    [0, 0],
    [0.0123, 4],
    [0.28, 3],
    [1.5, 2],
    [9.999, 1],
    [42, 1],
    [99.99, 0],
    [4500, 0],
  ])('%d needs %d decimals for three digits', (value, decimals) => {
    expect(getDecimalsForThreeDigits(value)).toBe(decimals);
  });
});

describe('other quantities', () => {
  it.each([
    [formatForce(20_000, 'mm'), '20000 N'],
    [formatForce(20_000, 'in'), '4496 lbf'],
    [formatForce(0, 'in'), '0 lbf'],
    [formatTorque(5, 'mm'), '5.00 N·m'],
    [formatTorque(5, 'in'), '44.3 lbf·in'],
    [formatTorque(81.349, 'in'), '60.0 lbf·ft'],
    [formatMass(13.88, 'mm'), '13.9 kg'],
    [formatMass(13.88, 'in'), '30.6 lb'],
    [formatMass(0.15, 'mm'), '0.150 kg'],
    [formatStress(186.158, 'mm'), '186 MPa'],
    [formatStress(186.158, 'in'), '27000 psi'],
    [formatSpeed(137.16, 'in'), '450 ft/min'],
    [formatSpeed(137.16, 'mm'), '137 m/min'],
    [formatDensity(7841.7, 'in'), '0.2833 lb/in³'],
    [formatDensity(7841.7, 'mm'), '7842 kg/m³'],
    [formatAngle(Math.PI / 6), '30.0°'],
    [formatPercent(8.5), '8.5 %'],
    [formatPercent(100), '100 %'],
    [formatRatio(2.4), '× 2.4'],
    [formatRatio(2.292), '× 2.29'],
    [formatRatio(Number.NaN), '—'],
    [formatMoney(38), '38.00'],
    [formatMoney(38, '$'), '$38.00'],
    [formatMoney(-38, '$'), '-$38.00'],
    [formatMoney(38.005, 'EUR'), '38.01 EUR'],
    [formatMoney(5384.6, 'JPY'), '5385 JPY'],
    [formatMoney(5384.6, ' jpy '), '5385 jpy'],
    [formatMoney(12.3456, 'KWD'), '12.346 KWD'],
    [formatMoney(12.3456, 'club crowns'), '12.35 club crowns'],
    [formatTime(0.5), '30 s'],
    [formatTime(0.995), '1 min'],
    [formatTime(2.25), '2.3 min'],
    [formatTime(12.2), '12 min'],
    [formatTime(59.7), '1 h 0 min'],
    [formatTime(85), '1 h 25 min'],
    [formatTime(Number.NaN), '—'],
  ])('%s', (shown, expected) => {
    expect(shown).toBe(expected);
  });
});
