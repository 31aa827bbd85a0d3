import type { z } from 'zod';
import { getFieldWords } from './field-words';
import type { ParseProblem } from './problem';

type Issue = z.core.$ZodIssue;

const LONGEST_QUOTE = 40;

/**
 * The first thing wrong with a value, as a sentence that names the field in words.
 *
 * @param issues what zod found; at least one
 * @param value the value that was looked at, to quote what stands there
 * @example "Part 2, length: must be more than 0, not -3."
 */
export function describeIssues(issues: readonly Issue[], value: unknown): ParseProblem {
  const flat = issues.flatMap(openUnion);
  const first = flat[0];
  if (first === undefined) return { code: 'bad-field', sentence: 'The file cannot be read.', where: '' };
  const words = getFieldWords(first.path);
  const rest = flat.length - 1;
  const more = rest === 0 ? '' : ` (${rest} more ${rest === 1 ? 'field is' : 'fields are'} wrong too.)`;
  const subject = words === '' ? 'The file' : `${words}:`;
  const sentence = `${subject} ${getComplaint(first, getAt(value, first.path))}.${more}`;
  return { code: 'bad-field', sentence, where: first.path.map(String).join('.') };
}

/** A union fails once for each member; the member that got deepest is what the writer meant. */
function openUnion(issue: Issue): Issue[] {
  if (issue.code !== 'invalid_union' || issue.errors.length === 0) return [issue];
  const byDepth = issue.errors.toSorted((a, b) => getDepth(b) - getDepth(a));
  const meant = byDepth[0] ?? [];
  return meant.flatMap((inner) => openUnion({ ...inner, path: [...issue.path, ...inner.path] }));
}

function getDepth(issues: readonly Issue[]): number {
  return Math.max(0, ...issues.map((issue) => issue.path.length));
}

function getAt(value: unknown, path: readonly PropertyKey[]): unknown {
  let at = value;
  for (const key of path) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, key)) return undefined;
    at = (at as Record<PropertyKey, unknown>)[key];
  }
  return at;
}

function getComplaint(issue: Issue, found: unknown): string {
  if (found === undefined) return 'is missing';
  switch (issue.code) {
    case 'too_small':
      return getTooSmall(issue, found);
    case 'too_big':
      return getTooBig(issue, found);
    case 'invalid_type':
      return `must be ${getTypeWords(issue.expected)}, not ${quote(found)}`;
    case 'invalid_value':
      return `must be ${issue.values.map(String).join(', ')}${issue.values.length > 1 ? ' (one of these)' : ''}, not ${quote(found)}`;
    default:
      return `cannot be ${quote(found)}`;
  }
}

function getTooSmall(issue: Extract<Issue, { code: 'too_small' }>, found: unknown): string {
  if (issue.origin === 'string') return 'must not be empty';
  const bound = issue.inclusive ? `${issue.minimum} or more` : `more than ${issue.minimum}`;
  return `must be ${bound}, not ${quote(found)}`;
}

function getTooBig(issue: Extract<Issue, { code: 'too_big' }>, found: unknown): string {
  if (issue.origin === 'string') return `must be at most ${issue.maximum} characters long`;
  if (issue.origin === 'array') return `must hold at most ${issue.maximum} entries`;
  return `must be at most ${issue.maximum}, not ${quote(found)}`;
}

const TYPE_WORDS: Readonly<Record<string, string>> = {
  number: 'a number',
  int: 'a whole number',
  string: 'text',
  boolean: 'true or false',
  array: 'a list',
  object: 'a group of fields',
  null: 'empty',
};

function getTypeWords(expected: string): string {
  return TYPE_WORDS[expected] ?? expected;
}

function quote(found: unknown): string {
  if (typeof found === 'string') return `"${shorten(found)}"`;
  if (Array.isArray(found)) return 'a list';
  if (typeof found === 'object' && found !== null) return 'a group of fields';
  return found === null ? 'empty' : String(found);
}

function shorten(text: string): string {
  const characters = [...text.slice(0, 2 * LONGEST_QUOTE)];
  return characters.length > LONGEST_QUOTE ? `${characters.slice(0, LONGEST_QUOTE).join('')}…` : text;
}
