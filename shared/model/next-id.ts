/**
 * The next free id of a kind: one past the highest number in use, so that a removed thing's id is never given again while
 * later ones stand.
 *
 * @param existing the things that have ids already
 * @param prefix kind, such as `part`
 * @example nextId([{ id: 'part-1' }, { id: 'part-7' }], 'part') // "part-8"
 */
export function nextId(existing: readonly { readonly id: string }[], prefix: string): string {
  const start = `${prefix}-`;
  const numbers = existing
    .filter(({ id }) => id.startsWith(start))
    .map(({ id }) => Number(id.slice(start.length)))
    .filter((number) => Number.isSafeInteger(number) && number > 0);
  return `${start}${Math.max(0, ...numbers) + 1}`;
}
