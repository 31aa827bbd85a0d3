import type { TableText } from './table';

export interface DecimalGuess {
  decimal: '.' | ',';
  /** False when no cell tells, or cells tell different things: the user is asked. */
  isCertain: boolean;
  /** The cell it was told by, or ''. */
  toldBy: string;
}

const SPACES = /[\s\u00A0\u202F\u2009']/gu;

/** What a cell tells of the mark before its decimals: `1.5` and `1,500.25` a point, `1,5` and `1.500,25` a comma, `1,500` nothing. */
function getEvidence(cell: string): '.' | ',' | null {
  const text = cell.trim().replace(SPACES, '');
  const found = /^[+-]?(\d+(?:[.,]\d+)*)(?:mm|cm|m|in|")?$/iu.exec(text);
  const digits = found?.[1];
  if (digits === undefined) return null;
  const last = Math.max(digits.lastIndexOf('.'), digits.lastIndexOf(','));
  const mark = digits[last];
  if (mark !== '.' && mark !== ',') return null;
  const other = mark === '.' ? ',' : '.';
  const count = digits.split(mark).length - 1;
  if (digits.includes(other)) return count === 1 ? mark : null;
  // The same mark more than once groups thousands; once, before three digits and after one to three, it may.
  if (count > 1) return other;
  const mayGroup = digits.length - last === 4 && last >= 1 && last <= 3 && digits[0] !== '0';
  return mayGroup ? null : mark;
}

/** Which mark stands before decimals in a list. */
export function detectDecimal({ rows }: TableText): DecimalGuess {
  const told: Record<'.' | ',', string[]> = { '.': [], ',': [] };
  for (const { cells } of rows) {
    for (const cell of cells) {
      const mark = getEvidence(cell);
      if (mark !== null) told[mark].push(cell.trim());
    }
  }
  const [points, commas] = [told['.'].length, told[','].length];
  const decimal = commas > points ? ',' : '.';
  return { decimal, isCertain: (points === 0) !== (commas === 0), toldBy: told[decimal][0] ?? '' };
}
