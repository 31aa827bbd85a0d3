import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { buildCsv, UTF8_MARK } from '../../../main/services/build-csv';
import { parseTable } from '../../../main/services/import/parse-table';
import { detectDecimal } from '../../../shared/lists/detect-decimal';
import { getPlainNumber } from '../../../shared/lists/list-cell';
import { detectColumns, type ListColumn } from '../../../shared/lists/list-columns';
import { getListStyle, type ListStyle } from '../../../shared/lists/list-style';
import { applyPartList, buildPartRows, PART_COLUMNS, type PartListChange } from '../../../shared/lists/part-list';
import { applyRackList, buildRackRows, RACK_COLUMNS, type RackListChange } from '../../../shared/lists/rack-list';
import { buildRejectedRows, type ReadList, readList } from '../../../shared/lists/read-list';
import type { TableText } from '../../../shared/lists/table';
import { buildPart } from '../../../shared/model/build-part';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import type { Part } from '../../../shared/model/plan';
import type { Remnant, Shop } from '../../../shared/model/shop';

const STYLES: readonly [string, ListStyle][] = (['en-US', 'en-GB', 'de-DE', 'fr-FR'] as const).flatMap((locale) =>
  (['in', 'mm'] as const).map((units): [string, ListStyle] => [`${locale} in ${units}`, getListStyle(locale, units)]),
);

const table = (text: string, delimiter: string | null = null): TableText =>
  parseTable(Buffer.from(text), 'list.csv', delimiter);

function read<F extends string>(text: string, known: readonly ListColumn<F>[]): { list: ReadList<F>; rows: TableText } {
  const rows = table(text);
  const { columns, hasHead, units } = detectColumns(rows, known);
  const { decimal } = detectDecimal(rows);
  return { list: readList(rows, known, { columns, hasHead, decimal, units: units ?? 'mm' }), rows };
}

function readParts(text: string, parts: readonly Part[] = []): PartListChange {
  const { list, rows } = read(text, PART_COLUMNS);
  return applyPartList(parts, list, rows);
}

function readRack(text: string, shop: Shop): RackListChange {
  const { list, rows } = read(text, RACK_COLUMNS);
  return applyRackList(shop, list, rows);
}

const word = fc.string({ unit: 'grapheme', maxLength: 20 }).map((text) => text.replace(/[\s\0]+/gu, ' ').trim());
// From a micrometre to three metres, in nanometres.
const length = fc.integer({ min: 1000, max: 3_000_000_000 }).map((nanometres) => nanometres / 1e6);
const parts = fc
  .uniqueArray(
    fc.record({
      name: word.map((text) => `P${text}`),
      number: word,
      hand: fc.constantFrom('none' as const, 'left' as const, 'right' as const),
      quantity: fc.integer({ min: 1, max: 5000 }),
      length,
      height: length,
      thickness: length,
      note: fc.oneof(word, fc.constantFrom('=1+1', "'=1", '@x', '-2+3', '"quoted", and; more', '＝A1', '- as drawn')),
    }),
    { selector: ({ name }) => name, minLength: 1, maxLength: 8 },
  )
  .map((list) => list.map((start, index) => buildPart({ id: `part-${index + 1}`, ...start })));

describe.each(STYLES)('lists written and read back, %s', (_name, style) => {
  test('parts come back as they were', () => {
    fc.assert(
      fc.property(parts, (before) => {
        // A list of whole numbers alone does not tell its decimal mark; the user is asked, and here answers.
        const rows = parseTable(
          Buffer.from(UTF8_MARK + buildCsv(buildPartRows(before, style), style.delimiter)),
          'p',
          null,
        );
        const { columns, hasHead, units } = detectColumns(rows, PART_COLUMNS);
        const list = readList(rows, PART_COLUMNS, { columns, hasHead, units: units ?? 'mm', decimal: style.decimal });
        const after = applyPartList([], list, rows);
        expect(units).toBe(style.units);
        expect(after.rejected).toEqual([]);
        expect(after.parts).toEqual(before);
      }),
      { numRuns: 60 },
    );
  });

  test('the decimal mark is found', () => {
    const part = buildPart({ id: 'part-1', name: 'Strut', length: 120.65, height: 25.4, thickness: 12.7 });
    const rows = table(buildCsv(buildPartRows([part], style), style.delimiter));
    expect(rows.delimiter).toBe(style.delimiter);
    expect(detectDecimal(rows)).toMatchObject({ decimal: style.decimal, isCertain: true });
  });

  test('the rack comes back as it was', () => {
    const [material, sizeClass] = [defaultShop.materials[0], defaultShop.sizeClasses[0]];
    const remnants = fc.uniqueArray(
      fc.record({
        a: length,
        b: length,
        length,
        quantity: fc.integer({ min: 1, max: 99 }),
        worth: fc.integer({ min: 0, max: 99_999 }),
        heatMark: word,
      }),
      { selector: (remnant) => remnant.length, minLength: 1, maxLength: 5 },
    );
    fc.assert(
      fc.property(remnants, (list) => {
        const rack = list.map(
          ({ a, b, worth, ...rest }, index): Remnant => ({
            id: `rack-${index + 1}`,
            materialId: material?.id ?? '',
            sizeClassId: sizeClass?.id ?? '',
            width: Math.max(a, b),
            thickness: Math.min(a, b),
            worth: worth / 100,
            note: '',
            ...rest,
          }),
        );
        const rows = table(buildCsv(buildRackRows({ ...defaultShop, rack }, style), style.delimiter));
        const { columns, hasHead, units } = detectColumns(rows, RACK_COLUMNS);
        const read = readList(rows, RACK_COLUMNS, { columns, hasHead, units: units ?? 'mm', decimal: style.decimal });
        const change = applyRackList({ ...defaultShop, rack: [] }, read, rows);
        expect(change.rejected).toEqual([]);
        expect(change.rack).toEqual(rack);
      }),
      { numRuns: 40 },
    );
  });
});

describe('what stands between cells', () => {
  test.each([
    ['Name;Length\nStrut;1,5\nLever;2,5\n', ';'],
    ['Name,Length\nStrut,1.5\n', ','],
    ['Name\tLength\nStrut\t1,5\n', '\t'],
    ['Name|Length\nStrut|1,5\n', '|'],
    ['sep=;\r\nName;Length\r\nStrut;1,5\r\n', ';'],
  ])('%j', (text, delimiter) => {
    expect(table(text).delimiter).toBe(delimiter);
    expect(table(text).rows).toHaveLength(
      text
        .trim()
        .split('\n')
        .filter((line) => !line.startsWith('sep=')).length,
    );
  });

  test('is what the user says when he says', () => {
    expect(table('Name,x;Length\nStrut,y;1\n', ',').rows[0]?.cells).toEqual(['Name', 'x;Length']);
  });

  test('lines are numbered as they stand in the file, blank ones and quoted line ends counted', () => {
    const rows = table('Name;Note\r\n\r\n"Strut";"two\r\nlines"\r\nLever;one\r\n').rows;
    expect(rows.map(({ line }) => line)).toEqual([1, 3, 5]);
  });
});

describe('the mark before decimals', () => {
  test.each([
    [['1,5', '12'], ',', true],
    [['1.5', '12'], '.', true],
    [['1.234,5'], ',', true],
    [['1,234.5'], '.', true],
    [['1 234,5'], ',', true],
    [['12\u202F345,25'], ',', true],
    [['1.234.567'], ',', true],
    [['1,500'], '.', false],
    [['0,500'], ',', true],
    [['1,5', '2.5'], '.', false],
    [['12', '13'], '.', false],
  ] as const)('%j: "%s", certain %s', (cells, decimal, isCertain) => {
    const rows = {
      rows: cells.map((cell, index) => ({ line: index + 1, cells: [cell] })),
      delimiter: ';',
      remarks: [],
    };
    expect(detectDecimal(rows)).toMatchObject({ decimal, isCertain });
  });

  test.each([
    ['1.234,5', ',', '1234.5'],
    ['1 234,5', ',', '1234.5'],
    ['1,234.5', '.', '1234.5'],
    ['1,5', '.', null],
    ['1.5', ',', null],
    ['1,2,3', ',', null],
    ['12,5 mm', ',', '12.5 mm'],
    ['1-1/2', ',', '1-1/2'],
    ['1 1/2', '.', '1 1/2'],
    ['-3,25', ',', '-3.25'],
  ] as const)('%j with "%s" is %j', (text, decimal, plain) => {
    expect(getPlainNumber(text, decimal)).toBe(plain);
  });
});

describe('a list of parts', () => {
  const GOOD = 'Bezeichnung;Anzahl;Länge (mm);Höhe (mm);Dicke (mm)\nStrut;12;120,5;25;12,7\n';

  test('is known by its heads in English, German and French', () => {
    expect(readParts(GOOD).parts).toMatchObject([
      { name: 'Strut', quantity: 12, length: 120.5, height: 25, thickness: 12.7 },
    ]);
    const french = 'Désignation;Quantité;Longueur;Hauteur;Épaisseur\nTirant;3;120,5;25;12,7\n';
    expect(readParts(french).parts).toMatchObject([{ name: 'Tirant', quantity: 3, length: 120.5 }]);
    const english = 'Part,Qty,Length (in),Height (in),Thickness (in)\nStrut,12,4-3/4,1",.5\n';
    expect(readParts(english).parts).toMatchObject([{ length: 120.65, height: 25.4, thickness: 12.7 }]);
  });

  test('keeps bad rows aside, each with its line and why, and takes the others', () => {
    const text = `${GOOD}Lever;0;90;25;12\nRod;two;90;25;12\n;1;90;25;12\nLink;1;1,2,3;25;12\nPin;1;90;0;12\nArm;1;90;25;12;x\nPawl;1;95;25;12\n`;
    const change = readParts(text);
    expect(change.parts.map(({ name }) => name)).toEqual(['Strut', 'Pawl']);
    expect(change.rejected.map(({ line, sentences }) => [line, sentences.join(' ')])).toEqual([
      [3, 'Quantity: "0" is not a whole number of 1 or more.'],
      [4, 'Quantity: "two" is not a number.'],
      [5, 'Name is blank.'],
      [6, 'Length: "1,2,3" is not a length with decimals after ",".'],
      [7, 'Height must be more than zero.'],
      [8, expect.stringContaining('6 cells')],
    ]);
    const aside = buildRejectedRows(table(text), change.rejected, true);
    expect(aside[0]?.at(-1)).toBe('Not taken because');
    expect(aside[1]?.slice(0, 3)).toEqual(['Lever', '0', '90']);
  });

  test('changes the part of its name and keeps its stations and holes', () => {
    const before = [
      {
        ...buildPart({ id: 'part-4', name: 'Strut', length: 100, height: 25, thickness: 12.7 }),
        stations: [{ kind: 'shank' as const, from: 10, to: 20, width: 8, widthEnd: 8 }],
      },
      buildPart({ id: 'part-5', name: 'Lever', length: 90, height: 20, thickness: 10 }),
    ];
    const change = readParts(`${GOOD}Lever;1;90;20;10\nNew;1;50;20;10\n`, before);
    expect(change.lines.map(({ name, kind }) => [name, kind])).toEqual([
      ['Strut', 'changed'],
      ['Lever', 'same'],
      ['New', 'new'],
    ]);
    expect(change.parts.map(({ id, length: long, stations }) => [id, long, stations.length])).toEqual([
      ['part-4', 120.5, 1],
      ['part-5', 90, 0],
      ['part-6', 50, 0],
    ]);
    expect(before[0]?.length).toBe(100);
  });

  test('without the columns it needs says which', () => {
    expect(read('Name;Length\nStrut;5\n', PART_COLUMNS).list).toMatchObject({
      missing: ['Height', 'Thickness'],
      rows: [],
    });
  });

  test('warns of what looks like a slip and takes it', () => {
    const change = readParts('Name,Length (in),Height (in),Thickness (in)\nStrut,1-3/36,1,0.5\n');
    expect(change.lines[0]?.warnings).toHaveLength(1);
  });
});

describe('a list of the rack', () => {
  test('names materials by name or designation, and says what it took where no class is named', () => {
    const material = defaultShop.materials[0];
    const change = readRack(
      `Material;Width (mm);Thickness (mm);Length (mm)\n${material?.name};12;30;400\nUnobtainable;1;1;1\n`,
      defaultShop,
    );
    expect(change.rack.at(-1)).toMatchObject({
      materialId: material?.id,
      width: 30,
      thickness: 12,
      length: 400,
      quantity: 1,
    });
    expect(change.lines[0]?.warnings[0]).toContain('No size class is named');
    expect(change.rejected).toMatchObject([{ line: 3, sentences: ['Material: the shop has no "Unobtainable".'] }]);
  });
});

describe('cells that a spreadsheet would run', () => {
  test.each(['=1+1', '+1+1', '-1+1', '@SUM(A1)', '＝1', "'=1", ' =1', '\t=1', '\r=1'])('%j is disarmed', (cell) => {
    const [line = ''] = buildCsv([[cell]], ',').split('\r\n');
    expect(line.replace(/^"/u, '')).toMatch(/^'/u);
  });

  test.each(['-5', '-5,25', '12.7', 'Strut', '1-1/2', '3/8'])('%j is left as it is', (cell) => {
    expect(buildCsv([[cell]], ';')).toBe(`${cell}\r\n`);
  });

  test('come back as they were', () => {
    fc.assert(
      fc.property(
        fc.array(fc.string({ unit: 'grapheme-ascii', minLength: 1 }), { minLength: 2, maxLength: 5 }),
        (cells) => {
          fc.pre(cells.some((cell) => cell.trim() !== '') && !cells.join('').includes('\u0000'));
          expect(table(buildCsv([cells], ';'), ';').rows[0]?.cells).toEqual(cells);
        },
      ),
    );
  });
});

test.each([
  ['en-US', ',', '.'],
  ['de-DE', ';', ','],
  ['de-CH', ',', '.'],
  ['fr-FR', ';', ','],
  ['fr-CA', ';', ','],
  ['es-MX', ',', '.'],
])('the lists of %s have "%s" between cells and "%s" before decimals', (locale, delimiter, decimal) => {
  expect(getListStyle(locale, 'mm')).toEqual({ delimiter, decimal, units: 'mm' });
});
