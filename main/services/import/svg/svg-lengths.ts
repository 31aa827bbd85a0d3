import type { FileUnit } from '../../../../shared/outline/file-units';

export interface SvgLength {
  value: number;
  /** Null for a bare number, which is user units. */
  unit: FileUnit | null;
}

const UNITS: Readonly<Record<string, FileUnit | null>> = {
  '': null,
  px: 'px',
  mm: 'mm',
  cm: 'cm',
  in: 'in',
  pt: 'pt',
  pc: 'pc',
};

const LENGTH = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*([a-z]{0,2})\s*$/iu;

/** Reads a length attribute; null when it is missing, a percentage, or of a unit that depends on a font. */
export function parseSvgLength(text: string | undefined): SvgLength | null {
  const found = LENGTH.exec(text ?? '');
  const unit = UNITS[(found?.[2] ?? '').toLowerCase()];
  const value = Number(found?.[1]);
  return found === null || unit === undefined || !Number.isFinite(value) ? null : { value, unit };
}

/** The numbers in a list such as `viewBox` or `points`. */
export function parseSvgNumbers(text: string | undefined): number[] {
  return (text ?? '')
    .split(/[\s,]+/u)
    .filter((piece) => piece !== '')
    .map(Number);
}
