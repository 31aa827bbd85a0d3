import { resolve } from 'node:path';

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
    .map((word) => resolve(folder, word))
    .filter((path) => path !== resolve(appPath))
    .at(-1);
}
