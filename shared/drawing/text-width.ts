import { ADVANCE_WIDTHS, CAP_HEIGHT_PER_MILLE, METRIC_RUN_STARTS } from './font-metrics';
import type { TextMark } from './marks';

const METRIC_CHARACTERS = 2;
const COMBINING = /\p{M}|\p{Cf}/u;
/** Scripts whose letters fill a square, from Hangul Jamo and CJK radicals up. */
const FIRST_WIDE = 0x2e80;
const WIDE_PER_MILLE = 1000;
/** Wider than nearly every letter of the remaining alphabets, so that a guess never makes texts overlap. */
const UNKNOWN_PER_MILLE = 820;

/**
 * Width of a text as the sheet's fonts set it, without kerning.
 *
 * @param text one line
 * @param size height of capitals, mm
 * @returns mm; exact for Latin, Greek, Cyrillic and the signs in use, a guess on the wide side for other scripts
 */
export function getTextWidth(text: string, size: number, weight: TextMark['weight'] = 'regular'): number {
  let perMille = 0;
  for (const character of text) {
    perMille += getAdvance(character, weight);
  }
  return (perMille * size) / CAP_HEIGHT_PER_MILLE;
}

/** Size of the font's em for a height of capitals, both mm. */
export function getEmSize(capHeight: number): number {
  return (capHeight * 1000) / CAP_HEIGHT_PER_MILLE;
}

/**
 * The text, or its beginning with an ellipsis when it is wider than the room.
 *
 * @param room mm
 */
export function fitText(text: string, room: number, size: number, weight: TextMark['weight'] = 'regular'): string {
  if (getTextWidth(text, size, weight) <= room) {
    return text;
  }
  const characters = splitCharacters(text);
  const cut = (count: number): string => `${characters.slice(0, count).join('').trimEnd()}…`;
  const getFits = (count: number): boolean => getTextWidth(cut(count), size, weight) <= room;
  // Halving: the names of hundreds of parts would be measured thousands of times, one character less each time.
  let fitting = 0;
  let tooMany = characters.length;
  while (tooMany - fitting > 1) {
    const middle = Math.floor((fitting + tooMany) / 2);
    if (getFits(middle)) fitting = middle;
    else tooMany = middle;
  }
  return getFits(fitting) ? cut(fitting) : '';
}

/**
 * Breaks a text into lines no wider than the room: at spaces, after hyphens and slashes, and inside a word only
 * when the word alone is too wide. Line breaks in the text are kept.
 *
 * @param room mm
 * @param mostLines lines beyond this are cut with an ellipsis
 */
export function wrapText(
  text: string,
  room: number,
  size: number,
  weight: TextMark['weight'] = 'regular',
  mostLines = Number.POSITIVE_INFINITY,
): string[] {
  const lines = text.split(/\r\n|[\n\r\u2028\u2029]/u).flatMap((line) => wrapLine(line, room, size, weight));
  if (lines.length <= mostLines) {
    return lines;
  }
  const kept = lines.slice(0, mostLines);
  kept[mostLines - 1] = fitText(`${kept[mostLines - 1] ?? ''} ${lines[mostLines] ?? ''}…`, room, size, weight);
  return kept;
}

function wrapLine(text: string, room: number, size: number, weight: TextMark['weight']): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/(?<=[\s/-])/u).flatMap((piece) => breakWord(piece, room, size, weight))) {
    if (line !== '' && getTextWidth((line + word).trimEnd(), size, weight) > room) {
      lines.push(line.trimEnd());
      line = word.trimStart();
    } else {
      line += word;
    }
  }
  lines.push(line.trimEnd());
  return lines;
}

function breakWord(word: string, room: number, size: number, weight: TextMark['weight']): string[] {
  if (getTextWidth(word.trimEnd(), size, weight) <= room) {
    return [word];
  }
  const pieces: string[] = [];
  let piece = '';
  for (const character of splitCharacters(word)) {
    if (piece !== '' && getTextWidth(piece + character, size, weight) > room) {
      pieces.push(piece);
      piece = '';
    }
    piece += character;
  }
  return piece === '' ? pieces : [...pieces, piece];
}

/** Characters with the marks that combine with them kept together. */
function splitCharacters(text: string): string[] {
  const clusters: string[] = [];
  for (const character of text) {
    if (COMBINING.test(character) && clusters.length > 0) {
      clusters[clusters.length - 1] += character;
    } else {
      clusters.push(character);
    }
  }
  return clusters;
}

function getAdvance(character: string, weight: TextMark['weight']): number {
  const codePoint = character.codePointAt(0) ?? 0;
  const known = getTableAdvance(codePoint, weight);
  if (known > 0) {
    return known;
  }
  if (COMBINING.test(character)) {
    return 0;
  }
  return codePoint >= FIRST_WIDE ? WIDE_PER_MILLE : UNKNOWN_PER_MILLE;
}

/** Widths by code point, read out of the packed table once. */
const TABLES = { regular: unpack('regular'), semibold: unpack('semibold') };

function getTableAdvance(codePoint: number, weight: TextMark['weight']): number {
  return TABLES[weight].get(codePoint) ?? 0;
}

function unpack(weight: TextMark['weight']): ReadonlyMap<number, number> {
  const widths = new Map<number, number>();
  for (const [run, digits] of ADVANCE_WIDTHS[weight].entries()) {
    const start = METRIC_RUN_STARTS[run] ?? 0;
    for (let place = 0; place < digits.length; place += METRIC_CHARACTERS) {
      const width = Number.parseInt(digits.slice(place, place + METRIC_CHARACTERS), 36);
      widths.set(start + place / METRIC_CHARACTERS, width);
    }
  }
  return widths;
}
