import { createHash } from 'node:crypto';
import { mkdir, readdir, rm } from 'node:fs/promises';
import { basename, extname, join } from 'node:path';
import { writeFileSafely } from './write-file-safely';

/** How many earlier versions of a plan are kept. */
const KEPT_COUNT = 3;

/** Keeps what a file held before it is written over, so that a wrong save can be taken back by hand. */
export interface KeptVersions {
  /** The folder that holds the versions of a file. */
  getFolder(path: string): string;
  /** Keeps `content` as the version of the file at `path` that is about to be replaced; drops the oldest beyond three. */
  keep(path: string, content: Uint8Array): Promise<void>;
}

/**
 * @param folder where versions of all files go, one folder for each file
 * @param now the clock
 */
export function createKeptVersions(folder: string, now: () => Date): KeptVersions {
  const getFolder = (path: string): string => {
    // Plans of one name in different folders must not push out each other's versions.
    const mark = createHash('sha256').update(path).digest('hex').slice(0, 8);
    return join(folder, `${basename(path, extname(path)).slice(0, 60)} ${mark}`);
  };
  return {
    getFolder,
    async keep(path, content) {
      const own = getFolder(path);
      const ending = extname(path);
      await mkdir(own, { recursive: true });
      const stem = now().toISOString().slice(0, 23).replace('T', ' ').replaceAll(':', '.');
      await writeFileSafely(join(own, `${stem}${ending}`), content);
      const names = (await readdir(own)).filter((name) => name.endsWith(ending) && /^\d{4}-/.test(name)).sort();
      for (const name of names.slice(0, -KEPT_COUNT)) await rm(join(own, name), { force: true });
    },
  };
}
