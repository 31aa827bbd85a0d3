import { getChangedFields } from './changed-fields';
import { getFieldWords } from './field-words';
import type { Part, Plan } from './plan';

/** Most phrases a summary has; the rest is counted. */
const MOST_PHRASES = 6;
const MOST_NAMES = 3;
const LONGEST_NAME = 40;

/** What says nothing of the job: the version, and the copies of the shop that follow the choices. */
const PASSED_OVER: ReadonlySet<string> = new Set(['format', 'version', 'parts', 'library']);

/** Groups of fields that are told one by one. */
const GROUPS = [
  'stock',
  'allowance',
  'laterOperation',
  'cleanup',
  'holding',
  'release',
  'order',
  'zero',
  'marking',
  'sheet',
] as const;

/**
 * What differs between two states of a plan, for a person who has to choose between them.
 *
 * @param before the plan on file; null where there is none, and then what is in the other is told
 * @param after the plan that was not saved
 * @returns a phrase each, six at most; empty when both are the same
 * @example ['the name was “Hoist arms”', '1 part added: Pawl', 'stock, way up', 'cuts']
 */
export function describePlanChanges(before: Plan | null, after: Plan): string[] {
  if (before === null) return [describeContent(after)];
  const phrases = [
    ...(before.name === after.name ? [] : [`the name was ${quoteName(before.name)}`]),
    ...describeParts(before.parts, after.parts),
    ...listFields(before, after),
  ];
  const rest = phrases.length - MOST_PHRASES;
  if (rest <= 0) return phrases;
  const shown = phrases.slice(0, MOST_PHRASES - 1);
  return [...shown, `${rest + 1} more changes`];
}

function describeContent({ parts, cuts }: Plan): string {
  const named = parts.length === 0 ? '' : `: ${listNames(parts)}`;
  return `${count(parts.length, 'part')}${named}; ${count(cuts.length, 'cut')}`;
}

function describeParts(before: readonly Part[], after: readonly Part[]): string[] {
  const old = new Map(before.map((part) => [part.id, part]));
  const kept = new Set(after.map(({ id }) => id));
  const added = after.filter(({ id }) => !old.has(id));
  const removed = before.filter(({ id }) => !kept.has(id));
  const changed = after.filter((part) => {
    const was = old.get(part.id);
    return was !== undefined && getChangedFields(was, part).length > 0;
  });
  const groups = [
    { parts: added, word: 'added' },
    { parts: changed, word: 'changed' },
    { parts: removed, word: 'removed' },
  ];
  return groups
    .filter(({ parts }) => parts.length > 0)
    .map(({ parts, word }) => `${count(parts.length, 'part')} ${word}: ${listNames(parts)}`);
}

function listFields(before: Plan, after: Plan): string[] {
  const groups: ReadonlySet<string> = new Set(GROUPS);
  return getChangedFields(before, after)
    .filter((key) => !PASSED_OVER.has(key) && key !== 'name')
    .flatMap((key) => (groups.has(key) ? listGroup(before, after, key as (typeof GROUPS)[number]) : [[key]]))
    .map((path) => getFieldWords(path).toLowerCase());
}

function listGroup(before: Plan, after: Plan, key: (typeof GROUPS)[number]): string[][] {
  return getChangedFields(before[key], after[key]).map((field) => [key, field]);
}

function listNames(parts: readonly Part[]): string {
  const named = parts.slice(0, MOST_NAMES).map(({ name }) => (name === '' ? 'unnamed' : shorten(name)));
  const rest = parts.length - named.length;
  return `${named.join(', ')}${rest > 0 ? ` and ${rest} more` : ''}`;
}

function quoteName(name: string): string {
  return name === '' ? 'empty' : `“${shorten(name)}”`;
}

function shorten(name: string): string {
  const characters = [...name];
  return characters.length > LONGEST_NAME ? `${characters.slice(0, LONGEST_NAME).join('')}…` : name;
}

function count(number: number, word: string): string {
  return `${number} ${word}${number === 1 ? '' : 's'}`;
}
