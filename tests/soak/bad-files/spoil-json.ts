import fc from 'fast-check';

export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

/** One change to a file: which of its places, and what becomes of it. */
export interface Change {
  place: number;
  what:
    | { kind: 'value'; value: Json }
    | { kind: 'scale'; by: number }
    | { kind: 'remove' }
    | { kind: 'double' }
    | { kind: 'empty' }
    | { kind: 'pin' }
    | { kind: 'copy'; from: number };
}

/** Sizes at and past every limit, and what sums and quotients trip over. */
const ODD_NUMBERS = [
  ...[0, -0, 1, -1, 2, 3, 0.5, 1e-9, 1e-300, 5e-324, 0.1 + 0.2, 1 / 3],
  ...[99_999.999_999, 100_000, 100_000.1, 1e6, 1e9, 1e12, 2 ** 53, 1e300, 1.7976931348623157e308],
];

/** Text that some reader on the way might take for more than text. */
export const ODD_TEXTS = [
  '',
  '<img src=x onerror=alert(1)>',
  '</text><script>alert(1)</script>',
  '"><svg onload=alert(1)>',
  '=HYPERLINK("http://example.org")',
  '__proto__',
  'constructor',
  'toString',
  '&amp;&lt;\u0000\u0001\uFFFE',
  '\uD800',
  'ä\u0301\u202Eabc',
  '水車 — ¾" ⌀',
  'w'.repeat(1900),
];

const numberArb = fc.oneof(fc.constantFrom(...ODD_NUMBERS), fc.double({ noNaN: true, noDefaultInfinity: true }));

const valueArb: fc.Arbitrary<Json> = fc.oneof(
  { weight: 5, arbitrary: numberArb },
  { weight: 3, arbitrary: fc.constantFrom(...ODD_TEXTS) },
  {
    weight: 2,
    arbitrary: fc.constantFrom<Json>(null, true, false, 'auto', [], {}, { pinned: 0 }, { pinned: null }, [[]]),
  },
  { weight: 1, arbitrary: fc.jsonValue({ maxDepth: 3 }) as fc.Arbitrary<Json> },
);

const changeArb: fc.Arbitrary<Change> = fc.record({
  place: fc.nat(),
  what: fc.oneof(
    { weight: 3, arbitrary: fc.record({ kind: fc.constant('value' as const), value: valueArb }) },
    {
      weight: 4,
      arbitrary: fc.record({
        kind: fc.constant('scale' as const),
        by: fc.constantFrom(0, 1e-6, 0.01, 0.3, 0.5, 0.9, 1.1, 2, 3, 10, 100, -1),
      }),
    },
    { weight: 1, arbitrary: fc.constant({ kind: 'remove' as const }) },
    { weight: 1, arbitrary: fc.constant({ kind: 'double' as const }) },
    { weight: 1, arbitrary: fc.constant({ kind: 'empty' as const }) },
    { weight: 2, arbitrary: fc.constant({ kind: 'pin' as const }) },
    { weight: 2, arbitrary: fc.record({ kind: fc.constant('copy' as const), from: fc.nat() }) },
  ),
});

/** Sets of changes for one file each, the same for the same seed. */
export function drawChanges(count: number, seed: number): Change[][] {
  return fc.sample(fc.array(changeArb, { minLength: 1, maxLength: 4 }), { numRuns: count, seed });
}

interface Place {
  holder: Json[] | { [key: string]: Json };
  key: string;
}

function listPlaces(value: Json, places: Place[] = []): Place[] {
  if (typeof value !== 'object' || value === null) return places;
  for (const key of Object.keys(value)) {
    places.push({ holder: value, key });
    listPlaces((value as Record<string, Json>)[key] ?? null, places);
  }
  return places;
}

/** A copy of a file's value with these changes made to it, one after the other. */
export function spoil(value: Json, changes: readonly Change[]): Json {
  const copy = structuredClone(value);
  for (const change of changes) {
    const places = listPlaces(copy);
    const place = places[change.place % Math.max(1, places.length)];
    if (place !== undefined) apply(place, change.what, places);
  }
  return copy;
}

function apply({ holder, key }: Place, what: Change['what'], places: readonly Place[]): void {
  const record = holder as Record<string, Json>;
  const before = record[key] ?? null;
  const put = (next: Json): void => {
    // `=` on the key __proto__ would set the prototype and no field.
    Object.defineProperty(record, key, { value: next, enumerable: true, writable: true, configurable: true });
  };
  switch (what.kind) {
    case 'value':
      put(what.value);
      break;
    case 'scale':
      if (typeof before === 'number') put(before * what.by);
      else if (typeof before === 'boolean') put(!before);
      break;
    case 'remove':
      if (Array.isArray(holder)) holder.splice(Number(key), 1);
      else delete record[key];
      break;
    case 'double':
      if (Array.isArray(holder)) holder.push(structuredClone(before));
      else if (Array.isArray(before)) before.push(...structuredClone(before));
      break;
    case 'empty':
      put(Array.isArray(before) ? [] : typeof before === 'string' ? '' : typeof before === 'number' ? 0 : before);
      break;
    case 'pin':
      if (before === 'auto') put({ pinned: 0.01 * places.length });
      else if (typeof before === 'object' && before !== null && 'pinned' in before) put('auto');
      break;
    case 'copy': {
      const from = places[what.from % places.length];
      if (from !== undefined) put(structuredClone((from.holder as Record<string, Json>)[from.key] ?? null));
      break;
    }
    default:
      what satisfies never;
  }
}

/** Bytes with a few of them overwritten, cut out, doubled, or cut short. */
export function flipBytes(bytes: Uint8Array, chance: () => number): Buffer {
  let content = Buffer.from(bytes);
  const pick = (below: number): number => Math.floor(chance() * below);
  for (let changes = 1 + pick(4); changes > 0; changes -= 1) {
    const at = pick(content.length);
    const end = Math.min(content.length, at + 1 + pick(40));
    switch (pick(8)) {
      case 0:
        content = Buffer.concat([content.subarray(0, at), content.subarray(end)]);
        break;
      case 1:
        content = Buffer.concat([content.subarray(0, end), content.subarray(at)]);
        break;
      case 2:
        if (chance() < 0.2) content = content.subarray(0, at);
        break;
      case 3:
        content[at] = pick(256);
        break;
      default: {
        // A digit for a digit leaves a file that can be read, with another size in it.
        const digit = content.findIndex((byte, index) => index >= at && byte >= 0x30 && byte <= 0x39);
        if (digit >= 0) content[digit] = 0x30 + pick(10);
      }
    }
  }
  return content;
}

/** A small generator of chance (mulberry32), so that a run can be repeated by its seed. */
export function createChance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}
