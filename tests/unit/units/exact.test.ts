import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromNanometres, inchesToMm, mmToInches, NANOMETRES_PER_INCH, toNanometres } from '../../../shared/units/exact';

describe('toNanometres', () => {
  it('makes an inch exactly 25 400 000 nm', () => {
    expect(toNanometres(25.4)).toBe(25_400_000);
    expect(NANOMETRES_PER_INCH).toBe(25_400_000);
  });

  it.each([
    [38.1, 38_100_000],
    [9.525, 9_525_000],
    [0.396875, 396_875],
    [6000, 6_000_000_000],
    [-222.25, -222_250_000],
    [0.1 + 0.2, 300_000],
    [0.000_000_4, 0],
    [0.000_000_5, 1],
    [-0.000_000_5, -1],
  ])('%d mm is %d nm', (mm, nanometres) => {
    expect(toNanometres(mm)).toBe(nanometres);
  });

  it('gives no negative zero', () => {
    expect(Object.is(toNanometres(-0), 0)).toBe(true);
    expect(Object.is(toNanometres(-1e-9), 0)).toBe(true);
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY, -Number.POSITIVE_INFINITY, 1e10, -1e10])('refuses %d', (mm) => {
    expect(() => toNanometres(mm)).toThrow(RangeError);
  });

  it('comes back from mm as the same integer, for any length up to 1000 km', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e15, max: 1e15 }), (nanometres) => {
        expect(toNanometres(fromNanometres(nanometres))).toBe(nanometres);
      }),
    );
  });

  it('fits twelve blanks of 11.940 in with eleven kerfs of .0625 in into 144 in with .0325 in over', () => {
    const used = 12 * toNanometres(inchesToMm(11.94)) + 11 * toNanometres(inchesToMm(0.0625));
    expect(toNanometres(inchesToMm(144)) - used).toBe(toNanometres(inchesToMm(0.0325)));
  });
});

describe('fromNanometres', () => {
  it.each([0.5, Number.NaN, Number.POSITIVE_INFINITY, 2 ** 53])('refuses %d', (nanometres) => {
    expect(() => fromNanometres(nanometres)).toThrow(RangeError);
  });
});

describe('inchesToMm and mmToInches', () => {
  it.each([
    [1.5, 38.1],
    [0.375, 9.525],
    [0.3, 7.62],
    [0.7, 17.78],
    [11.94, 303.276],
    [1 / 64, 0.396875],
    [-8.75, -222.25],
    [0, 0],
  ])('%d in is %d mm and back', (inches, mm) => {
    expect(inchesToMm(inches)).toBe(mm);
    expect(mmToInches(mm)).toBe(inches);
  });

  it('is free of noise for every figure of up to five decimals', () => {
    fc.assert(
      fc.property(fc.integer({ min: -50_000_000, max: 50_000_000 }), (steps) => {
        const inches = steps / 100_000;
        expect(inchesToMm(inches)).toBe((steps * 254) / 1_000_000 + 0);
        expect(mmToInches(inchesToMm(inches))).toBe(inches + 0);
      }),
    );
  });
});
