import { describe, expect, test } from 'vitest';
import { getLengthReader, getQuantityReader } from '../../../renderer/state/entry';

describe('a length field', () => {
  const inch = getLengthReader('in', { field: 'Length', allowZero: false });

  test.each(['1-1/2', '1 1/2', '1.5"', '1½', '38.1 mm'])('reads %s as an inch and a half', (text) => {
    expect(inch.read(text)).toMatchObject({ kind: 'value', value: 38.1 });
  });

  test.each(['1,5', '3/8/2', '1/0', '1/2-', '', 'NaN', '-1', '0', '1e9'])('refuses %j with its name', (text) => {
    const entry = inch.read(text);
    expect(entry.kind).toBe('refused');
    expect(entry).toMatchObject({ sentence: expect.stringMatching(/^Length: .+\.|\?$/) });
  });

  test('shows a value so that it reads back as itself', () => {
    for (const mm of [38.1, 7.9375, 0.127, 184.15]) {
      expect(inch.read(inch.show(mm))).toMatchObject({ kind: 'value', value: expect.closeTo(mm, 3) });
    }
  });

  test('echoes both units', () => {
    expect(inch.echo(38.1)).toBe('1.500 in / 38.10 mm');
  });

  test('is cleared by emptying only where that means something', () => {
    expect(getLengthReader('mm', { mayBeEmpty: true }).read(' ')).toEqual({ kind: 'cleared' });
    expect(getLengthReader('mm').read('')).toMatchObject({ kind: 'refused' });
  });

  test('passes a warning on with the value', () => {
    const reader = getLengthReader('in', { field: 'Thickness', limit: { name: 'vise opening', max: 152.4 } });
    expect(reader.read('12.7')).toMatchObject({
      kind: 'value',
      value: 322.58,
      warning: expect.stringContaining('12.7 mm'),
    });
  });
});

describe('a field of another kind', () => {
  test.each([
    ['force', 'in', 24910, '5600', 'lbf'],
    ['torque', 'in', 75, '663.8', 'lbf·in'],
    ['fraction', 'mm', 0.085, '8.5', '%'],
    ['money', 'mm', 13.5, '13.50', 'EUR'],
    ['stress', 'mm', 415, '415', 'MPa'],
    ['count', 'in', 6, '6', ''],
  ] as const)('shows a %s in %s units with the digits a person would write', (kind, units, value, shown, unit) => {
    const reader = getQuantityReader(kind, units, { currency: 'EUR' });
    expect([reader.show(value), reader.unit]).toEqual([shown, unit]);
  });

  test.each([
    ['JPY', 1250, '1250'],
    ['KWD', 12.5, '12.500'],
    ['club crowns', 12.5, '12.50'],
  ])('shows %s with the decimals of that currency, and reads them back', (currency, price, shown) => {
    const reader = getQuantityReader('money', 'mm', { currency });
    expect(reader.show(price)).toBe(shown);
    expect(reader.read(shown)).toMatchObject({ kind: 'value', value: price });
  });

  test('reads the other system’s unit', () => {
    expect(getQuantityReader('force', 'in').read('20 kN')).toMatchObject({ kind: 'value', value: 20_000 });
  });

  test('keeps to its bounds and says them', () => {
    const reader = getQuantityReader('count', 'in', { field: 'Vises', min: 1, max: 24 });
    expect(reader.read('0')).toMatchObject({ kind: 'refused', sentence: expect.stringContaining('1') });
    expect(reader.read('25')).toMatchObject({ kind: 'refused', sentence: expect.stringContaining('24') });
    expect(reader.read('2.5')).toMatchObject({ kind: 'refused' });
  });
});
