/** Currencies by the number of their decimals, where that is not two: ISO 4217, list one, "minor unit" (from memory). */
const OTHER_DECIMALS: readonly (readonly [decimals: number, codes: string])[] = [
  [0, 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF'],
  [3, 'BHD IQD JOD KWD LYD OMR TND'],
  [4, 'CLF UYW'],
];

const DECIMALS_BY_CODE: ReadonlyMap<string, number> = new Map(
  OTHER_DECIMALS.flatMap(([decimals, codes]) => codes.split(' ').map((code) => [code, decimals])),
);

const USUAL_DECIMALS = 2;

/**
 * Decimals that an amount of money is written with.
 *
 * @param currency the shop's own label; the code of ISO 4217 in any case is known, anything else has two decimals
 * @returns whole number, 0 to 4
 * @example getMoneyDecimals('JPY') // 0
 * @example getMoneyDecimals('$') // 2
 */
export function getMoneyDecimals(currency: string): number {
  return DECIMALS_BY_CODE.get(currency.trim().toUpperCase()) ?? USUAL_DECIMALS;
}
