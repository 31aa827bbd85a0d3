import { getFieldWords } from './field-words';

const MOST_NAMED = 5;

/** Paths of the keys that were in the value and are not in what was read from it. */
export function findUnknownKeys(value: unknown, read: unknown, path: readonly PropertyKey[] = []): PropertyKey[][] {
  if (Array.isArray(value) && Array.isArray(read)) {
    return value.flatMap((entry, index) => findUnknownKeys(entry, read[index], [...path, index]));
  }
  if (!isRecord(value) || !isRecord(read)) return [];
  return Object.keys(value).flatMap((key) =>
    Object.hasOwn(read, key) ? findUnknownKeys(value[key], read[key], [...path, key]) : [[...path, key]],
  );
}

/** What to tell the user of keys that were left out; nothing when there are none. */
export function getUnknownKeyRemarks(paths: readonly (readonly PropertyKey[])[]): string[] {
  if (paths.length === 0) return [];
  const named = paths.slice(0, MOST_NAMED).map((path) => getFieldWords(path));
  const rest = paths.length - named.length;
  const more = rest > 0 ? ` and ${rest} more` : '';
  return [`Left out, because this version does not know it: ${named.join('; ')}${more}.`];
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
