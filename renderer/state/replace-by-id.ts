/** The list with the entry of this id replaced. */
export function replaceById<T extends { readonly id: string }>(
  entries: readonly T[],
  id: string,
  change: (entry: T) => T,
): T[] {
  return entries.map((entry) => (entry.id === id ? change(entry) : entry));
}
