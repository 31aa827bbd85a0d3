// Own code and no package: the usual one for this does not look at how many bytes were written, so a disk that fills
// up in the middle leaves a cut-off file in place of the good one, without an error. It has no retry and does not
// sync the folder either.
import { randomBytes } from 'node:crypto';
import type { Stats } from 'node:fs';
import { type FileHandle, open, readdir, realpath, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { getErrorCode } from './file-problem';
import { createPathQueue } from './path-queue';

/** Refusals that pass: a virus scanner, an indexer or a sync program has the file open for a moment. */
const PASSING_REFUSALS: ReadonlySet<string> = new Set(['EACCES', 'EBUSY', 'EPERM', 'EEXIST', 'ETXTBSY']);

/** Waits before each further try of a rename, ms: about two seconds in all. */
const RETRY_WAITS_MS = [20, 50, 100, 200, 400, 600, 700] as const;

/** The file system, as far as replacing a file goes; tests put in one that refuses. */
export interface ReplaceTools {
  rename: (from: string, to: string) => Promise<void>;
  wait: (ms: number) => Promise<void>;
}

const SYSTEM_TOOLS: ReplaceTools = {
  rename,
  wait: (ms) => new Promise((resolve) => setTimeout(resolve, ms)),
};

const queueByPath = createPathQueue();
/** The same file may be reached by several paths through links. */
const queueByFile = createPathQueue();

/** Thrown when all is written beside the file but the system does not let it take the file's place. */
export class ReplaceRefused extends Error {
  constructor(path: string, cause: unknown) {
    super(`${path} could not be replaced`, { cause });
    this.name = 'ReplaceRefused';
  }
}

/**
 * Writes a file so that at every moment, power cuts included, either the old or the new content is there whole: a
 * new file beside it, synced, then renamed over it, then the folder synced. Writes to one path wait for each other.
 * A link is followed and its target replaced; the mode of an existing file is kept.
 *
 * @throws the system's error, the old file untouched; `ReplaceRefused` when only the rename failed
 */
export async function writeFileSafely(
  path: string,
  content: string | Uint8Array,
  tools: ReplaceTools = SYSTEM_TOOLS,
): Promise<void> {
  await queueByPath.run(resolve(path), async () => {
    const target = await realpath(path).catch(() => resolve(path));
    await queueByFile.run(target, () => replaceFile(target, content, tools));
  });
}

async function replaceFile(target: string, content: string | Uint8Array, tools: ReplaceTools): Promise<void> {
  const before = await stat(target).catch(() => undefined);
  const temporary = join(dirname(target), getTemporaryName(target));
  try {
    await writeNew(temporary, content, before);
    await renameWithRetry(temporary, target, tools);
  } catch (error) {
    await rm(temporary, { force: true }).catch(() => undefined);
    throw error;
  }
  await syncFolder(dirname(target));
}

/** A write that was killed leaves its unfinished file; nobody else can still be at one this old, ms. */
const LEFTOVER_AGE_MS = 24 * 3_600_000;

/** Takes away unfinished files that killed writes to this path have left beside it. */
export async function removeLeftovers(path: string, now: () => Date): Promise<void> {
  const target = await realpath(path).catch(() => resolve(path));
  const start = `.${basename(target).slice(0, 24)}.`;
  const names = await readdir(dirname(target)).catch(() => []);
  for (const name of names) {
    if (!name.startsWith(start) || !/^[0-9a-f]{12}\.tmp$/.test(name.slice(start.length))) continue;
    const leftover = join(dirname(target), name);
    const age = await stat(leftover).then(
      ({ mtimeMs }) => now().getTime() - mtimeMs,
      () => 0,
    );
    if (age > LEFTOVER_AGE_MS) await rm(leftover, { force: true }).catch(() => undefined);
  }
}

/** Hidden, and short whatever the target's name, so that a name at the system's limit can still be saved. */
function getTemporaryName(target: string): string {
  return `.${basename(target).slice(0, 24)}.${randomBytes(6).toString('hex')}.tmp`;
}

async function writeNew(path: string, content: string | Uint8Array, before: Stats | undefined): Promise<void> {
  const mode = before === undefined ? 0o666 : before.mode & 0o777;
  // `wx` never writes through a link or into a file that someone else put there.
  const file = await open(path, 'wx', mode);
  try {
    await file.writeFile(content);
    if (before !== undefined) await keepOwnerAndMode(file, before);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** As far as the system lets us: only the owner's own group and root's files can be given away. */
async function keepOwnerAndMode(file: FileHandle, before: Stats): Promise<void> {
  const now = await file.stat();
  if (now.uid !== before.uid || now.gid !== before.gid) await file.chown(before.uid, before.gid).catch(() => undefined);
  await file.chmod(before.mode & 0o777).catch(() => undefined);
}

async function renameWithRetry(from: string, to: string, tools: ReplaceTools): Promise<void> {
  for (let attempt = 0; ; attempt += 1) {
    try {
      await tools.rename(from, to);
      return;
    } catch (error) {
      const waitMs = RETRY_WAITS_MS[attempt];
      const passes = PASSING_REFUSALS.has(getErrorCode(error));
      if (!passes) throw error;
      if (waitMs === undefined) throw new ReplaceRefused(to, error);
      await tools.wait(waitMs);
    }
  }
}

/** Without it a power cut can undo the rename. Not every system can open a folder for this, and then it is not needed. */
async function syncFolder(folder: string): Promise<void> {
  try {
    const handle = await open(folder, 'r');
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  } catch {
    // Windows.
  }
}
