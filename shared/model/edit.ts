import type { BlankTemplate, Plan } from './plan';

export type Path = readonly (string | number)[];

/** What stands at a path, or undefined where the path leads nowhere. */
export function getAtPath(root: unknown, path: Path): unknown {
  return path.reduce<unknown>((at, key) => (hasKey(at, key) ? at[key] : undefined), root);
}

/**
 * A copy with one value replaced; everything off the path is shared with the original, which is not changed.
 *
 * @param root a plan, a shop or any plain data
 * @param path keys and list indexes from the root; every key but the last must exist. An index equal to a list's length appends
 * @param value takes the place of what stands at the path; it is put in as it is, without a copy
 * @throws RangeError when the path leads nowhere: a bug of the caller, never of the user
 * @example setAtPath(plan, ['parts', 0, 'length'], 184.15)
 */
export function setAtPath<T>(root: T, path: Path, value: unknown): T {
  return replaceAt(root, path, 0, value) as T;
}

function replaceAt(at: unknown, path: Path, depth: number, value: unknown): unknown {
  const key = path[depth];
  if (key === undefined) return value;
  const isLast = depth === path.length - 1;
  if (Array.isArray(at) && typeof key === 'number' && isIndex(key, isLast ? at.length : at.length - 1)) {
    const copy = [...at];
    copy[key] = replaceAt(at[key], path, depth + 1, value);
    return copy;
  }
  if (!Array.isArray(at) && hasKey(at, key)) return { ...at, [key]: replaceAt(at[key], path, depth + 1, value) };
  throw new RangeError(`There is nothing at ${path.slice(0, depth + 1).join('.')} to change.`);
}

function isIndex(key: number, largest: number): boolean {
  return Number.isInteger(key) && key >= 0 && key <= largest;
}

/** Own keys only, so that `__proto__` and its like are never followed. */
function hasKey(at: unknown, key: string | number): at is Record<string | number, unknown> {
  return typeof at === 'object' && at !== null && Object.hasOwn(at, key);
}

/**
 * The plan without a part and without its places on blanks and its tabs; a blank left empty goes too. What was recorded of
 * the part after the job stays.
 */
export function removePart(plan: Plan, partId: string): Plan {
  const parts = plan.parts.filter((part) => part.id !== partId);
  return keepKnownParts({ ...plan, parts });
}

/** The plan without places and tabs of parts that it does not hold; the plan itself when every one is known. */
export function keepKnownParts(plan: Plan): Plan {
  const known = new Set(plan.parts.map((part) => part.id));
  const layout = keepKnownSlots(plan.layout, known);
  const { tabs } = plan.release;
  const isEveryTabKnown = tabs === 'auto' || tabs.pinned.every((tab) => known.has(tab.partId));
  if (layout === plan.layout && isEveryTabKnown) return plan;
  const release = isEveryTabKnown
    ? plan.release
    : { ...plan.release, tabs: { pinned: tabs.pinned.filter((tab) => known.has(tab.partId)) } };
  return { ...plan, layout, release };
}

function keepKnownSlots(layout: Plan['layout'], known: ReadonlySet<string>): Plan['layout'] {
  if (layout === 'auto') return layout;
  const isKnown = (template: BlankTemplate): boolean => template.slots.every((slot) => known.has(slot.partId));
  if (layout.pinned.every(isKnown)) return layout;
  const pinned = layout.pinned
    .map((template) =>
      isKnown(template) ? template : { ...template, slots: template.slots.filter((slot) => known.has(slot.partId)) },
    )
    .filter((template) => template.slots.length > 0);
  return pinned.length === 0 ? 'auto' : { pinned };
}
