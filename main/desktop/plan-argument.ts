import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

/**
 * The plan that a command line asks to open.
 *
 * @param argv the whole command line, the program first
 * @param folder the folder that relative paths start from
 * @param appPath the program's own folder, which stands in the command line of one that is not packaged
 * @returns an absolute path, or `undefined` when none is named
 */
export function findPlanArgument(argv: readonly string[], folder: string, appPath: string): string | undefined {
  return argv
    .slice(1)
    .filter((word) => word !== '' && !word.startsWith('-'))
    .flatMap((word) => getPath(word, folder) ?? [])
    .filter((path) => path !== resolve(appPath))
    .at(-1);
}

/** File managers on Linux name files by paths or by addresses, as the desktop entry asks (%F, %U). */
function getPath(word: string, folder: string): string | undefined {
  if (!word.startsWith('file:')) return resolve(folder, word);
  try {
    return fileURLToPath(word);
  } catch {
    return undefined;
  }
}
