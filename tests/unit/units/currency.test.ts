import { describe, expect, it } from 'vitest';
import { getMoneyDecimals } from '../../../shared/units/currency';

/** Where the data behind Intl (Unicode CLDR) says what is used in daily trade and ISO 4217 what is defined. */
const BY_CUSTOM =
  'AFN ALL COP HUF IDR IQD IRR KPW LAK LBP MGA MMK PKR RSD SLL SOS STN SYP TZS UZS YER ZMK CLF UYI UYW'.split(' ');

describe('the decimals of a currency', () => {
  it('agree with those of the Intl library, a reference of its own, where custom and standard are one', () => {
    const codes = Intl.supportedValuesOf('currency').filter((code) => !BY_CUSTOM.includes(code));
    expect(codes.length).toBeGreaterThan(100);
    for (const code of codes) {
      const { maximumFractionDigits } = new Intl.NumberFormat('en', {
        style: 'currency',
        currency: code,
      }).resolvedOptions();
      expect([code, getMoneyDecimals(code)]).toEqual([code, maximumFractionDigits]);
    }
  });

  it('are two for a sign, a word or nothing', () => {
    for (const label of ['', '$', '€', 'club crowns', 'XYZ']) expect(getMoneyDecimals(label)).toBe(2);
  });
});
