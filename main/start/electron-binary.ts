import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { runToEnd } from './child-process';

/** The first Electron that has all that the program asks of it; the last of it to come was `protocol.handle`. */
const FIRST_ELECTRON = 25;

/** Longest wait for the first byte of the download, ms. */
const FIRST_BYTE_WAIT_MS = 10_000;
/** A download that has begun is given up when nothing came for this long, ms. */
const STALL_WAIT_MS = 60_000;

export interface FetchProgress {
  transferred: number;
  total: number | null;
}

/** Downloads the archive into the cache; rejects when `signal` aborts. */
export type FetchArchive = (signal: AbortSignal, onProgress: (progress: FetchProgress) => void) => Promise<unknown>;

const require = createRequire(import.meta.url);

function getPackageFolder(): string {
  return dirname(require.resolve('electron/package.json'));
}

/** Path of the program inside Electron's unpacked archive. */
export function getElectronProgramPath(platform: NodeJS.Platform): string {
  if (platform === 'darwin') return 'Electron.app/Contents/MacOS/Electron';
  return platform === 'win32' ? 'electron.exe' : 'electron';
}

function readText(path: string): string | undefined {
  try {
    return readFileSync(path, 'utf8').trim();
  } catch {
    return undefined;
  }
}

/** Version of an unpacked Electron, such as "45.4.1"; `undefined` where its folder does not say. */
export function readElectronVersion(folder: string): string | undefined {
  return readText(join(folder, 'version'))?.replace(/^v/, '');
}

/** Whether an Electron cannot run the program as it is built for users. */
export function getIsTooOld(version: string): boolean {
  return Number.parseInt(version, 10) < FIRST_ELECTRON;
}

/**
 * Finds Electron's own binary without fetching anything.
 *
 * @param packageFolder folder of the installed `electron` package
 * @param platform as `process.platform`
 * @param env as `process.env`; ELECTRON_OVERRIDE_DIST_PATH names an unpacked Electron that is used instead
 * @returns the path of the program, or `undefined` where it is missing or of another version than the package
 */
export function findElectron(
  packageFolder: string = getPackageFolder(),
  platform: NodeJS.Platform = process.platform,
  env: Readonly<Record<string, string | undefined>> = process.env,
): string | undefined {
  const override = env.ELECTRON_OVERRIDE_DIST_PATH;
  const folder = override ?? join(packageFolder, 'dist');
  const program = join(folder, getElectronProgramPath(platform));
  if (!existsSync(program)) return undefined;
  if (override !== undefined) return program;
  const { version } = JSON.parse(readFileSync(join(packageFolder, 'package.json'), 'utf8')) as { version: string };
  return readElectronVersion(folder) === version ? program : undefined;
}

/**
 * Runs a download that is given up when no byte comes in time, or when it stalls.
 *
 * @param fetchArchive the download
 * @param onProgress called with each piece that arrives
 * @param waits longest silence before the first byte and after it, ms
 * @returns `undefined` once all is there, or the reason why it was given up
 */
export async function runGuardedFetch(
  fetchArchive: FetchArchive,
  onProgress: (progress: FetchProgress) => void,
  waits: { firstByteMs: number; stallMs: number } = { firstByteMs: FIRST_BYTE_WAIT_MS, stallMs: STALL_WAIT_MS },
): Promise<string | undefined> {
  const abort = new AbortController();
  let timer: NodeJS.Timeout | undefined;
  const wait = (ms: number, reason: string): void => {
    clearTimeout(timer);
    timer = setTimeout(() => abort.abort(new Error(reason)), ms);
  };
  const givenUp = new Promise<never>((_, reject) => {
    abort.signal.addEventListener('abort', () => reject(abort.signal.reason), { once: true });
  });
  wait(waits.firstByteMs, `the download did not answer within ${waits.firstByteMs / 1000} s`);
  try {
    const fetching = fetchArchive(abort.signal, (progress) => {
      wait(waits.stallMs, `the download stopped for ${waits.stallMs / 1000} s`);
      onProgress(progress);
    });
    await Promise.race([fetching, givenUp]);
    return undefined;
  } catch (error) {
    return error instanceof Error
      ? error.cause instanceof Error
        ? error.cause.message
        : error.message
      : String(error);
  } finally {
    clearTimeout(timer);
  }
}

const fetchElectronArchive: FetchArchive = async (signal, onProgress) => {
  const { downloadArtifact } = await import('@electron/get');
  const { version } = require('electron/package.json') as { version: string };
  return downloadArtifact({
    version,
    artifactName: 'electron',
    platform: process.platform,
    arch: process.arch,
    checksums: require('electron/checksums.json') as Record<string, string>,
    downloadOptions: {
      quiet: true,
      signal,
      getProgressCallback: async (progress: FetchProgress) => onProgress(progress),
    },
  });
};

/** The line that tells how far a download is. */
export function getProgressText({ transferred, total }: FetchProgress): string {
  const megabytes = (bytes: number): string => (bytes / 1e6).toFixed(0);
  if (total === null || total <= 0) return `Fetching Electron: ${megabytes(transferred)} MB`;
  const percent = Math.floor((100 * transferred) / total);
  return `Fetching Electron: ${megabytes(transferred)} of ${megabytes(total)} MB, ${percent} %`;
}

function showProgress(): (progress: FetchProgress) => void {
  let shown = '';
  return (progress) => {
    const text = getProgressText(progress);
    if (text === shown) return;
    shown = text;
    if (process.stdout.isTTY) process.stdout.write(`\r${text}`);
    else if (text.endsWith('0 %')) console.log(text);
  };
}

/**
 * Fetches Electron's binary and unpacks it into its package.
 *
 * @returns the path of the program, or the reason why there is none
 */
export async function fetchElectron(): Promise<{ binary: string } | { reason: string }> {
  const reason = await runGuardedFetch(fetchElectronArchive, showProgress());
  if (process.stdout.isTTY) process.stdout.write('\n');
  if (reason !== undefined) return { reason };
  // The package's own installer unpacks what is now in the cache and checks it again.
  const { code, output } = await runToEnd(process.execPath, [join(getPackageFolder(), 'install.js')]);
  const binary = findElectron();
  if (binary !== undefined) return { binary };
  return { reason: `its archive could not be unpacked (exit ${code}): ${output.trim().split('\n').at(-1) ?? ''}` };
}
