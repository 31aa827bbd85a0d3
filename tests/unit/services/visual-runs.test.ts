import { describe, expect, test } from 'vitest';
import { splitByFont } from '../../../main/services/pdf/split-by-font';
import { getVisualRuns } from '../../../main/services/pdf/visual-runs';

/** Runs as they stand from left to right, each read from its own beginning. */
const show = (text: string): string[] =>
  getVisualRuns(text).map((run) => `${run.isRightToLeft ? '←' : '→'}${run.text}`);

describe('a line in runs of one direction', () => {
  test('is one run where all of it runs from left to right', () => {
    expect(show('Pawl arm (left), 12 mm')).toEqual(['→Pawl arm (left), 12 mm']);
    expect(show('')).toEqual(['→']);
  });

  test('keeps Hebrew words in their order, first word at the right', () => {
    expect(show('זרוע הרמה')).toEqual(['←זרוע הרמה']);
  });

  // The worked lines of UAX #9, section 3.4, with letters of Hebrew for its capitals.
  test('sets words from right to left inside a line from left to right', () => {
    expect(show('car is the בגד דהו end')).toEqual(['→car is the ', '←בגד דהו', '→ end']);
  });

  test('sets a number after Hebrew words at their left, its figures from left to right', () => {
    expect(show('זרוע 12 הרמה')).toEqual(['← הרמה', '→12', '←זרוע ']);
  });

  test('turns brackets that stand in a run from right to left', () => {
    expect(show('שער (שמאל) זרוע')).toEqual(['←שער )שמאל( זרוע']);
  });

  test('loses no letter', () => {
    for (const text of ['ذراع رفع البوابة 12 mm', 'a ב 1 (ג) 🔧 ד', '\u202eabc\u202c def']) {
      const letters = getVisualRuns(text).flatMap((run) => [...run.text]);
      const turned = (sign: string): string => ({ '(': ')', ')': '(' })[sign] ?? sign;
      expect(letters.map(turned).toSorted()).toEqual([...text].map(turned).toSorted());
    }
  });
});

describe('a text by the fonts that have its letters', () => {
  const fonts = ['latin', 'thai'] as const;
  const hasGlyph = (font: string, codePoint: number): boolean =>
    codePoint === 0x20 || (font === 'thai' ? codePoint >= 0xe00 && codePoint < 0xe80 : codePoint < 0x250);
  const split = (text: string): string[] => splitByFont(text, fonts, hasGlyph).map((run) => `${run.font}: ${run.text}`);

  test('keeps marks and spaces with the letter before them', () => {
    expect(split('ab ประตูน้ำ ชิ้น c')).toEqual(['latin: ab ', 'thai: ประตูน้ำ ชิ้น ', 'latin: c']);
  });

  test('keeps letters that no font has, for their box, and leaves out what has no shape', () => {
    expect(split('a🔧\ufe0f\u200db')).toEqual(['latin: a🔧b']);
  });
});
