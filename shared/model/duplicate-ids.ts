import { getFieldWords } from './field-words';
import type { Plan } from './plan';
import type { ParseProblem } from './problem';
import type { Shop } from './shop';

interface IdList {
  path: readonly PropertyKey[];
  entries: readonly { readonly id: string }[];
}

/** A problem for the first id that two entries of one list share; undefined when every id is its own. */
function findDuplicate(lists: readonly IdList[]): ParseProblem | undefined {
  for (const { path, entries } of lists) {
    const firstIndexById = new Map<string, number>();
    for (const [index, { id }] of entries.entries()) {
      const first = firstIndexById.get(id);
      if (first !== undefined) return describeDuplicate([...path, first], [...path, index], id);
      firstIndexById.set(id, index);
    }
  }
  return undefined;
}

function describeDuplicate(first: readonly PropertyKey[], second: readonly PropertyKey[], id: string): ParseProblem {
  const sentence = `${getFieldWords(second)}: has the same id, "${id}", as ${getFieldWords(first).toLowerCase()}.`;
  return { code: 'duplicate-id', sentence, where: [...second, 'id'].map(String).join('.') };
}

const LIBRARY_LISTS = [
  'materials',
  'sizeClasses',
  'bars',
  'vises',
  'jawSets',
  'parallels',
  'tools',
  'holders',
  'saws',
] as const;

function getLibraryLists(library: Pick<Shop, (typeof LIBRARY_LISTS)[number]>, path: readonly PropertyKey[]): IdList[] {
  return [
    ...LIBRARY_LISTS.map((key) => ({ path: [...path, key], entries: library[key] })),
    ...library.bars.map((bar, index) => ({ path: [...path, 'bars', index, 'lengths'], entries: bar.lengths })),
  ];
}

/** The first id used twice in a plan; undefined when there is none. */
export function findDuplicateInPlan(plan: Plan): ParseProblem | undefined {
  const templates = plan.layout === 'auto' ? [] : plan.layout.pinned;
  return findDuplicate([
    { path: ['parts'], entries: plan.parts },
    ...plan.parts.map((part, index) => ({ path: ['parts', index, 'holes'], entries: part.holes })),
    { path: ['layout', 'pinned'], entries: templates },
    ...templates.map((template, index) => ({ path: ['layout', 'pinned', index, 'slots'], entries: template.slots })),
    { path: ['cuts'], entries: plan.cuts },
    ...getLibraryLists(plan.library, ['library']),
  ]);
}

/** The first id used twice in a shop; undefined when there is none. */
export function findDuplicateInShop(shop: Shop): ParseProblem | undefined {
  return findDuplicate([
    ...getLibraryLists(shop, []),
    { path: ['rack'], entries: shop.rack },
    { path: ['bowMeasurements'], entries: shop.bowMeasurements },
  ]);
}
