import { mkdir } from 'node:fs/promises';
import { dirname } from 'node:path';
import { z } from 'zod';
import { readFileLimited } from './read-file-limited';
import { writeFileSafely } from './write-file-safely';

const MOST_RECENTS = 12;
const LARGEST_LIST_BYTES = 200_000;

const recentsSchema = z.object({
  format: z.literal('kerfgrip-recents'),
  files: z.array(z.object({ path: z.string().min(1), openedAt: z.string() })),
});

export interface Recent {
  path: string;
  /** ISO time. */
  openedAt: string;
}

/** The plans opened or saved last, latest first. It is a convenience: where it cannot be read or kept, it is empty. */
export interface Recents {
  list(): Promise<Recent[]>;
  add(path: string): Promise<void>;
}

/**
 * @param file where the list is kept
 * @param now the clock
 */
export function createRecents(file: string, now: () => Date): Recents {
  const list = async (): Promise<Recent[]> => {
    try {
      const content = await readFileLimited(file, LARGEST_LIST_BYTES);
      return recentsSchema.parse(JSON.parse(content.toString('utf8'))).files.slice(0, MOST_RECENTS);
    } catch {
      return [];
    }
  };
  let last = Promise.resolve();
  const add = async (path: string): Promise<void> => {
    const others = (await list()).filter((recent) => recent.path !== path);
    const files = [{ path, openedAt: now().toISOString() }, ...others].slice(0, MOST_RECENTS);
    await mkdir(dirname(file), { recursive: true });
    await writeFileSafely(file, `${JSON.stringify({ format: 'kerfgrip-recents', files }, null, 2)}\n`);
  };
  return {
    list,
    add(path) {
      // One after the other, or two plans opened at once would each write a list without the other.
      last = last.then(() => add(path)).catch(() => undefined);
      return last;
    },
  };
}
