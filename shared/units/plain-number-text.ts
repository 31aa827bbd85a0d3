const VULGAR_FRACTIONS: Readonly<Record<string, string>> = {
  '½': '1/2',
  '⅓': '1/3',
  '⅔': '2/3',
  '¼': '1/4',
  '¾': '3/4',
  '⅕': '1/5',
  '⅖': '2/5',
  '⅗': '3/5',
  '⅘': '4/5',
  '⅙': '1/6',
  '⅚': '5/6',
  '⅐': '1/7',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅑': '1/9',
  '⅒': '1/10',
};

const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const SUBSCRIPTS = '₀₁₂₃₄₅₆₇₈₉';
const RAISED_FRACTION = new RegExp(`([${SUPERSCRIPTS}]+)/([${SUBSCRIPTS}]+)`, 'gu');

/**
 * Spells a typed number or length in plain characters: ASCII digits, `-`, `/`, `'`, `"`, single spaces.
 * A fraction written as one character keeps its distance from a digit on either side, so that `1½` does
 * not become 11/2 nor `½2` become 1/22.
 *
 * @param text whatever was typed or pasted
 * @returns the same in plain characters; characters with no plain form are left for the grammar to refuse
 * @example getPlainNumberText('1½″') // '1 1/2"'
 */
export function getPlainNumberText(text: string): string {
  const plain = text
    .replace(/[\u200b-\u200d\u2060\ufeff]/gu, '')
    .replace(/[\u2010-\u2015\u2212\ufe63\uff0d]/gu, '-')
    .replace(/[\u2044\u2215]/gu, '/')
    .replace(/[\u2032\u2018\u2019\u02b9\u00b4]/gu, "'")
    .replace(/[\u2033\u201c\u201d\u02ba]|''/gu, '"')
    .replace(/[\u00b5\u03bc]m/gu, 'um');
  return spellOutFractions(plain).replace(/\s+/gu, ' ').trim();
}

function spellOutFractions(text: string): string {
  const raised = text.replace(RAISED_FRACTION, (_match, above: string, below: string) =>
    apart(`${getDigits(above, SUPERSCRIPTS)}/${getDigits(below, SUBSCRIPTS)}`),
  );
  const vulgar = raised.replace(/\p{No}/gu, (character) => {
    const fraction = VULGAR_FRACTIONS[character];
    return fraction === undefined ? character : apart(fraction);
  });
  // A dash or sign stays attached: `1-½` is `1-1/2`.
  return vulgar.replace(/-\ue000/gu, '-').replace(/\ue000/gu, ' ');
}

/** Marks a fraction's two ends, so that it can be told from the digits around it. */
function apart(fraction: string): string {
  return `\ue000${fraction}\ue000`;
}

function getDigits(text: string, alphabet: string): string {
  return Array.from(text, (character) => String(alphabet.indexOf(character))).join('');
}
