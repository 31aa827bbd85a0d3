export type Path = readonly (string | number)[];

/**
 * Replaces the value at a path; everything off the path is shared with the object given, which is not changed.
 *
 * @returns the object given when the value is already there
 * @throws when the path leads through something that is not an object or array: a fault of the program
 */
export function setAtPath<T>(target: T, path: Path, value: unknown): T {
  const [key, ...rest] = path;
  if (key === undefined) return value as T;
  if (typeof target !== 'object' || target === null) throw new TypeError(`no ${String(key)} in ${String(target)}`);
  const current = (target as Record<string | number, unknown>)[key];
  const next = setAtPath(current, rest, value);
  if (Object.is(next, current)) return target;
  if (!Array.isArray(target)) return { ...target, [key]: next };
  const copy: unknown[] = [...target];
  copy[Number(key)] = next;
  return copy as T;
}

/** The value at a path; undefined where the path leads nowhere. */
export function getAtPath(target: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (value, key) =>
      typeof value === 'object' && value !== null ? (value as Record<string | number, unknown>)[key] : undefined,
    target,
  );
}

/** Replaces the entry with this id. */
export function replaceById<T extends { readonly id: string }>(
  entries: readonly T[],
  id: string,
  change: (entry: T) => T,
): T[] {
  return entries.map((entry) => (entry.id === id ? change(entry) : entry));
}

/** An id that no entry has: the stem and the next free number. No randomness, so that a plan built twice is the same. */
export function getFreeId(entries: readonly { readonly id: string }[], stem: string): string {
  const taken = new Set(entries.map((entry) => entry.id));
  let number = entries.length + 1;
  while (taken.has(`${stem}-${number}`)) number += 1;
  return `${stem}-${number}`;
}
