/**
 * Keeps a result for as long as the two objects it was worked out from live. For results that hang on nothing else.
 *
 * @param compute a pure function of both
 */
export function keepByPair<A extends object, B extends object, T>(
  compute: (first: A, second: B) => T,
): (first: A, second: B) => T {
  const kept = new WeakMap<A, WeakMap<B, { value: T }>>();
  return (first, second) => {
    const inner = kept.get(first) ?? new WeakMap<B, { value: T }>();
    kept.set(first, inner);
    const found = inner.get(second);
    if (found !== undefined) return found.value;
    const value = compute(first, second);
    inner.set(second, { value });
    return value;
  };
}

/**
 * Keeps a result for as long as the object it was worked out from lives. For results that hang on nothing else.
 *
 * @param compute a pure function of it
 */
export function keepByObject<A extends object, T>(compute: (from: A) => T): (from: A) => T {
  const kept = new WeakMap<A, { value: T }>();
  return (from) => {
    const found = kept.get(from);
    if (found !== undefined) return found.value;
    const value = compute(from);
    kept.set(from, { value });
    return value;
  };
}
