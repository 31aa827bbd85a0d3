import {
  type CorePattern,
  type CoreProblem,
  type CoreStock,
  computeLoad,
  getPatternKey,
  type PatternUse,
} from './core-model';

/** Takes blanks beyond the demand out again, from the emptiest bars first, so that the drops grow. */
export function removeSurplus(core: CoreProblem, uses: readonly PatternUse[]): PatternUse[] {
  const over = core.demands.map((demand) => -demand);
  for (const { pattern, count } of uses) {
    pattern.items.forEach((item, k) => {
      const row = core.rows[item] as number;
      over[row] = (over[row] as number) + (pattern.counts[k] as number) * (core.values[item] as number) * count;
    });
  }
  const result = uses
    .map((use) => ({
      use,
      spare: (core.stocks[use.pattern.stock] as CoreStock).capacity - computeLoad(core, use.pattern),
    }))
    .sort((a, b) => b.spare - a.spare)
    .map(({ use }) => use);
  for (let at = 0; at < result.length; at++) {
    const { pattern, count } = result[at] as PatternUse;
    const leaner = takeSurplusOut(core, pattern, over);
    if (!leaner) continue;
    const replaced: PatternUse[] = leaner.items.length > 0 ? [{ pattern: leaner, count: 1 }] : [];
    if (count > 1) replaced.push({ pattern, count: count - 1 });
    result.splice(at, 1, ...replaced);
    if (count === 1) at -= 1 - replaced.length;
  }
  return mergeEqual(result);
}

/** One bar of a pattern without its surplus; `undefined` when it has none. Takes what it removed off `over`. */
function takeSurplusOut(core: CoreProblem, pattern: CorePattern, over: number[]): CorePattern | undefined {
  const counts = new Map(pattern.items.map((item, k) => [item, pattern.counts[k] as number]));
  let isChanged = false;
  for (const item of pattern.items) {
    const row = core.rows[item] as number;
    const value = core.values[item] as number;
    const count = counts.get(item) ?? 0;
    const removable = Math.min(count, Math.floor((over[row] as number) / value));
    if (removable > 0) {
      counts.set(item, count - removable);
      over[row] = (over[row] as number) - removable * value;
      isChanged = true;
    }
    if ((over[row] as number) > 0 && (counts.get(item) ?? 0) > 0) {
      const smaller = findSmallerChoice(core, item, over[row] as number);
      if (smaller === undefined) continue;
      counts.set(item, (counts.get(item) as number) - 1);
      counts.set(smaller, (counts.get(smaller) ?? 0) + 1);
      over[row] = (over[row] as number) - value + (core.values[smaller] as number);
      isChanged = true;
    }
  }
  if (!isChanged) return undefined;
  const items = [...counts.keys()].filter((item) => (counts.get(item) as number) > 0).sort((a, b) => a - b);
  return { stock: pattern.stock, items, counts: items.map((item) => counts.get(item) as number) };
}

/** Smallest choice of the same row that still covers what an item covers less the surplus. */
function findSmallerChoice(core: CoreProblem, item: number, surplus: number): number | undefined {
  for (let other = core.sizes.length - 1; other > item; other--) {
    if (core.rows[other] !== core.rows[item]) continue;
    const loss = (core.values[item] as number) - (core.values[other] as number);
    if (loss <= surplus && (core.sizes[other] as number) < (core.sizes[item] as number)) return other;
  }
  return undefined;
}

/** Adds up uses of the same pattern. */
export function mergeEqual(uses: readonly PatternUse[]): PatternUse[] {
  const byKey = new Map<string, PatternUse>();
  for (const { pattern, count } of uses) {
    const key = getPatternKey(pattern);
    byKey.set(key, { pattern, count: (byKey.get(key)?.count ?? 0) + count });
  }
  return [...byKey.values()];
}
