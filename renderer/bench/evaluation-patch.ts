/**
 * What changed from one value to the next, small enough to send often. Evaluations of a large plan are megabytes of which
 * a drag changes little; to copy them whole from the worker would hold up the page on every answer.
 */
export type Patch = SamePatch | WholePatch | ObjectPatch | ListPatch;

interface SamePatch {
  readonly kind: 'same';
}

interface WholePatch {
  readonly kind: 'whole';
  readonly value: unknown;
}

interface ObjectPatch {
  readonly kind: 'object';
  readonly changed: readonly (readonly [key: string, patch: Patch])[];
  readonly removed: readonly string[];
}

interface ListPatch {
  readonly kind: 'list';
  readonly length: number;
  /** Only those that are not what stood at the same place before. */
  readonly changed: readonly { readonly at: number; readonly from: number; readonly patch: Patch }[];
}

type PlainObject = Readonly<Record<string, unknown>>;

const SAME: SamePatch = { kind: 'same' };

/**
 * @param before plain data, as JSON would hold it, with keys that are names
 * @returns what `applyPatch` makes `after` of again, given `before`
 */
export function computePatch(before: unknown, after: unknown): Patch {
  if (Object.is(before, after)) return SAME;
  if (Array.isArray(before) && Array.isArray(after)) return computeListPatch(before, after);
  if (isObject(before) && isObject(after)) return computeObjectPatch(before, after);
  return { kind: 'whole', value: after };
}

function computeObjectPatch(before: PlainObject, after: PlainObject): Patch {
  const changed = Object.keys(after).flatMap((key): [string, Patch][] => {
    const patch = Object.hasOwn(before, key) ? computePatch(before[key], after[key]) : whole(after[key]);
    return patch === SAME ? [] : [[key, patch]];
  });
  const removed = Object.keys(before).filter((key) => !Object.hasOwn(after, key));
  return changed.length === 0 && removed.length === 0 ? SAME : { kind: 'object', changed, removed };
}

function computeListPatch(before: readonly unknown[], after: readonly unknown[]): Patch {
  const places = getPlaces(before);
  const changed: { at: number; from: number; patch: Patch }[] = [];
  for (const [at, value] of after.entries()) {
    const key = getKey(value);
    const from = (key === null ? undefined : places.get(key)) ?? at;
    const patch = from < before.length ? computePatch(before[from], value) : whole(value);
    if (patch !== SAME || from !== at) changed.push({ at, from, patch });
  }
  return changed.length === 0 && before.length === after.length
    ? SAME
    : { kind: 'list', length: after.length, changed };
}

/** Findings come and go, and those after them move up: they are known by their keys, not by their places. */
function getPlaces(list: readonly unknown[]): ReadonlyMap<string, number> {
  const places = new Map<string, number>();
  for (const [index, value] of list.entries()) {
    const key = getKey(value);
    if (key !== null) places.set(key, index);
  }
  return places;
}

function getKey(value: unknown): string | null {
  return isObject(value) && typeof value.key === 'string' ? value.key : null;
}

function whole(value: unknown): WholePatch {
  return { kind: 'whole', value };
}

/** What has not changed is the very object it was, so that what shows it need not be drawn again. */
export function applyPatch(before: unknown, patch: Patch): unknown {
  switch (patch.kind) {
    case 'same':
      return before;
    case 'whole':
      return patch.value;
    case 'object': {
      const next: Record<string, unknown> = { ...(before as PlainObject) };
      for (const key of patch.removed) delete next[key];
      for (const [key, one] of patch.changed) next[key] = applyPatch(next[key], one);
      return next;
    }
    case 'list': {
      const list = before as readonly unknown[];
      const next = list.slice(0, patch.length);
      for (const { at, from, patch: one } of patch.changed) next[at] = applyPatch(list[from], one);
      return next;
    }
    default:
      return patch satisfies never;
  }
}

function isObject(value: unknown): value is PlainObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
