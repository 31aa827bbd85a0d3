import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import PDFDocument from 'pdfkit';
import { describe, expect, it } from 'vitest';
import { CAP_HEIGHT_PER_MILLE, METRIC_RUN_STARTS } from '../../../shared/drawing/font-metrics';
import { fitText, getEmSize, getTextWidth, wrapText } from '../../../shared/drawing/text-width';

const readFont = (name: string): Buffer => readFileSync(new URL(`../../../assets/fonts/${name}.ttf`, import.meta.url));
const FONTS = {
  regular: readFont('IBMPlexSans-Regular'),
  semibold: readFont('IBMPlexSans-SemiBold'),
  fallback: readFont('DejaVuSans'),
};
/** Characters that the sheet itself writes. */
const IN_USE = '0123456789.,:;()[]+-–—−×⌀±½·°²³µ≤≥≠√→…/%ABCXYZabcxyzäßéñøłČΩαβЖя'.split('');

describe('Text widths', () => {
  for (const weight of ['regular', 'semibold'] as const) {
    it(`are those of the font files, ${weight}`, () => {
      const document = new PDFDocument();
      const wrong = IN_USE.filter((character) => {
        const own = document.font(FONTS[weight]).fontSize(1000);
        const has = (own as unknown as { _font: { font: { hasGlyphForCodePoint(c: number): boolean } } })._font.font;
        const font = has.hasGlyphForCodePoint(character.codePointAt(0) ?? 0) ? FONTS[weight] : FONTS.fallback;
        const width = document.font(font).fontSize(1000).widthOfString(character);
        return Math.abs(getTextWidth(character, CAP_HEIGHT_PER_MILLE, weight) - width) > 0.51;
      });
      expect(wrong).toEqual([]);
    });
  }

  it('give every digit the same width, so that figures stand below each other', () => {
    const widths = new Set('0123456789'.split('').map((digit) => getTextWidth(digit, 2.5)));
    expect(widths.size).toBe(1);
  });

  it('take letters of scripts without a table entry for wide rather than narrow', () => {
    expect(getTextWidth('漢', 2.5)).toBeCloseTo(getEmSize(2.5), 6);
    expect(getTextWidth('ש', 2.5)).toBeGreaterThan(getTextWidth('n', 2.5));
    expect(METRIC_RUN_STARTS).toEqual(METRIC_RUN_STARTS.toSorted((a, b) => a - b));
  });
});

describe('Fitting text', () => {
  it('never exceeds the room, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme', maxLength: 80 }),
        fc.double({ min: 1, max: 80, noNaN: true }),
        (text, room) => {
          expect(getTextWidth(fitText(text, room, 2), 2)).toBeLessThanOrEqual(room + 1e-9);
        },
      ),
    );
  });

  it('keeps as much of the text as there is room for', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...'abmwIl.WM'), { minLength: 1, maxLength: 60 }),
        fc.double({ min: 3, max: 60, noNaN: true }),
        (characters, room) => {
          const text = characters.join('');
          const kept = fitText(text, room, 2).length - 1;
          fc.pre(fitText(text, room, 2) !== text);
          expect(getTextWidth(`${text.slice(0, kept + 1)}…`, 2)).toBeGreaterThan(room);
        },
      ),
    );
  });

  it('keeps a text that fits as it is and ends a shortened one with an ellipsis', () => {
    expect(fitText('Pawl arm', 100, 2.5)).toBe('Pawl arm');
    expect(fitText('Pawl arm of the sluice gate', 20, 2.5)).toBe('Pawl arm…');
  });
});

describe('Wrapping text', () => {
  it('keeps every line inside the room and loses no letter', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme', maxLength: 120 }),
        fc.double({ min: 12, max: 80, noNaN: true }),
        (text, room) => {
          const lines = wrapText(text, room, 2);
          for (const line of lines) {
            expect(getTextWidth(line, 2)).toBeLessThanOrEqual(room + 1e-9);
          }
          const letters = (value: string): string => value.replace(/\s/gu, '');
          expect(letters(lines.join(''))).toBe(letters(text));
        },
      ),
    );
  });

  it('breaks at spaces and hyphens before it breaks a word', () => {
    expect(wrapText('grip in the soft-jaw shelf', 22, 2.5)).toEqual(['grip in the', 'soft-jaw shelf']);
  });

  it('cuts at the most lines allowed and shows that it did', () => {
    const lines = wrapText('one two three four five six seven', 16, 2.5, 'regular', 2);
    expect(lines).toHaveLength(2);
    expect(lines[1]).toMatch(/…$/u);
  });
});
