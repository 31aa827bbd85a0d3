import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseQuantity } from '../../../shared/units/parse-quantity';
import { getUnitKey, TYPED_UNITS, type TypedKind } from '../../../shared/units/quantity-units';

const KINDS = Object.keys(TYPED_UNITS) as TypedKind[];

describe('parseQuantity', () => {
  it.each<[string, TypedKind, 'in' | 'mm', number]>([
    ['1000', 'force', 'in', 4448.2216152605],
    ['1000', 'force', 'mm', 1000],
    ['20 kN', 'force', 'in', 20_000],
    ['1000 lbf', 'force', 'mm', 4448.2216152605],
    ['60 ft-lb', 'torque', 'mm', 81.349076899884],
    ['60 lbf·ft', 'torque', 'mm', 81.349076899884],
    ['5 N m', 'torque', 'in', 5],
    ['5 N·m', 'moment', 'in', 5000],
    ['27000', 'stress', 'in', 186.158446915546],
    ['210 GPa', 'stress', 'in', 210_000],
    ['1', 'mass', 'in', 0.45359237],
    ['2.7 g/cm³', 'density', 'in', 2700],
    ['1/2', 'ratio', 'in', 0.5],
    ['× 2.4', 'ratio', 'in', 2.4],
    ['8.5 %', 'fraction', 'mm', 0.085],
    ['8.7', 'fraction', 'mm', 0.087],
    ['8.5', 'percent', 'mm', 8.5],
    ['$38', 'money', 'in', 38],
    ['-0', 'money', 'in', 0],
    ['6', 'count', 'in', 6],
    ['1 h', 'time', 'in', 60],
    ['2', 'feed', 'in', 50.8],
    ['700 rpm', 'spindleSpeed', 'in', 700],
    ['450 sfm', 'speed', 'mm', 137.16],
    ['1-1/2', 'power', 'mm', 1.5],
  ])('%s as %s in a plan in %s is %d', (text, kind, units, value) => {
    expect(parseQuantity(text, kind, units, { currency: '$' })).toEqual({ ok: true, value });
  });

  it.each<[string, TypedKind, string]>([
    ['38,50', 'money', '"38,50" could be 38.50 or 3850, so write it with a point or without the comma.'],
    ['', 'count', 'Type a number.'],
    ['six', 'count', '"six" is not a number.'],
    ['6.5', 'count', '"6.5" is not a whole number.'],
    ['1e3', 'force', '"1e3" is written with a power of ten, so write the number out in full.'],
    ['-5', 'force', 'This cannot be less than zero.'],
    ['5 mm', 'force', '"mm" is not a unit for this: use lbf or N.'],
    ['12 apples', 'count', '"apples" is not a unit for this, which takes a plain number.'],
    ['5 constructor', 'force', '"constructor" is not a unit for this: use lbf or N.'],
    ['3/0', 'ratio', '"3/0" divides by zero.'],
    ['9'.repeat(20), 'count', 'This number is too large.'],
    ['9'.repeat(61), 'count', 'This is too long to be a number.'],
  ])('%j as %s is refused', (text, kind, refusal) => {
    expect(parseQuantity(text, kind, 'in')).toEqual({ ok: false, refusal });
  });

  it('keeps to the bounds of the field and names it', () => {
    expect(parseQuantity('120', 'percent', 'in', { field: 'Confidence', max: 100 })).toEqual({
      ok: false,
      refusal: 'Confidence: this cannot be more than 100 %.',
    });
    expect(parseQuantity('0', 'count', 'in', { field: 'Quantity', min: 1 })).toEqual({
      ok: false,
      refusal: 'Quantity: this cannot be less than 1.',
    });
    expect(parseQuantity('-3', 'force', 'mm', { min: -10 })).toEqual({ ok: true, value: -3 });
  });

  it('takes the unit shown beside the field for every kind', () => {
    for (const kind of KINDS) {
      for (const units of ['in', 'mm'] as const) {
        const bare = TYPED_UNITS[kind].bare[units];
        const typed = parseQuantity(`2 ${bare}`, kind, units);
        expect(typed, `${kind} ${bare}`).toEqual(parseQuantity('2', kind, units));
        expect(typed.ok, `${kind} ${bare}`).toBe(true);
      }
    }
  });

  it('lists units under the key they are looked up by', () => {
    for (const kind of KINDS) {
      const names = Object.keys(TYPED_UNITS[kind].sizes);
      expect(names.map(getUnitKey)).toEqual(names);
    }
  });

  it('never throws and never gives a number that is not finite, whatever is typed', () => {
    const character = fc.constantFrom(...Array.from('0123456789./- ½,enNm%$lbf'));
    fc.assert(
      fc.property(fc.string({ unit: character, maxLength: 12 }), fc.constantFrom(...KINDS), (text, kind) => {
        const parsed = parseQuantity(text, kind, 'in');
        return parsed.ok ? Number.isFinite(parsed.value) && parsed.value >= 0 : parsed.refusal.endsWith('.');
      }),
      { numRuns: 2000 },
    );
  });
});
