import { getChangedFields } from './changed-fields';
import type { Shop } from './shop';

/** The lists of a shop that can be taken over from another. House rules, machine and name stay the shop's own. */
export const MERGE_LISTS = [
  'materials',
  'sizeClasses',
  'bars',
  'rack',
  'vises',
  'jawSets',
  'parallels',
  'tools',
  'holders',
  'saws',
] as const satisfies readonly (keyof Shop)[];

export type MergeList = (typeof MERGE_LISTS)[number];

/** One entry of another shop, held against the user's own. */
export interface MergeLine {
  list: MergeList;
  id: string;
  name: string;
  /** `new`: the own shop has no entry of this id. `changed`: it has, with other figures. */
  kind: 'new' | 'changed' | 'same';
  /** Names of the fields that differ; empty unless changed. */
  fields: string[];
}

/** Every entry of the other shop, in the order of its lists. */
export function compareShops(own: Shop, other: Shop): MergeLine[] {
  return MERGE_LISTS.flatMap((list) => {
    const ownById = new Map(getEntries(own, list).map((entry) => [entry.id, entry]));
    return getEntries(other, list).map((entry): MergeLine => {
      const before = ownById.get(entry.id);
      const fields = before === undefined ? [] : getChangedFields(before, entry);
      const kind = before === undefined ? 'new' : fields.length > 0 ? 'changed' : 'same';
      return { list, id: entry.id, name: getEntryName(entry), kind, fields };
    });
  });
}

/**
 * The own shop with chosen entries of another. New entries come last in their list; changed ones take the place of the old.
 * Nothing is taken away. What the chosen entries refer to (a bar's material and size class) comes along where it is missing.
 *
 * @param lines those of `compareShops` to take
 */
export function mergeShops(own: Shop, other: Shop, lines: readonly Pick<MergeLine, 'list' | 'id'>[]): Shop {
  const chosen = new Set([...lines, ...getReferences(own, other, lines)].map(({ list, id }) => `${list} ${id}`));
  const lists = MERGE_LISTS.map((list) => {
    const taken = new Map(
      getEntries(other, list)
        .filter(({ id }) => chosen.has(`${list} ${id}`))
        .map((entry) => [entry.id, entry]),
    );
    const kept = getEntries(own, list).map((entry) => taken.get(entry.id) ?? entry);
    const ownIds = new Set(kept.map(({ id }) => id));
    return [list, [...kept, ...[...taken.values()].filter(({ id }) => !ownIds.has(id))]];
  });
  return { ...own, ...(Object.fromEntries(lists) as Pick<Shop, MergeList>) };
}

interface Entry {
  id: string;
}

function getEntries(shop: Shop, list: MergeList): readonly Entry[] {
  return shop[list];
}

function getEntryName(entry: Entry): string {
  return 'name' in entry && typeof entry.name === 'string' && entry.name !== '' ? entry.name : entry.id;
}

function getReferences(own: Shop, other: Shop, lines: readonly Pick<MergeLine, 'list' | 'id'>[]) {
  const ids = (list: MergeList): Set<string> => new Set(lines.filter((line) => line.list === list).map(({ id }) => id));
  const [bars, rack] = [ids('bars'), ids('rack')];
  const users = [...other.bars.filter(({ id }) => bars.has(id)), ...other.rack.filter(({ id }) => rack.has(id))];
  const isMissing = (list: 'materials' | 'sizeClasses', id: string): boolean =>
    !own[list].some((entry) => entry.id === id);
  return users.flatMap(({ materialId, sizeClassId }) => [
    ...(isMissing('materials', materialId) ? [{ list: 'materials' as const, id: materialId }] : []),
    ...(isMissing('sizeClasses', sizeClassId) ? [{ list: 'sizeClasses' as const, id: sizeClassId }] : []),
  ]);
}
