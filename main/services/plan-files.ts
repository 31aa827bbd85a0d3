import { open, stat } from 'node:fs/promises';
import { basename, dirname, extname, join, resolve } from 'node:path';
import { DEFAULT_TEXT_LIMITS } from '../../shared/model/parse-json-text';
import type { Plan } from '../../shared/model/plan';
import { getContentStamp } from './content-stamp';
import { ExpectedProblem } from './expected-problem';
import { buildFileProblem, getErrorCode, getShortName } from './file-problem';
import type { KeptVersions } from './kept-versions';
import type { LockNote, LockNotes } from './lock-notes';
import { createPathQueue } from './path-queue';
import { buildPlanContent, getIsFromNewer, openPlanContent } from './plan-text';
import { readFileLimited } from './read-file-limited';
import { ReplaceRefused, removeLeftovers, writeFileSafely } from './write-file-safely';

export interface PlanOnDisk {
  plan: Plan;
  path: string;
  /** Stamp of the content that was read. */
  stamp: string;
  readOnly: boolean;
  /** A newer program wrote it, and not all of it could be read. */
  fromNewer: boolean;
  /** Sentences to show once. */
  remarks: string[];
}

export interface SaveOptions {
  /** Stamp of the content that the plan came from; `null` when it came from none, and then no file may be there. */
  stamp: string | null;
  /** Write over whatever is there, as the user said when asked. */
  overwrite: boolean;
}

/** Opens and saves plans. Whatever fails, the file on disk is as it was and the sentence says so. */
export interface PlanFiles {
  /** @throws ExpectedProblem when the file is not there, too large, or no plan */
  open(path: string): Promise<PlanOnDisk>;
  /**
   * @returns the new stamp
   * @throws ExpectedProblem `file-changed` when what is there is not what was opened; when someone else has it open,
   *   `file-in-use`; `file-exists` when something is there and nothing was opened; `file-newer` when a newer program
   *   wrote it, which is never written over; `saved-beside` when only a copy could be written
   */
  save(path: string, plan: Plan, options: SaveOptions): Promise<string>;
  /** Says that the file is no longer being worked on. */
  leave(path: string): Promise<void>;
}

export interface PlanFileParts {
  versions: KeptVersions;
  locks: LockNotes;
  now: () => Date;
  write?: typeof writeFileSafely;
}

export function createPlanFiles({ versions, locks, now, write = writeFileSafely }: PlanFileParts): PlanFiles {
  const queue = createPathQueue();
  return {
    async open(path) {
      const content = await readFileLimited(path);
      const { plan, remarks, fromNewer } = openPlanContent(content.toString('utf8'), getShortName(path));
      const lock = await locks.leave(path);
      void removeLeftovers(path, now);
      const mayWrite = (await findWriteRefusal(path)) === null;
      return {
        plan,
        path,
        stamp: getContentStamp(content),
        readOnly: fromNewer || !mayWrite,
        fromNewer,
        remarks: [
          ...remarks,
          ...(lock === null ? [] : [`${describeLock(lock)}; you will be asked before its file is written over.`]),
          ...(mayWrite
            ? []
            : [`${getShortName(path)} can only be read, so a change has to be saved under another name.`]),
        ],
      };
    },
    save(path, plan, options) {
      return queue.run(resolve(path), async () => {
        const content = buildPlanContent(plan);
        if (content.length > DEFAULT_TEXT_LIMITS.maxCharacters) {
          throw new ExpectedProblem(
            'plan-too-large',
            'The plan is larger than a plan file that can be read again.',
            path,
          );
        }
        const stamp = getContentStamp(content);
        const before = await readBefore(path, options.overwrite);
        if (before !== null) checkNotNewer(path, before);
        if (!options.overwrite) await checkUntouched(path, before, options.stamp, locks);
        if (before !== null && getContentStamp(before) === stamp) return stamp;
        // A version that cannot be kept is no reason to keep the work from being saved.
        if (before !== null && before.length > 0) await versions.keep(resolve(path), before).catch(() => undefined);
        await writeOrCopy(path, content, write);
        await locks.leave(path);
        return stamp;
      });
    },
    leave: (path) => locks.take(path),
  };
}

function describeLock({ who, machine, since }: LockNote): string {
  const whom = who === '' ? 'Someone' : who;
  return `${whom} has this plan open on ${machine} since ${since.slice(0, 16).replace('T', ' ')} UTC`;
}

/** What the system answers where this user may not write, which no waiting changes. */
const REFUSALS: ReadonlySet<string> = new Set(['EACCES', 'EPERM', 'EROFS']);

/** Why a file may not be written, as the system says it; null when it may. Renaming over it would not ask. */
async function findWriteRefusal(path: string): Promise<unknown> {
  try {
    const file = await open(path, 'r+');
    await file.close();
    return null;
  } catch (error) {
    return REFUSALS.has(getErrorCode(error)) ? error : null;
  }
}

/** What is in the place of the file; `null` when nothing is. Told to write over it, it need not be readable. */
async function readBefore(path: string, overwrite: boolean): Promise<Buffer | null> {
  try {
    const there = await stat(path);
    if (there.isDirectory())
      throw buildFileProblem(Object.assign(new Error(), { code: 'EISDIR' }), failure(path), path);
    const refusal = await findWriteRefusal(path);
    if (refusal !== null) throw buildFileProblem(refusal, failure(path), path);
  } catch (error) {
    if (getErrorCode(error) === 'ENOENT') return null;
    throw buildFileProblem(error, failure(path), path);
  }
  try {
    return await readFileLimited(path);
  } catch (error) {
    if (overwrite) return null;
    throw buildFileProblem(error, failure(path), path);
  }
}

const failure = (path: string): string => `${getShortName(path)} was not saved`;

/** Saved from here it would lose what only the newer program knows, whatever the user was asked. */
function checkNotNewer(path: string, before: Buffer): void {
  if (!getIsFromNewer(before)) return;
  throw new ExpectedProblem(
    'file-newer',
    `${getShortName(path)} was written by a newer Kerfgrip and is not written over: save under another name.`,
    path,
  );
}

async function checkUntouched(
  path: string,
  before: Buffer | null,
  stamp: string | null,
  locks: LockNotes,
): Promise<void> {
  const name = getShortName(path);
  if (before === null) return;
  if (stamp === null) throw new ExpectedProblem('file-exists', `There is a file ${name} already.`, path);
  if (getContentStamp(before) !== stamp) {
    throw new ExpectedProblem('file-changed', `${name} was changed on disk since it was opened here.`, path);
  }
  const other = await locks.findOther(path);
  if (other !== null) throw new ExpectedProblem('file-in-use', `${describeLock(other)}.`, path);
}

async function writeOrCopy(path: string, content: Buffer, write: typeof writeFileSafely): Promise<void> {
  try {
    await write(path, content);
  } catch (error) {
    if (!(error instanceof ReplaceRefused)) throw buildFileProblem(error, failure(path), path);
    const copy = await writeCopyBeside(path, content, write);
    throw new ExpectedProblem(
      'saved-beside',
      `${getShortName(path)} is held by another program, so it is as it was; your work was saved beside it as ${basename(copy)}.`,
      path,
      error,
    );
  }
}

async function writeCopyBeside(path: string, content: Buffer, write: typeof writeFileSafely): Promise<string> {
  const ending = extname(path);
  const stem = basename(path, ending).slice(0, 80);
  for (let number = 1; ; number += 1) {
    const copy = join(dirname(path), `${stem} (copy ${number})${ending}`);
    const isThere = await stat(copy).then(
      () => true,
      () => false,
    );
    if (isThere && number < 1000) continue;
    await write(copy, content).catch((error) => {
      throw buildFileProblem(error, failure(path), path);
    });
    return copy;
  }
}
