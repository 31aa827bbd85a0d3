import { access, readdir } from 'node:fs/promises';
import { dirname, extname, join } from 'node:path';
import type { ReadKind } from '../../shared/contract/host';
import { buildFileProblem, getShortName } from './file-problem';

/** The ending of plan files. */
export const PLAN_ENDING = '.kgplan';

/** The ending of shop libraries that are handed on. */
export const SHOP_ENDING = '.kgshop';

/** Endings of the files that each kind of reading lists. */
export const READ_ENDINGS: Readonly<Record<ReadKind, readonly string[]>> = {
  drawing: ['.dxf', '.svg'],
  list: ['.csv', '.tsv', '.txt'],
  shop: [SHOP_ENDING, '.json'],
};

/** Stands above the drives of a Windows machine. */
export const DRIVES = '';

export interface ListedEntry {
  name: string;
  kind: 'folder' | 'plan' | 'file';
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
 * @param show other files to list instead of plans
 * @throws ExpectedProblem when the folder cannot be read
 */
export async function listFolder(path: string, show?: ReadKind): Promise<ListedFolder> {
  if (path === DRIVES) return { path, parent: null, entries: await listDrives() };
  const endings = show === undefined ? [PLAN_ENDING] : READ_ENDINGS[show];
  const kind = show === undefined ? 'plan' : 'file';
  try {
    const found = await readdir(path, { withFileTypes: true });
    const entries = found.flatMap((entry): ListedEntry[] => {
      if (entry.name.startsWith('.')) return [];
      const full = join(path, entry.name);
      const isListed = endings.includes(extname(entry.name).toLowerCase());
      if (entry.isDirectory()) return [{ name: entry.name, kind: 'folder', path: full }];
      // A link may lead to either; its name tells which it is meant to be.
      if (entry.isSymbolicLink()) return [{ name: entry.name, kind: isListed ? kind : 'folder', path: full }];
      return entry.isFile() && isListed ? [{ name: entry.name, kind, path: full }] : [];
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
