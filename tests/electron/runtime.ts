import { existsSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';
import {
  findElectron,
  getElectronProgramPath,
  getIsTooOld,
  readElectronVersion,
} from '../../main/start/electron-binary';
import { ROOT } from '../run/run-program';

/** An Electron to test in. */
export interface Runtime {
  program: string;
  folder: string;
  version: string;
  /** Too old for the program as it is built for users, so it gets the build for old runtimes. */
  isOld: boolean;
}

/** Where `fetch-runtime.ts` puts the runtime that a package registry carries: outside the project. */
export const FETCHED_FOLDER = join(
  process.env.XDG_CACHE_HOME ?? join(homedir(), '.cache'),
  'kerfgrip',
  'electron-9.4.1',
);

/**
 * Finds an Electron: the folder that ELECTRON_OVERRIDE_DIST_PATH names, the `electron` package's own, or the one that
 * was fetched for the tests.
 */
export function findRuntime(): Runtime | undefined {
  const fetched = join(FETCHED_FOLDER, getElectronProgramPath(process.platform));
  const program = findElectron() ?? (existsSync(fetched) ? fetched : undefined);
  if (program === undefined) return undefined;
  const folder = dirname(program);
  const version = readElectronVersion(folder);
  return version === undefined ? undefined : { program, folder, version, isOld: getIsTooOld(version) };
}

/** The built program's folder that suits a runtime. */
export function getAppFolder({ isOld }: Runtime): string {
  return isOld ? join(ROOT, 'build/old-runtime') : ROOT;
}

/** What builds the program as users get it, as words for Vite. */
export const USER_BUILD: readonly string[] = ['build', '--app', '--logLevel', 'warn'];

/** What builds the program for a runtime, as words for Vite. */
export function getBuildWords({ isOld }: Runtime): readonly string[] {
  if (!isOld) return USER_BUILD;
  return ['build', '--app', '--logLevel', 'error', '--config', 'tests/electron/old-runtime/vite.config.ts'];
}
