import { getChangedFields } from './changed-fields';
import { getPinned } from './choice';
import { keepByPair } from './memo';
import type { Plan, PlanLibrary } from './plan';
import type { BarOffer, ParallelPair, Shop, Tool } from './shop';

type LibraryKey = keyof PlanLibrary;
type LibraryEntry = PlanLibrary[LibraryKey][number];

/** The lists a plan carries copies of. */
export const LIBRARY_KEYS = [
  'materials',
  'sizeClasses',
  'bars',
  'vises',
  'jawSets',
  'parallels',
  'tools',
  'holders',
  'saws',
] as const satisfies readonly LibraryKey[];

/**
 * The plan's copies, with the shop's other entries behind them.
 *
 * Where plan and shop have an entry of the same id the plan's wins, so that a plan opens with the figures it was made with.
 * Machine, rack, bow measurements and house rules are always the shop's own. The order is the shop's; entries only the plan has
 * come last.
 */
export function resolveShop(plan: Plan, shop: Shop): Shop {
  return merge(plan.library, shop);
}

// Asked for on every edit, of which few touch the library.
const merge = keepByPair((library: PlanLibrary, shop: Shop): Shop => {
  const lists = LIBRARY_KEYS.map((key) => [key, mergeById(shop[key], library[key])]);
  return { ...shop, ...(Object.fromEntries(lists) as PlanLibrary) };
});

function mergeById(own: readonly { id: string }[], copies: readonly { id: string }[]): { id: string }[] {
  const copyById = new Map(copies.map((copy) => [copy.id, copy]));
  const ownIds = new Set(own.map(({ id }) => id));
  return [...own.map((entry) => copyById.get(entry.id) ?? entry), ...copies.filter(({ id }) => !ownIds.has(id))];
}

/**
 * Copies of the entries a plan uses: those it names, and where a decision is left to the engine those it may choose from (bars
 * of the material, parallels, cut-off cutters). Taken from the plan's present copies first, then from the shop.
 */
export function collectLibrary(plan: Plan, shop: Shop): PlanLibrary {
  const known = resolveShop(plan, shop);
  const bars = known.bars.filter(getBarTest(plan));
  const toolIds = new Set(plan.cuts.map((cut) => cut.toolId));
  const holderIds = new Set(plan.cuts.map((cut) => cut.holderId));
  const materialIds = new Set([plan.stock.materialId, ...bars.map((bar) => bar.materialId)]);
  const sizeClassIds = new Set(bars.map((bar) => bar.sizeClassId));
  return {
    materials: known.materials.filter(({ id }) => materialIds.has(id)),
    sizeClasses: known.sizeClasses.filter(({ id }) => sizeClassIds.has(id)),
    bars,
    vises: known.vises.filter(({ id }) => id === plan.holding.viseId),
    jawSets: known.jawSets.filter(({ id }) => id === plan.holding.jawSetId),
    parallels: known.parallels.filter(getParallelTest(plan)),
    tools: known.tools.filter((tool) => toolIds.has(tool.id) || isPossibleCutter(plan, tool)),
    holders: known.holders.filter(({ id }) => holderIds.has(id)),
    saws: known.saws.filter(({ id }) => id === plan.order.sawId),
  };
}

function getBarTest(plan: Plan): (bar: BarOffer) => boolean {
  const pinned = getPinned(plan.stock.barId);
  return (bar) => bar.materialId === plan.stock.materialId || bar.id === pinned;
}

function getParallelTest(plan: Plan): (pair: ParallelPair) => boolean {
  const seat = getPinned(plan.holding.seat);
  if (seat === undefined) return () => true;
  return (pair) => seat.kind === 'parallels' && seat.parallelId === pair.id;
}

function isPossibleCutter(plan: Plan, tool: Tool): boolean {
  const pinned = getPinned(plan.release.cutterId);
  if (pinned !== undefined) return tool.id === pinned;
  return tool.kind === 'keySeat' || tool.kind === 'slittingSaw';
}

export interface LibraryDifference {
  list: LibraryKey;
  id: string;
  name: string;
  /** `changed`: the shop's entry has other figures. `missing`: the shop has no such entry. */
  kind: 'changed' | 'missing';
  /** Names of the fields that differ; empty for a missing entry. */
  fields: string[];
}

/** Where the plan's copies differ from the shop at hand, in the order of the lists. */
export function getLibraryDifferences(plan: Plan, shop: Shop): LibraryDifference[] {
  return LIBRARY_KEYS.flatMap((list) => {
    const copies: readonly LibraryEntry[] = plan.library[list];
    const ownById = new Map<string, LibraryEntry>(shop[list].map((entry) => [entry.id, entry]));
    return copies.flatMap((copy) => compareEntry(list, copy, ownById.get(copy.id)));
  });
}

function compareEntry(list: LibraryKey, copy: LibraryEntry, own: LibraryEntry | undefined): LibraryDifference[] {
  const name = 'name' in copy ? copy.name : copy.id;
  if (own === undefined) return [{ list, id: copy.id, name, kind: 'missing', fields: [] }];
  const fields = getChangedFields(copy, own);
  return fields.length === 0 ? [] : [{ list, id: copy.id, name, kind: 'changed', fields }];
}

/** The plan with its copies taken from the shop anew: what the user asks for when the shop's figures are the better ones. */
export function refreshLibrary(plan: Plan, shop: Shop): Plan {
  const isInShop = (list: LibraryKey, id: string): boolean => shop[list].some((entry) => entry.id === id);
  const orphans = Object.fromEntries(
    LIBRARY_KEYS.map((list) => [list, plan.library[list].filter(({ id }) => !isInShop(list, id))]),
  ) as unknown as PlanLibrary;
  return { ...plan, library: collectLibrary({ ...plan, library: orphans }, shop) };
}
