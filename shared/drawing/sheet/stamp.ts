import type { Plan } from '../../model/plan';

const OFFSET = 0xcbf29ce484222325n;
const PRIME = 0x100000001b3n;
const MASK = 0xffffffffffffffffn;

/**
 * A short stamp of everything a plan says of the job: two sheets with the same stamp were printed from the same plan, on
 * whichever paper and to whichever scale.
 * FNV-1a, 64 bit (Fowler, Noll, Vo), over the plan as JSON with sorted keys; it guards against mix-ups, not forgery.
 *
 * @returns 16 hexadecimal digits in fours, such as `3F2A-91C7-00AB-D2E4`
 */
export function getPlanStamp({ sheet: _, ...job }: Plan): string {
  let hash = OFFSET;
  for (const character of getSortedJson(job)) {
    hash = ((hash ^ BigInt(character.codePointAt(0) ?? 0)) * PRIME) & MASK;
  }
  const digits = hash.toString(16).toUpperCase().padStart(16, '0');
  return digits.match(/.{4}/gu)?.join('-') ?? digits;
}

function getSortedJson(value: unknown): string {
  if (Array.isArray(value)) {
    return `[${value.map(getSortedJson).join(',')}]`;
  }
  if (typeof value === 'object' && value !== null) {
    const entries = Object.entries(value).toSorted(([a], [b]) => (a < b ? -1 : 1));
    return `{${entries.map(([key, inner]) => `${JSON.stringify(key)}:${getSortedJson(inner)}`).join(',')}}`;
  }
  return JSON.stringify(value) ?? 'null';
}
