import { buildCsv } from '../../../main/services/build-csv';
import { getListStyle } from '../../../shared/lists/list-style';
import { buildPartRows } from '../../../shared/lists/part-list';
import { buildPart } from '../../../shared/model/build-part';

const PARTS = [
  buildPart({
    id: 'part-1',
    name: 'Strut; left',
    hand: 'left',
    quantity: 12,
    length: 120.65,
    height: 25.4,
    thickness: 12.7,
  }),
  buildPart({
    id: 'part-2',
    name: 'Lever "A"',
    number: '=4',
    length: 90,
    height: 20,
    thickness: 10,
    note: 'two\r\nlines',
  }),
];

/** Lists of parts in the styles of some languages and in both units. */
export const LIST_FILES: readonly (readonly [string, Uint8Array])[] = ['en-US', 'de-DE', 'fr-FR'].flatMap((locale) =>
  (['in', 'mm'] as const).map((units): [string, Uint8Array] => {
    const style = getListStyle(locale, units);
    return [`parts-${locale}-${units}.csv`, Buffer.from(buildCsv(buildPartRows(PARTS, style), style.delimiter))];
  }),
);
