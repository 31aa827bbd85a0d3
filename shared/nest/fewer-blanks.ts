import {
  type CorePattern,
  type CoreProblem,
  type CoreStock,
  computeLoad,
  getPatternKey,
  type PatternUse,
} from './core-model';
import { mergeEqual } from './surplus';

/**
 * Puts the parts of each bar on fewer, larger blanks where choices allow it and nothing is lost by it: no bar more is
 * cut, and neither the longest drop nor any that is worth keeping gets shorter.
 *
 * @param getDrop drop of a bar with so much of it used up, in units of the core problem
 * @param isKept whether a drop of this length is worth keeping
 */
export function mergeBlanks(
  core: CoreProblem,
  uses: readonly PatternUse[],
  getDrop: (stock: number, load: number) => number,
  isKept: (drop: number) => boolean,
): PatternUse[] {
  if (!hasChoices(core)) return [...uses];
  const longest = findLongestDrop(core, uses, getDrop);
  const merged = uses.flatMap(({ pattern, count }): PatternUse[] => {
    const load = computeLoad(core, pattern);
    const atItsLength = regroup(core, pattern, load);
    if (isKept(getDrop(pattern.stock, load))) return [{ pattern: atItsLength, count }];
    const freely = regroup(core, pattern, (core.stocks[pattern.stock] as CoreStock).capacity);
    if (pattern !== longest) return [{ pattern: freely, count }];
    return [
      { pattern: atItsLength, count: 1 },
      { pattern: freely, count: count - 1 },
    ];
  });
  return mergeEqual(merged.filter(({ count }) => count > 0));
}

function hasChoices(core: CoreProblem): boolean {
  return new Set(core.rows).size < core.rows.length;
}

function findLongestDrop(
  core: CoreProblem,
  uses: readonly PatternUse[],
  getDrop: (stock: number, load: number) => number,
): CorePattern | undefined {
  let longest: CorePattern | undefined;
  let most = 0;
  for (const use of uses) {
    const drop = getDrop(use.pattern.stock, computeLoad(core, use.pattern));
    if (drop <= most) continue;
    most = drop;
    longest = use.pattern;
  }
  return longest;
}

/** The same parts of every row on as few blanks as the room allows, row by row. */
function regroup(core: CoreProblem, pattern: CorePattern, room: number): CorePattern {
  let counts = new Map(pattern.items.map((item, k) => [item, pattern.counts[k] as number]));
  let load = computeLoad(core, pattern);
  for (const row of new Set(pattern.items.map((item) => core.rows[item] as number))) {
    const own = [...counts].filter(([item]) => core.rows[item] === row);
    const others = [...counts].filter(([item]) => core.rows[item] !== row);
    const ownLoad = sumUp(own, (item) => core.sizes[item] as number);
    const regrouped = regroupRow(core, row, own, room - load + ownLoad);
    if (regrouped === undefined) continue;
    load += sumUp(regrouped, (item) => core.sizes[item] as number) - ownLoad;
    counts = new Map([...others, ...regrouped]);
  }
  const items = [...counts.keys()].sort((a, b) => a - b);
  const regrouped = { stock: pattern.stock, items, counts: items.map((item) => counts.get(item) as number) };
  return getPatternKey(regrouped) === getPatternKey(pattern) ? pattern : regrouped;
}

type Counts = [item: number, count: number][];

/** Fewest blanks of one row that carry as much in so much room; `undefined` when no fewer do. */
function regroupRow(core: CoreProblem, row: number, own: Counts, room: number): Counts | undefined {
  const value = sumUp(own, (item) => core.values[item] as number);
  const blanks = sumUp(own, () => 1);
  const choices = new Map<number, number>();
  core.rows.forEach((itsRow, item) => {
    if (itsRow === row) choices.set(core.values[item] as number, item);
  });
  const most = Math.max(...choices.keys());
  for (let fewer = Math.ceil(value / most); fewer < blanks; fewer++) {
    const regrouped = shareOut(value, fewer, most, choices);
    if (regrouped && sumUp(regrouped, (item) => core.sizes[item] as number) <= room) return regrouped;
  }
  return undefined;
}

/** So much on so many blanks: full ones as far as it goes, then one that is not, then the smallest. */
function shareOut(
  value: number,
  blanks: number,
  most: number,
  choices: ReadonlyMap<number, number>,
): Counts | undefined {
  const counts = new Map<number, number>();
  let left = value;
  for (let rest = blanks; rest > 0; rest--) {
    const item = choices.get(Math.min(most, left - (rest - 1)));
    if (item === undefined) return undefined;
    counts.set(item, (counts.get(item) ?? 0) + 1);
    left -= Math.min(most, left - (rest - 1));
  }
  return left === 0 ? [...counts] : undefined;
}

function sumUp(counts: Counts, getAmount: (item: number) => number): number {
  return counts.reduce((sum, [item, count]) => sum + count * getAmount(item), 0);
}
