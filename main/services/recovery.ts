import { mkdir, readdir, rename, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { hostname } from 'node:os';
import { basename, join } from 'node:path';
import { z } from 'zod';
import type { JournalEntry } from '../../shared/contract/host';
import type { Plan } from '../../shared/model/plan';
import { describePlanChanges } from '../../shared/model/plan-changes';
import { serializePlan, serializeShop } from '../../shared/model/serialize';
import type { Shop } from '../../shared/model/shop';
import { buildFileProblem } from './file-problem';
import { getIsRunning } from './lock-notes';
import { createPathQueue } from './path-queue';
import { parsePlanContent } from './plan-text';
import { readFileLimited } from './read-file-limited';
import { parseShopContent } from './shop-text';
import { writeFileSafely } from './write-file-safely';

const ENDING = '.journal.json';
const ALIVE_ENDING = '.alive';
const BEAT_EVERY_MS = 30_000;
/** A session that gave no sign for this long has ended, whatever now runs under its process id, ms. */
const GONE_AFTER_MS = 3 * BEAT_EVERY_MS;

const journalSchema = z.object({
  format: z.literal('kerfgrip-recovery'),
  machine: z.string(),
  processId: z.number().int(),
  savedAt: z.string(),
  fileName: z.string(),
  /** Where the plan's file is; null for a plan that has none. Journals of the first versions do not say. */
  path: z.string().nullable().default(null),
  /** Stamp of what was in that file when the work on it began. */
  stamp: z.string().nullable().default(null),
  plan: z.unknown(),
  /** The shop library where what is on file is another. */
  shop: z.unknown().default(null),
});

type Journal = z.infer<typeof journalSchema>;

/** A journal that holds what is not on file. */
interface ReadJournal {
  id: string;
  journal: Journal;
  plan: Plan;
  /** The plan as its file has it now; null where there is none to be read. */
  onFile: Plan | null;
  /** Null where it is on file as it is. */
  shop: Shop | null;
}

/** The file that the work in a journal belongs to. */
export interface JournalFile {
  path: string;
  /** Stamp of what was in it when the work began; null where a journal of a first version does not say. */
  stamp: string | null;
}

/** Work that is not on file. */
export interface UnsavedWork {
  plan: Plan;
  /** Null for a plan that was never saved. */
  file: JournalFile | null;
  /** The shop library; null where it is on file as it is. */
  shop: Shop | null;
}

/** Keeps the work of a session that is not on file yet, from the first change on. */
export interface Recovery {
  write(work: UnsavedWork): Promise<void>;
  /** Counts what this session has kept as left by an earlier one: its page was loaded anew and has lost it. */
  setAside(): Promise<void>;
  /** What sessions left that have ended without saving, latest first; what is on file by now is not among it. */
  listLeft(): Promise<JournalEntry[]>;
  /** One entry of that list; null when there is none of that id. */
  findLeft(id: string): Promise<UnsavedWork | null>;
  /** Drops what this session has kept. */
  discardOwn(): Promise<void>;
  /** Drops what earlier sessions left, by their ids; an id that is not in the list is passed over. */
  discardLeft(ids: readonly string[]): Promise<void>;
  /** Ends the session; what it kept stays. */
  close(): Promise<void>;
}

export interface RecoveryParts {
  folder: string;
  /** Id of this session: letters, digits and dashes. */
  session: string;
  now: () => Date;
  /** The shop library on file; null where there is none to be read. */
  readShop: () => Promise<Shop | null>;
}

export function createRecovery({ folder, session, now, readShop }: RecoveryParts): Recovery {
  const ownFile = join(folder, `${session}${ENDING}`);
  const aliveFile = join(folder, `${session}${ALIVE_ENDING}`);
  let beat: NodeJS.Timeout | undefined;
  /** What is asked for first is done first: a write must not come after the discard that was meant for it. */
  const queue = createPathQueue();
  const inTurn = <T>(task: () => Promise<T>): Promise<T> => queue.run(ownFile, task);

  const startBeat = async (): Promise<void> => {
    if (beat !== undefined) return;
    beat = setInterval(() => void utimes(aliveFile, now(), now()).catch(() => undefined), BEAT_EVERY_MS);
    beat.unref();
    await writeFile(aliveFile, '');
  };

  const drop = async (id: string): Promise<void> => {
    await rm(join(folder, `${id}${ENDING}`), { force: true });
    await rm(join(folder, `${id}${ALIVE_ENDING}`), { force: true });
  };

  /** What a session left that is not on file; what is on file by now is dropped. */
  const readLeft = async (id: string): Promise<ReadJournal | null> => {
    try {
      const content = await readFileLimited(join(folder, `${id}${ENDING}`));
      const journal = journalSchema.parse(JSON.parse(content.toString('utf8')));
      if (await getIsAlive(folder, id, journal, now)) return null;
      const { plan } = parsePlanContent(JSON.stringify(journal.plan), 'The recovered plan');
      const onFile = await readOnFile(journal.path);
      const shop = getUnlike(parseLeftShop(journal.shop), await readShop());
      if (shop !== null || onFile === null || !getIsSame(onFile, plan)) return { id, journal, plan, onFile, shop };
      await drop(id);
      return null;
    } catch {
      // Not taken away either: a later version may be able to read it.
      return null;
    }
  };

  const listIds = async (): Promise<string[]> => {
    const names = await readdir(folder).catch(() => []);
    return names.filter((name) => name.endsWith(ENDING)).map((name) => name.slice(0, -ENDING.length));
  };

  const listReadable = async (): Promise<ReadJournal[]> => {
    const ids = (await listIds()).filter((id) => id !== session);
    const found = await Promise.all(ids.map(readLeft));
    const left = found.filter((one) => one !== null);
    return left.sort((a, b) => b.journal.savedAt.localeCompare(a.journal.savedAt));
  };

  return {
    async listLeft() {
      return (await listReadable()).map(({ id, journal, plan, onFile, shop }) => ({
        id,
        plan,
        fileName: journal.fileName,
        savedAt: journal.savedAt,
        differs: [...describePlanChanges(onFile, plan), ...(shop === null ? [] : ['the shop library'])],
      }));
    },
    async findLeft(id) {
      const found = (await listReadable()).find((one) => one.id === id);
      if (found === undefined) return null;
      const { plan, shop, journal } = found;
      const { path, stamp } = journal;
      return { plan, shop, file: path === null ? null : { path, stamp } };
    },
    write: ({ plan, file, shop }) =>
      inTurn(async () => {
        try {
          await mkdir(folder, { recursive: true });
          await startBeat();
          const journal = {
            format: 'kerfgrip-recovery',
            machine: hostname(),
            processId: process.pid,
            savedAt: now().toISOString(),
            fileName: file === null ? '' : basename(file.path),
            path: file?.path ?? null,
            stamp: file?.stamp ?? null,
            plan,
            shop,
          } satisfies Journal;
          await writeFileSafely(ownFile, JSON.stringify(journal));
        } catch (error) {
          throw buildFileProblem(error, 'The recovery journal could not be written', folder);
        }
      }),
    setAside: () =>
      inTurn(async () => {
        const id = `${session}-${now().getTime()}`;
        await rename(ownFile, join(folder, `${id}${ENDING}`)).catch(() => undefined);
      }),
    discardOwn: () =>
      inTurn(async () => {
        await rm(ownFile, { force: true }).catch((error) => {
          throw buildFileProblem(error, 'The recovery journal could not be removed', ownFile);
        });
      }),
    async discardLeft(ids) {
      const left = new Set((await listReadable()).map(({ id }) => id));
      await Promise.all(ids.filter((id) => left.has(id)).map(drop));
    },
    async close() {
      clearInterval(beat);
      await rm(aliveFile, { force: true }).catch(() => undefined);
    },
  };
}

/** True when nothing is in the journal that is not on file, the copies of the shop included. */
function getIsSame(onFile: Plan, plan: Plan): boolean {
  return serializePlan(onFile) === serializePlan(plan);
}

/** A shop that cannot be read is no reason to lose the plan beside it. */
function parseLeftShop(shop: unknown): Shop | null {
  try {
    return shop === null ? null : parseShopContent(JSON.stringify(shop), 'The recovered shop').shop;
  } catch {
    return null;
  }
}

/** The shop that was left; null when the same is on file. */
function getUnlike(left: Shop | null, onFile: Shop | null): Shop | null {
  return left !== null && onFile !== null && serializeShop(left) === serializeShop(onFile) ? null : left;
}

/** The plan as its file has it now; null where there is none to be read. */
async function readOnFile(path: string | null): Promise<Plan | null> {
  if (path === null) return null;
  try {
    return parsePlanContent((await readFileLimited(path)).toString('utf8'), 'The file').plan;
  } catch {
    return null;
  }
}

async function getIsAlive(
  folder: string,
  id: string,
  { machine, processId }: Journal,
  now: () => Date,
): Promise<boolean> {
  // Process ids come round again, so the sign of life has to be fresh as well.
  const sign = await stat(join(folder, `${id}${ALIVE_ENDING}`)).catch(() => undefined);
  if (sign === undefined || now().getTime() - sign.mtimeMs > GONE_AFTER_MS) return false;
  return machine !== hostname() || getIsRunning(processId);
}
