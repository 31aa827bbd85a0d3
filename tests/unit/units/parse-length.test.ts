import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mmToInches } from '../../../shared/units/exact';
import { formatLength } from '../../../shared/units/format';
import { type LengthOptions, LONGEST_LENGTH, parseLength } from '../../../shared/units/parse-length';

function readMm(text: string, units: 'in' | 'mm' = 'in', options: LengthOptions = {}): number {
  const parsed = parseLength(text, units, options);
  if (!parsed.ok) {
    throw new Error(parsed.refusal);
  }
  return parsed.mm;
}

describe('an inch plan reads the forms machinists type, exactly', () => {
  it.each([
    ['1-1/2', 38.1],
    ['1 1/2', 38.1],
    ['1.5"', 38.1],
    ['1½', 38.1],
    ['38mm', 38],
    ['38 mm', 38],
    ['3/8', 9.525],
    ['.375', 9.525],
    [`1'6"`, 457.2],
    ['12.7', 322.58],
    ['1.', 25.4],
    ['0', 0],
    ['+5', 127],
    ['3/2', 38.1],
    ['1/64', 0.396875],
    ['0.3', 7.62],
    ['0.7', 17.78],
    ['1.1', 27.94],
  ])('%s is %d mm', (text, mm) => {
    expect(parseLength(text, 'in')).toEqual({ ok: true, mm });
  });

  it.each([
    [`1' 6-1/2"`, 469.9],
    [`1' 6 1/2"`, 469.9],
    [`1'-6"`, 457.2],
    [`1' - 6"`, 457.2],
    [`1'6`, 457.2],
    [`1'6''`, 457.2],
    [`1'½"`, 317.5],
    ['1 ft 6 in', 457.2],
    ['1ft6in', 457.2],
    ['1 ft. 6 in.', 457.2],
    ['1 foot 6 inches', 457.2],
    [`1.5'`, 457.2],
    [`1/2'`, 152.4],
    [`0'6"`, 152.4],
    ['6 feet', 1828.8],
  ])('feet: %s is %d mm', (text, mm) => {
    expect(parseLength(text, 'in')).toEqual({ ok: true, mm });
  });

  it.each([
    ['50 thou', 1.27],
    ['50thou', 1.27],
    ['0.05in', 1.27],
    ['1.5 in.', 38.1],
    ['1-1/2 inches', 38.1],
    ['2 cm', 20],
    ['1.2 m', 1200],
    ['38 MM', 38],
    ['38 millimeters', 38],
    ['38 Millimetres', 38],
    ['5 µm', 0.005],
    ['5 μm', 0.005],
    ['3/8 mm', 0.375],
  ])('units: %s is %d mm in either plan', (text, mm) => {
    expect(parseLength(text, 'in')).toEqual({ ok: true, mm });
    expect(parseLength(text, 'mm')).toEqual({ ok: true, mm });
  });

  it.each([
    ['1\u00a01/2', 38.1, 'a no-break space'],
    ['1\u202f½', 38.1, 'a narrow no-break space'],
    ['\t 1-1/2 \n', 38.1, 'white space around'],
    ['1\u20111/2', 38.1, 'a no-break hyphen'],
    ['1–1/2', 38.1, 'an en dash'],
    ['1-½', 38.1, 'a dash before a fraction character'],
    ['1 ½', 38.1, 'a space before a fraction character'],
    ['1⁄2', 12.7, 'a fraction slash'],
    ['1∕2', 12.7, 'a division slash'],
    ['3 / 8', 9.525, 'spaces around the slash'],
    ['1¹⁄₂', 38.1, 'raised and lowered digits'],
    ['1¹⁵⁄₁₆', 49.2125, 'raised and lowered digits of two places'],
    ['1½″', 38.1, 'a double prime'],
    ['1½”', 38.1, 'a curly quote'],
    ['1′ 6½″', 469.9, 'primes'],
    ['1’6”', 457.2, 'curly quotes for feet and inches'],
    ['\ufeff1.5\u200b', 38.1, 'characters of no width'],
  ])('pasted text: %j is %d mm (%s)', (text, mm) => {
    expect(parseLength(text, 'in')).toEqual({ ok: true, mm });
  });

  it.each([
    ['½', 0.5],
    ['¼', 0.25],
    ['¾', 0.75],
    ['⅛', 0.125],
    ['⅜', 0.375],
    ['⅝', 0.625],
    ['⅞', 0.875],
  ])('%s is %d in', (text, inches) => {
    expect(parseLength(text, 'in')).toEqual({ ok: true, mm: (inches * 254) / 10 });
    expect(readMm(`2${text}`)).toBe(((2 + inches) * 254) / 10);
  });

  it('rounds 38 mm only when it is shown: 1.496063 in', () => {
    expect(formatLength(readMm('38mm'), 'in', { decimals: 6 })).toBe('1.496063');
  });

  it.each(['-8 3/4', '-8-3/4', '−8¾', '- 8 3/4', '-8.75', '-8.75"', '–8 3/4'])(
    '%s in an offset field is -8.750 in',
    (text) => {
      expect(parseLength(text, 'in', { allowNegative: true })).toEqual({ ok: true, mm: -222.25 });
    },
  );

  it('takes the sign before feet for the whole length', () => {
    expect(readMm(`-1'6"`, 'in', { allowNegative: true })).toBe(-457.2);
  });
});

describe('a bare number is in the units of the plan', () => {
  it.each([
    ['38', 38],
    ['38.1', 38.1],
    ['.5', 0.5],
  ])('%s in a mm plan is %d mm', (text, mm) => {
    expect(parseLength(text, 'mm')).toEqual({ ok: true, mm });
  });

  it.each([
    ['1.5"', 38.1],
    ['1-1/2 in', 38.1],
    ['3/8"', 9.525],
  ])('%s in a mm plan is still inches', (text, mm) => {
    expect(parseLength(text, 'mm')).toEqual({ ok: true, mm });
  });

  it('warns when a bare fraction is typed in a mm plan', () => {
    expect(parseLength('3/8', 'mm')).toEqual({
      ok: true,
      mm: 0.375,
      warning: '3/8 is taken as 0.375 mm: write 3/8 in if inches are meant.',
    });
  });
});

describe('doubtful and wrong forms are refused with one sentence', () => {
  it.each([
    ['1,5', '"1,5" could be 1.5 or 15, so write it with a point or without the comma.'],
    ['4,0', '"4,0" could be 4.0 or 40, so write it with a point or without the comma.'],
    ['1,5 mm', '"1,5 mm" could be 1.5 mm or 15 mm, so write it with a point or without the comma.'],
    ['1,234.5', '"1,234.5" has a comma, so write it with a point for decimals and nothing between thousands.'],
    ['3/8/2', '"3/8/2" has more than one slash, so write one fraction such as 3/16.'],
    ['1/0', '"1/0" divides by zero.'],
    ['1-1/0', '"1-1/0" divides by zero.'],
    ['1/2-', '"1/2-" cannot be read as one number, so write it as 1.5, 3/8 or 1-1/2.'],
    ['', 'Type a length, such as 1-1/2 or 38 mm.'],
    [' \u00a0 ', 'Type a length, such as 1-1/2 or 38 mm.'],
    ['NaN', '"NaN" is not a length, so write one such as 1-1/2 or 38 mm.'],
    ['Infinity', '"Infinity" is not a length, so write one such as 1-1/2 or 38 mm.'],
    ['-', '"-" is not a length, so write one such as 1-1/2 or 38 mm.'],
    ['mm', '"mm" is not a length, so write one such as 1-1/2 or 38 mm.'],
    ['1e3', '"1e3" is written with a power of ten, so write the number out in full.'],
    ['1E-3 in', '"1E-3 in" is written with a power of ten, so write the number out in full.'],
    ['1 - 1/2', '"1 - 1/2" could be a sum, so write a whole number and a fraction as 1-1/2 or 1 1/2.'],
    ['1- 1/2', '"1- 1/2" could be a sum, so write a whole number and a fraction as 1-1/2 or 1 1/2.'],
    ['1 -1/2', '"1 -1/2" could be a sum, so write a whole number and a fraction as 1-1/2 or 1 1/2.'],
    ['1.5-1/2', '"1.5-1/2" mixes a decimal with a fraction, so write one or the other.'],
    ['1.5/2', '"1.5/2" mixes a decimal with a fraction, so write one or the other.'],
    ['1 5', '"1 5" is two numbers, so write one, or a whole number and a fraction.'],
    ['1 000', '"1 000" is two numbers, so write one, or a whole number and a fraction.'],
    ['1.2.3', '"1.2.3" has more than one point, so write one decimal number.'],
    ['1 5/4', '"1 5/4" has a fraction of one or more after a whole number, so write it another way.'],
    ['2 mil', '"2 mil" could be thousandths of an inch or millimetres, so write thou or mm.'],
    ['3 furlong', '"furlong" is not a unit of length that is known here, so use in, ft, thou, mm, cm or m.'],
    [`1.5' 6"`, '"1.5" feet is not whole, so write whole feet before the inches.'],
    ['999999', 'This is longer than 3937 in, the longest length that is taken.'],
    ['0.00000001', 'This is less than a millionth of a millimetre, so write 0 if nothing is meant.'],
    ['9'.repeat(61), 'This is too long to be a length.'],
  ])('%j', (text, refusal) => {
    expect(parseLength(text, 'in')).toEqual({ ok: false, refusal });
  });

  it.each([
    '½2',
    '2½3',
    '½½',
    '1½/2',
    '1-5',
    '1/2/',
    '/2',
    '1/',
    '.',
    '--5',
    '1 1/2 1/4',
    '1--1/2',
    '1+1',
    '2*3',
    '(1)',
    '0x10',
    '１２',
    '١',
    '5 mm 3',
    '1 in 3/8',
    `6"1'`,
    `1' -6"`,
    `1'6'`,
    `1'6mm`,
    '1m 20cm',
    'abc 5',
    '"',
    "'",
    'constructor',
    '5 constructor',
    '5 __proto__',
    '1.5""',
    '1.5 in in',
    '$5',
    '5 %',
    '1 1/2-',
    '1⅟2',
    '²',
    '1²',
  ])('%j is refused', (text) => {
    const parsed = parseLength(text, 'in', { allowNegative: true });
    expect(parsed.ok).toBe(false);
    expect(parsed).toHaveProperty('refusal', expect.stringMatching(/^[^\n]+\.$/u));
  });

  it('never reads a dash as a minus: 1-1/2 is not .5, 3/4 is not 1.333', () => {
    expect(mmToInches(readMm('1-1/2'))).toBe(1.5);
    expect(mmToInches(readMm('3/4'))).toBe(0.75);
  });

  it('names the field', () => {
    expect(parseLength('1,5', 'in', { field: 'Bar thickness' })).toEqual({
      ok: false,
      refusal: 'Bar thickness: "1,5" could be 1.5 or 15, so write it with a point or without the comma.',
    });
  });

  it('refuses a negative length where none makes sense, and zero where the field says so', () => {
    expect(parseLength('-8 3/4', 'in')).toEqual({ ok: false, refusal: 'This length cannot be less than zero.' });
    expect(parseLength('0', 'in', { allowZero: false })).toEqual({
      ok: false,
      refusal: 'This length must be more than zero.',
    });
    expect(parseLength('-0', 'in')).toEqual({ ok: true, mm: 0 });
  });

  it('never throws and never gives a length that is not finite, whatever is typed', () => {
    const character = fc.constantFrom(...Array.from('0123456789./-+ \'"½¾,efimtnhou\u00a0¹⁄₂'));
    const typed = fc.oneof(fc.string({ unit: character, maxLength: 14 }), fc.string({ unit: 'grapheme' }));
    fc.assert(
      fc.property(typed, fc.constantFrom('in' as const, 'mm' as const), (text, units) => {
        const parsed = parseLength(text, units, { allowNegative: true });
        return parsed.ok
          ? Math.abs(parsed.mm) <= LONGEST_LENGTH && !Object.is(parsed.mm, -0)
          : parsed.refusal.endsWith('.');
      }),
      { numRuns: 3000 },
    );
  });
});

describe('likely slips are kept with a warning', () => {
  const limit = { name: 'vise opening', max: 152.4 };

  it('1-3/36 is 1.083333 in, not a usual fraction', () => {
    const parsed = parseLength('1-3/36', 'in');
    expect(parsed).toEqual({
      ok: true,
      mm: expect.closeTo(27.516666667, 9),
      warning: '3/36 is not a usual fraction: taken as 1.083333 in.',
    });
    expect(formatLength(readMm('1-3/36'), 'in', { decimals: 6 })).toBe('1.083333');
  });

  it.each(['1/2', '3/4', '5/8', '7/16', '9/32', '33/64'])('%s is a usual fraction', (text) => {
    expect(parseLength(text, 'in')).not.toHaveProperty('warning');
  });

  it.each(['1/3', '⅓', '3/10', '5/7', '1/128', `1' 6-3/36"`])('%s is not a usual fraction', (text) => {
    expect(parseLength(text, 'in')).toHaveProperty('warning', expect.stringContaining('not a usual fraction'));
  });

  it('12.7 as bar thickness with a vise opening of 6 in: asks for 12.7 mm', () => {
    expect(parseLength('12.7', 'in', { field: 'Bar thickness', limit })).toEqual({
      ok: true,
      mm: 322.58,
      warning: 'Bar thickness: 12.7 in exceeds the vise opening, 6.000 in; did you mean 12.7 mm = 0.500 in?',
    });
  });

  it('does not ask where the unit was typed or the other unit does not fit either', () => {
    expect(parseLength('12.7 in', 'in', { limit })).toHaveProperty(
      'warning',
      '12.7 in exceeds the vise opening, 6.000 in.',
    );
    expect(parseLength('500', 'in', { limit })).toHaveProperty('warning', '500 in exceeds the vise opening, 6.000 in.');
    expect(parseLength('200', 'mm', { limit })).toHaveProperty(
      'warning',
      '200 mm exceeds the vise opening, 152.40 mm.',
    );
  });

  it('takes the limit itself, even where it was computed with a rounding error', () => {
    expect(parseLength('6', 'in', { limit })).toEqual({ ok: true, mm: 152.4 });
    expect(parseLength('6', 'in', { limit: { ...limit, max: 152.39999999999998 } })).toEqual({ ok: true, mm: 152.4 });
  });

  it('asks for inches when a mm field gets less than usual', () => {
    expect(parseLength('0.5', 'mm', { usual: { min: 3, max: 100 } })).toEqual({
      ok: true,
      mm: 0.5,
      warning: '0.5 mm is less than is usual here, 3.00 mm; did you mean 0.5 in = 12.70 mm?',
    });
  });

  it('asks for mm when an inch field gets more than usual', () => {
    expect(parseLength('20', 'in', { usual: { max: 101.6 } })).toHaveProperty(
      'warning',
      '20 in is more than is usual here, 4.000 in; did you mean 20 mm = 0.787 in?',
    );
  });

  it('counts a foot or more of inches after the feet, and says so', () => {
    expect(parseLength(`1'13"`, 'in')).toEqual({
      ok: true,
      mm: 635,
      warning: '13 in after the feet is a foot or more: taken as 25 in in all.',
    });
  });

  it('leaves the options as they were', () => {
    const options = Object.freeze({
      field: 'Bar thickness',
      usual: Object.freeze({ min: 3, max: 100 }),
      limit: Object.freeze({ ...limit }),
    });
    expect(parseLength('12.7', 'in', options).ok).toBe(true);
    expect(options).toEqual({ field: 'Bar thickness', usual: { min: 3, max: 100 }, limit });
  });
});

describe('what is shown reads back as the same length', () => {
  const units = fc.constantFrom('in' as const, 'mm' as const);

  it('decimals come back within half of the last digit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -50_000, max: 50_000, noNaN: true }),
        units,
        fc.integer({ min: 0, max: 6 }),
        fc.boolean(),
        (mm, unit, decimals, isPlain) => {
          const text = formatLength(mm, unit, { decimals, trim: isPlain, unit: isPlain });
          const half = (0.5 / 10 ** decimals) * (unit === 'in' ? 25.4 : 1);
          expect(Math.abs(readMm(text, unit, { allowNegative: true }) - mm)).toBeLessThanOrEqual(half + 1e-6);
        },
      ),
    );
  });

  it('every 64th of an inch comes back to the last bit, as fraction and as decimal', () => {
    fc.assert(
      fc.property(fc.integer({ min: -64 * 300, max: 64 * 300 }), (divisions) => {
        const mm = (divisions * 396_875) / 1_000_000;
        const options = { allowNegative: true };
        expect(readMm(formatLength(mm, 'in', { fractions: 64 }), 'in', options)).toBe(mm + 0);
        expect(readMm(formatLength(mm, 'in', { decimals: 6 }), 'in', options)).toBe(mm + 0);
      }),
    );
  });

  it('whole thousandths of an inch and hundredths of a mm come back to the last bit', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 300_000 }), (steps) => {
        const fromThou = (steps * 254) / 10_000;
        expect(readMm(formatLength(fromThou, 'in'))).toBe(fromThou);
        expect(readMm(formatLength(steps / 100, 'mm'), 'mm')).toBe(steps / 100);
      }),
    );
  });

  it('all spellings of one mixed fraction agree', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 240 }),
        fc
          .constantFrom(2, 4, 8, 16, 32, 64)
          .chain((below) => fc.tuple(fc.integer({ min: 1, max: below - 1 }), fc.constant(below))),
        (whole, [above, below]) => {
          const expected = ((whole * below + above) * 25_400_000) / below / 1_000_000;
          for (const text of [
            `${whole}-${above}/${below}`,
            `${whole} ${above}/${below}"`,
            `${whole * below + above}/${below}`,
            `${whole}\u00a0${above}⁄${below} in`,
            `${Math.floor(whole / 12)}' ${whole % 12}-${above}/${below}`,
          ]) {
            expect(readMm(text), text).toBe(expected);
          }
        },
      ),
    );
  });
});
