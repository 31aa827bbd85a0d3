/** A run of text that one font can set. */
export interface FontRun<F> {
  font: F;
  text: string;
}

/** Marks, spaces and signs that shape their neighbours stay in the font of the letter before them. */
const STAYS = /[\s\p{M}\p{Cf}]/u;

/**
 * Splits a text so that each run has a font with all its characters. Characters that no font has go to the first,
 * which shows its empty box: better seen to be missing than lost. Signs without a shape of their own that a font does
 * not know are left out.
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
    const keeps = last !== undefined && STAYS.test(character) && hasGlyph(last.font, codePoint);
    const found = keeps ? last.font : fonts.find((candidate) => hasGlyph(candidate, codePoint));
    if (found === undefined && SHAPELESS.test(character)) continue;
    const font = found ?? fonts[0];
    if (last?.font === font) {
      last.text += character;
    } else {
      runs.push({ font, text: character });
    }
  }
  return runs;
}

/** Joiners, direction marks and the choice between text and picture of an emoji. */
const SHAPELESS = /[\p{Cf}\p{Variation_Selector}]/u;
