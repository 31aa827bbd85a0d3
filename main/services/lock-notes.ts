import { open, readFile, rm, stat, utimes } from 'node:fs/promises';
import { hostname } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { z } from 'zod';

/** A note of another machine that was not renewed for this long is stale, ms. */
const STALE_AFTER_MS = 15 * 60_000;
const RENEW_EVERY_MS = 60_000;
const LARGEST_NOTE_BYTES = 4096;

const noteSchema = z.object({
  who: z.string().max(200),
  machine: z.string().max(300),
  processId: z.number().int(),
  session: z.string().max(100),
  since: z.string().max(40),
});

export type LockNote = z.infer<typeof noteSchema>;

/** Notes beside open plans that say who has them open, for the others who come to them. */
export interface LockNotes {
  /** Leaves a note beside the file unless someone else's is there. @returns that other note, or `null` */
  leave(path: string): Promise<LockNote | null>;
  /** Someone else's note that is not stale, or `null`. */
  findOther(path: string): Promise<LockNote | null>;
  /** Takes our own note away. */
  take(path: string): Promise<void>;
  takeAll(): Promise<void>;
}

export function getLockPath(path: string): string {
  return join(dirname(path), `.${basename(path).slice(0, 200)}.open`);
}

/** Whether a process of that id runs on this machine. */
export function getIsRunning(processId: number): boolean {
  try {
    process.kill(processId, 0);
    return true;
  } catch (error) {
    // Not ours to signal, so it runs.
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

/**
 * @param session id of this run of the program
 * @param who the user's name
 * @param now the clock
 */
export function createLockNotes(session: string, who: string, now: () => Date): LockNotes {
  const held = new Set<string>();
  const renewal = setInterval(() => {
    for (const path of held) void utimes(getLockPath(path), now(), now()).catch(() => undefined);
  }, RENEW_EVERY_MS);
  renewal.unref();

  const findOther = async (path: string): Promise<LockNote | null> => {
    const note = await readNote(path);
    return note === null || note.session === session || (await getIsStale(path, note, now)) ? null : note;
  };

  const take = async (path: string): Promise<void> => {
    if (!held.delete(path)) return;
    const note = await readNote(path);
    if (note?.session === session) await rm(getLockPath(path), { force: true }).catch(() => undefined);
  };

  return {
    findOther,
    take,
    async leave(path) {
      const other = await findOther(path);
      if (other !== null) return other;
      const note: LockNote = {
        who,
        machine: hostname(),
        processId: process.pid,
        session,
        since: now().toISOString(),
      };
      if (await writeNote(path, note)) held.add(path);
      return null;
    },
    async takeAll() {
      clearInterval(renewal);
      await Promise.all([...held].map(take));
    },
  };
}

async function readNote(path: string): Promise<LockNote | null> {
  try {
    const lockPath = getLockPath(path);
    const { size } = await stat(lockPath);
    if (size > LARGEST_NOTE_BYTES) return null;
    return noteSchema.parse(JSON.parse(await readFile(lockPath, 'utf8')));
  } catch {
    return null;
  }
}

async function getIsStale(path: string, note: LockNote, now: () => Date): Promise<boolean> {
  // A process has one session, so another's note with our own process id is left from an earlier process.
  if (note.machine === hostname() && (note.processId === process.pid || !getIsRunning(note.processId))) return true;
  const written = await stat(getLockPath(path)).catch(() => undefined);
  return written === undefined || now().getTime() - written.mtimeMs > STALE_AFTER_MS;
}

/** A note is a courtesy: where none can be left, as in a folder that can only be read, work goes on without. */
async function writeNote(path: string, note: LockNote): Promise<boolean> {
  try {
    await rm(getLockPath(path), { force: true });
    const file = await open(getLockPath(path), 'wx');
    try {
      await file.writeFile(JSON.stringify(note));
    } finally {
      await file.close();
    }
    return true;
  } catch {
    return false;
  }
}
