/** A run of text that one font can set. */
export interface FontRun<F> {
  font: F;
  text: string;
}

/**
 * Splits a text so that each run has a font with all its characters. Characters that no font has go to the first,
 * which shows its empty box: better seen to be missing than lost. Marks stay with the letter before them where that
 * letter's font has them.
 *
 * @param fonts asked in turn
 * @param hasGlyph whether a font can show a code point
 */
export function splitByFont<F>(
  text: string,
  fonts: readonly [F, ...F[]],
  hasGlyph: (font: F, codePoint: number) => boolean,
): FontRun<F>[] {
  const runs: FontRun<F>[] = [];
  for (const character of text) {
    const codePoint = character.codePointAt(0) ?? 0;
    const last = runs.at(-1);
    const keeps = last !== undefined && /[\s\p{M}]/u.test(character) && hasGlyph(last.font, codePoint);
    const font = keeps ? last.font : (fonts.find((candidate) => hasGlyph(candidate, codePoint)) ?? fonts[0]);
    if (last?.font === font) {
      last.text += character;
    } else {
      runs.push({ font, text: character });
    }
  }
  return runs;
}
