/** No length, force or price of a plan or shop comes near this; what is beyond it is a slip of the keys. */
const LARGEST = 1e7;

/** A picometre, or as little of anything else, is nothing; dividing by it would leave no sense in the answer. */
const SMALLEST = 1e-9;

/**
 * The same data with every number usable: one that is not finite becomes 0, or `'auto'` where it was a pinned decision,
 * and one beyond all sense, large or small, is cut back. Plans and shops read from files never have such numbers; a plan built in a
 * program may, and the engine must answer all the same.
 *
 * @returns the very same object when nothing had to change
 */
export function getTidyNumbers<T>(data: T): T {
  return tidy(data) as T;
}

function tidy(value: unknown): unknown {
  if (typeof value === 'number') return tidyNumber(value);
  if (value === null || typeof value !== 'object') return value;
  return Array.isArray(value) ? tidyList(value) : tidyRecord(value as Record<string, unknown>);
}

function tidyNumber(value: number): number {
  if (!Number.isFinite(value) || Math.abs(value) < SMALLEST) return 0;
  return Math.abs(value) > LARGEST ? Math.sign(value) * LARGEST : value;
}

function tidyList(list: readonly unknown[]): readonly unknown[] {
  let changed: unknown[] | null = null;
  for (let index = 0; index < list.length; index += 1) {
    const tidied = tidy(list[index]);
    if (tidied !== list[index]) {
      changed ??= [...list];
      changed[index] = tidied;
    }
  }
  return changed ?? list;
}

function tidyRecord(record: Record<string, unknown>): unknown {
  const { pinned } = record;
  if (typeof pinned === 'number' && !Number.isFinite(pinned)) return 'auto';
  let changed: Record<string, unknown> | null = null;
  for (const key in record) {
    const tidied = tidy(record[key]);
    if (tidied !== record[key]) {
      changed ??= { ...record };
      changed[key] = tidied;
    }
  }
  return changed ?? record;
}
