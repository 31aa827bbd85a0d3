import type { Plan, PlanLibrary } from '../../shared/model/plan';
import { LIBRARY_KEYS } from '../../shared/model/plan-library';
import type { Shop } from '../../shared/model/shop';

type LibraryKey = keyof PlanLibrary;

/**
 * The plan's own copies win over the shop's entries, so an entry that is edited with the plan open must be
 * changed in both. Entries that did not change are left as the plan has them.
 *
 * @returns the plan given when none of its copies is concerned
 */
export function applyShopToLibrary(plan: Plan, before: Shop, after: Shop): Plan {
  let library = plan.library;
  for (const key of LIBRARY_KEYS) {
    library = replaceChanged(library, key, before, after);
  }
  return library === plan.library ? plan : { ...plan, library };
}

function replaceChanged<K extends LibraryKey>(library: PlanLibrary, key: K, before: Shop, after: Shop): PlanLibrary {
  const entries: readonly { readonly id: string }[] = library[key];
  const old = new Map(before[key].map((entry) => [entry.id, entry]));
  const changed = new Map(after[key].filter((entry) => old.get(entry.id) !== entry).map((entry) => [entry.id, entry]));
  if (!entries.some((entry) => changed.has(entry.id))) return library;
  return { ...library, [key]: entries.map((entry) => changed.get(entry.id) ?? entry) };
}
