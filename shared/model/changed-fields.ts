import { cleanNumber } from './clean-number';

/** Names of the fields in which two entries of a library differ. */
export function getChangedFields(copy: object, own: object): string[] {
  const keys = new Set([...Object.keys(copy), ...Object.keys(own)]);
  return [...keys].filter((key) => !isSame(getField(copy, key), getField(own, key)));
}

function getField(entry: object, key: string): unknown {
  return (entry as Record<string, unknown>)[key];
}

/** Equal in value; numbers as they are written to a file. */
function isSame(a: unknown, b: unknown): boolean {
  if (typeof a === 'number' && typeof b === 'number') return cleanNumber(a) === cleanNumber(b);
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return a === b;
  return getChangedFields(a, b).length === 0;
}
