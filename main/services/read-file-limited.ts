import { open, stat } from 'node:fs/promises';
import { ExpectedProblem } from './expected-problem';
import { buildFileProblem, getShortName } from './file-problem';

/** Largest plan or shop file that is read, bytes. */
export const LARGEST_FILE_BYTES = 50_000_000;

function refuseLarge(path: string, mostBytes: number): never {
  throw new ExpectedProblem(
    'file-too-large',
    `${getShortName(path)} is larger than ${Math.round(mostBytes / 1e6)} MB, so it cannot be a plan or shop file of this program.`,
    path,
  );
}

/**
 * Reads a whole file, of which no more than `mostBytes` are ever held.
 *
 * @throws ExpectedProblem with one sentence that names the file, when it is missing, too large, or no ordinary file
 */
export async function readFileLimited(path: string, mostBytes: number = LARGEST_FILE_BYTES): Promise<Buffer> {
  try {
    // Asked before opening: to open a pipe would wait for its writer.
    const before = await stat(path);
    if (!before.isFile()) {
      const what = before.isDirectory() ? 'is a folder and not a file' : 'is not an ordinary file';
      throw new ExpectedProblem('not-a-file', `${getShortName(path)} ${what}.`, path);
    }
    if (before.size > mostBytes) refuseLarge(path, mostBytes);
    return await readUpTo(path, mostBytes);
  } catch (error) {
    throw buildFileProblem(error, `${getShortName(path)} could not be read`, path);
  }
}

/** A file can grow while it is read, so its size does not bound what comes. */
async function readUpTo(path: string, mostBytes: number): Promise<Buffer> {
  const file = await open(path, 'r');
  try {
    const pieces: Buffer[] = [];
    let total = 0;
    for await (const piece of file.createReadStream({ autoClose: false, highWaterMark: 1 << 20 })) {
      total += (piece as Buffer).length;
      if (total > mostBytes) refuseLarge(path, mostBytes);
      pieces.push(piece as Buffer);
    }
    return Buffer.concat(pieces);
  } finally {
    await file.close();
  }
}
