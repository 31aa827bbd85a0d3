import { inchesToMm } from '../../units/exact';

/** What a key number says of the cutter that mills its seat, mm. */
export interface KeyNumberSizes {
  diameter: number;
  width: number;
}

/**
 * Cutter sizes from an ASME B17.2 key number: the last two digits are the diameter in eighths of an inch, those before
 * them the width in thirty-seconds. A half eighth is written behind a point (`302.5` is 5/16 in across).
 *
 * @param keyNumber such as `404`, `1212` or `302.5`
 * @returns sizes in mm; undefined for text that is no key number
 * @example getKeyNumberSizes('404') // { diameter: 12.7, width: 3.175 }
 */
export function getKeyNumberSizes(keyNumber: string): KeyNumberSizes | undefined {
  const match = /^(\d{1,2})(\d\d(?:\.5)?)$/.exec(keyNumber);
  if (match === null) return undefined;
  const widthIn32nds = Number(match[1]);
  const diameterInEighths = Number(match[2]);
  if (widthIn32nds === 0 || diameterInEighths === 0) return undefined;
  return { diameter: inchesToMm(diameterInEighths / 8), width: inchesToMm(widthIn32nds / 32) };
}

/** The 41 standard cutter numbers by diameter: Machinery's Handbook, 31st ed., p. 2557, Table 8; ASME B17.2. */
export const KEY_NUMBERS = [
  ...['202'],
  ...['202.5', '302.5'],
  ...['203', '303', '403'],
  ...['204', '304', '404'],
  ...['305', '405', '505', '605'],
  ...['406', '506', '606', '806'],
  ...['507', '607', '707', '807'],
  ...['608', '708', '808', '1008', '1208'],
  ...['609', '709', '809', '1009'],
  ...['610', '710', '810', '1010', '1210'],
  ...['811', '1011', '1211'],
  ...['812', '1012', '1212'],
] as const;
