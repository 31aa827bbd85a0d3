import { basename, dirname } from 'node:path';
import { buildFileProblem, getShortName } from './file-problem';
import type { HostSession } from './host-session';
import { checkMayWrite, type SavePlace } from './save-place';
import { writeFileSafely } from './write-file-safely';

/**
 * Writes a file that the program makes, and remembers its folder.
 *
 * @param place where, or null when the user thought better of it
 * @param build makes the content, once it is known that it may be written
 * @throws ExpectedProblem `file-exists` when a file is there that may not be replaced, or one that says why it failed
 */
export async function writeExport(
  session: HostSession,
  place: SavePlace | null,
  build: () => Promise<Uint8Array | string>,
): Promise<{ name: string; folder: string } | null> {
  if (place === null) return null;
  const name = basename(place.path);
  await checkMayWrite(place, name);
  const content = await build();
  try {
    await writeFileSafely(place.path, content);
  } catch (error) {
    throw buildFileProblem(error, `${getShortName(name)} was not written`, place.path);
  }
  const folder = dirname(place.path);
  session.lastFolder = folder;
  return { name, folder };
}
