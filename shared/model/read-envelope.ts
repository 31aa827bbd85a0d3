import type { FileKind, Migration } from './migrations';
import { FILE_KINDS, runMigrations } from './migrations';
import type { ParseProblem } from './problem';

type Envelope = { ok: true; data: Record<string, unknown>; remarks: string[] } | { ok: false; problem: ParseProblem };

/**
 * Checks that a value is a file of ours and of a version that can be read, and brings an older one up to date.
 *
 * @param migrations the file kind's own, unless a test brings others
 */
export function readEnvelope(
  value: unknown,
  kind: FileKind,
  migrations: readonly Migration[] = FILE_KINDS[kind].migrations,
  present: number = FILE_KINDS[kind].version,
): Envelope {
  const { format, words } = FILE_KINDS[kind];
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return fail(kind, value);
  const data = value as Record<string, unknown>;
  if (getOwn(data, 'format') !== format) return fail(kind, value);
  const version = getOwn(data, 'version');
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
    const sentence = `Version: the ${words} does not say which file version it is.`;
    return { ok: false, problem: { code: 'bad-field', sentence, where: 'version' } };
  }
  if (version > present) {
    const sentence = `This ${words} was written by a newer Kerfgrip: it is file version ${version}, and this one reads up to version ${present}.`;
    return { ok: false, problem: { code: 'newer-version', sentence, where: 'version' } };
  }
  const remarks =
    version < present
      ? [`Brought up from file version ${version} to ${present}; an older Kerfgrip cannot read it once it is saved.`]
      : [];
  return { ok: true, data: runMigrations(data, version, migrations), remarks };
}

function getOwn(data: Record<string, unknown>, key: string): unknown {
  return Object.hasOwn(data, key) ? data[key] : undefined;
}

function fail(kind: FileKind, value: unknown): Envelope {
  const other = Object.values(FILE_KINDS).find(
    ({ format }) => typeof value === 'object' && value !== null && 'format' in value && value.format === format,
  );
  const found = other === undefined ? '' : `: it is a ${other.words}`;
  const sentence = `The file is not a ${FILE_KINDS[kind].words}${found}.`;
  return { ok: false, problem: { code: 'wrong-kind', sentence, where: '' } };
}
