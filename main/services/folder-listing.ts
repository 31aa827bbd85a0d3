import { access, readdir } from 'node:fs/promises';
import { dirname, extname, join } from 'node:path';
import { buildFileProblem, getShortName } from './file-problem';

/** The ending of plan files. */
export const PLAN_ENDING = '.kgplan';

/** Stands above the drives of a Windows machine. */
export const DRIVES = '';

export interface ListedEntry {
  name: string;
  kind: 'folder' | 'plan';
  path: string;
}

export interface ListedFolder {
  path: string;
  parent: string | null;
  entries: ListedEntry[];
}

/**
 * The folders and plans in a folder, each by name, folders first; hidden ones are left out.
 *
 * @throws ExpectedProblem when the folder cannot be read
 */
export async function listFolder(path: string): Promise<ListedFolder> {
  if (path === DRIVES) return { path, parent: null, entries: await listDrives() };
  try {
    const found = await readdir(path, { withFileTypes: true });
    const entries = found.flatMap((entry): ListedEntry[] => {
      if (entry.name.startsWith('.')) return [];
      const full = join(path, entry.name);
      const isPlan = extname(entry.name).toLowerCase() === PLAN_ENDING;
      if (entry.isDirectory()) return [{ name: entry.name, kind: 'folder', path: full }];
      // A link may lead to either; its name tells which it is meant to be.
      if (entry.isSymbolicLink()) return [{ name: entry.name, kind: isPlan ? 'plan' : 'folder', path: full }];
      return entry.isFile() && isPlan ? [{ name: entry.name, kind: 'plan', path: full }] : [];
    });
    return { path, parent: getParent(path), entries: entries.sort(compareEntries) };
  } catch (error) {
    throw buildFileProblem(error, `The folder ${getShortName(path)} could not be read`, path);
  }
}

function getParent(path: string): string | null {
  const parent = dirname(path);
  if (parent !== path) return parent;
  return process.platform === 'win32' ? DRIVES : null;
}

const byName = new Intl.Collator(undefined, { numeric: true, sensitivity: 'base' });

function compareEntries(a: ListedEntry, b: ListedEntry): number {
  if (a.kind !== b.kind) return a.kind === 'folder' ? -1 : 1;
  return byName.compare(a.name, b.name);
}

async function listDrives(): Promise<ListedEntry[]> {
  const letters = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];
  const drives = await Promise.all(
    letters.map(async (letter): Promise<ListedEntry[]> => {
      const path = `${letter}:\\`;
      const isThere = await access(path).then(
        () => true,
        () => false,
      );
      return isThere ? [{ name: `${letter}:`, kind: 'folder', path }] : [];
    }),
  );
  return drives.flat();
}
