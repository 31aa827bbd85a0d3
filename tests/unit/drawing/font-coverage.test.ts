import PDFDocument from 'pdfkit';
import { describe, expect, it } from 'vitest';
import { loadPdfFonts } from '../../../main/services/pdf/load-fonts';
import { findMissingSigns } from '../../../shared/drawing/font-coverage';
import { buildSheet } from '../../../shared/drawing/sheet/build-sheet';
import { findFieldSigns } from '../../../shared/drawing/sheet/missing-signs';
import { getDrawn } from '../support/sample-sheets';

/** What pdfkit knows of the font in use and does not declare. */
interface FontInUse {
  _font: { font: { hasGlyphForCodePoint: (codePoint: number) => boolean } };
}

/** Cased pairs, surrogates and the rest of the planes: the plane of today's scripts, and that of the emoji. */
const PLANES = [
  [0x20, 0xd7ff],
  [0xe000, 0xffff],
  [0x1f000, 0x1ffff],
] as const;

describe('Signs that the sheet’s fonts lack', () => {
  it('are those that none of the font files has', async () => {
    const { regular, fallbacks } = await loadPdfFonts();
    const document = new PDFDocument();
    const fonts = [regular, ...fallbacks].map(
      (font) => (document.font(Buffer.from(font)) as unknown as FontInUse)._font.font,
    );
    const wrong: string[] = [];
    for (const [first, last] of PLANES) {
      for (let codePoint = first; codePoint <= last; codePoint += 1) {
        const sign = String.fromCodePoint(codePoint);
        if (/[\p{Cc}\p{Cf}\p{Variation_Selector}\s]/u.test(sign)) continue;
        const isThere = fonts.some((font) => font.hasGlyphForCodePoint(codePoint));
        if (isThere !== (findMissingSigns(sign).length === 0)) wrong.push(codePoint.toString(16));
      }
    }
    expect(wrong).toEqual([]);
  });

  it('are none in names in the scripts of most people', () => {
    const names = 'Arm Ärmel ręka Ω храповик 水门 ゲート 수문 ประตูน้ำ द्वार দরজা கதவு ذراع زروע זרוע բռնակ სახელური';
    expect(findMissingSigns(names)).toEqual([]);
  });

  it('are told once each, without what has no shape', () => {
    expect(findMissingSigns('🔧\ufe0f Pawl 🔧\u200d')).toEqual(['🔧']);
  });
});

describe('A plan with signs that the fonts lack', () => {
  const { plan, evaluation, shop } = getDrawn('keeper-links', (changed) => {
    Object.assign(changed.parts[0] ?? {}, { name: 'Link 🔧' });
    changed.marking.place = '🪛 side';
  });

  it('has its fields named', () => {
    expect(findFieldSigns(plan)).toEqual([
      { field: 'Part 1, name', signs: ['🔧'] },
      { field: 'Marking, place', signs: ['🪛'] },
    ]);
  });

  it('says so on page one and, field by field, among the findings', () => {
    const pages = buildSheet(plan, evaluation, shop);
    const getWords = (from: number, to?: number): string =>
      pages
        .slice(from, to)
        .flatMap(({ marks }) => marks.map((mark) => (mark.kind === 'text' ? mark.text : '')))
        .join(' ');
    expect(getWords(0, 1)).toContain('for signs shown as a box see the findings');
    expect(getWords(1)).toContain('Part 1, name: 🔧 U+1F527');
    expect(getWords(1)).toContain('Marking, place: 🪛 U+1FA9B');
  });

  it('keeps still where there are none', () => {
    const sample = getDrawn('keeper-links');
    expect(findFieldSigns(sample.plan)).toEqual([]);
  });
});
