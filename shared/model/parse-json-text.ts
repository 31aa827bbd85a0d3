import type { ParseProblem } from './problem';

export interface TextLimits {
  /** Longest text that is read, in characters. */
  maxCharacters: number;
}

/** Plans and shops are far below this; a text past it is not one of ours. */
export const DEFAULT_TEXT_LIMITS: TextLimits = { maxCharacters: 20_000_000 };

type JsonResult = { ok: true; value: unknown } | { ok: false; problem: ParseProblem };

/**
 * JSON text to a value, with a plain sentence for text that is empty, too long, cut short or no JSON.
 *
 * @param what what the file should be, such as "plan"
 */
export function parseJsonText(text: string, what: string, limits: TextLimits): JsonResult {
  if (text.length > limits.maxCharacters) {
    return fail(
      'file-too-big',
      `The file is too big for a ${what}: over ${getMillions(limits.maxCharacters)} characters.`,
    );
  }
  // A file zeroed by a power loss holds NUL characters only; an editor may have put a byte order mark in front.
  const bare = text.replace(/^\uFEFF/, '');
  if (!/[^\0\s]/.test(bare)) return fail('file-empty', 'The file is empty.');
  try {
    return { ok: true, value: JSON.parse(bare) };
  } catch {
    return isCutShort(bare)
      ? fail('file-truncated', `The file ends too early: the ${what} in it was cut short.`)
      : fail('not-json', `The file is not a ${what}: its text is not JSON.`);
  }
}

function getMillions(characters: number): string {
  return characters >= 1_000_000 ? `${Math.floor(characters / 1_000_000)} million` : String(characters);
}

function fail(code: ParseProblem['code'], sentence: string): JsonResult {
  return { ok: false, problem: { code, sentence, where: '' } };
}

/** True when the text begins as one of our files and its end is still inside a string or bracket. */
function isCutShort(text: string): boolean {
  if (!text.trimStart().startsWith('{')) return false;
  let depth = 0;
  let inString = false;
  for (let index = 0; index < text.length; index += 1) {
    const character = text[index];
    if (inString) {
      if (character === '\\') index += 1;
      else if (character === '"') inString = false;
      else if (character === '\n') return false;
    } else if (character === '"') inString = true;
    else if (character === '{' || character === '[') depth += 1;
    else if (character === '}' || character === ']') {
      depth -= 1;
      if (depth < 0) return false;
    }
  }
  return inString || depth > 0;
}
