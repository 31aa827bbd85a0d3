import { accessSync, constants, statSync } from 'node:fs';
import { posix, win32 } from 'node:path';

/** What the search for a browser may know of the machine; tests pass their own. */
export interface BrowserSearch {
  platform: NodeJS.Platform;
  env: Readonly<Record<string, string | undefined>>;
  isProgram: (path: string) => boolean;
}

/** Names under which the Chromium family is found on the PATH of a Unix machine, best first. */
const PATH_NAMES = [
  'chromium',
  'chromium-browser',
  'google-chrome-stable',
  'google-chrome',
  'chrome',
  'microsoft-edge-stable',
  'microsoft-edge',
] as const;

const UNIX_PLACES = ['/usr/bin', '/usr/local/bin', '/snap/bin', '/opt/google/chrome', '/opt/microsoft/msedge'] as const;

const MAC_APPS = ['Google Chrome', 'Chromium', 'Microsoft Edge'] as const;

const WINDOWS_PROGRAMS = [
  'Google\\Chrome\\Application\\chrome.exe',
  'Chromium\\Application\\chrome.exe',
  'Microsoft\\Edge\\Application\\msedge.exe',
] as const;

function getUnixCandidates(env: BrowserSearch['env']): string[] {
  const onPath = (env.PATH ?? '').split(':').filter((folder) => folder.startsWith('/'));
  const folders = [...new Set([...onPath, ...UNIX_PLACES])];
  return PATH_NAMES.flatMap((name) => folders.map((folder) => posix.join(folder, name)));
}

function getMacCandidates(env: BrowserSearch['env']): string[] {
  const roots = ['/Applications', ...(env.HOME ? [posix.join(env.HOME, 'Applications')] : [])];
  const bundled = MAC_APPS.flatMap((app) => roots.map((root) => `${root}/${app}.app/Contents/MacOS/${app}`));
  return [...bundled, ...getUnixCandidates(env)];
}

function getWindowsCandidates(env: BrowserSearch['env']): string[] {
  const roots = ['PROGRAMFILES', 'PROGRAMFILES(X86)', 'LOCALAPPDATA'].flatMap((name) => env[name] ?? []);
  return WINDOWS_PROGRAMS.flatMap((program) => roots.map((root) => win32.join(root, program)));
}

/**
 * Lists the places where a Chromium-family browser may lie, best first.
 *
 * @param platform as `process.platform`
 * @param env as `process.env`; PATH, HOME and the Windows program folders are read
 * @returns absolute paths, none of them checked
 */
export function getBrowserCandidates(platform: NodeJS.Platform, env: BrowserSearch['env']): string[] {
  if (platform === 'win32') return getWindowsCandidates(env);
  return platform === 'darwin' ? getMacCandidates(env) : getUnixCandidates(env);
}

/** Whether the path is a file that this user may run. */
export function isProgram(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}

/**
 * Finds a Chromium-family browser on this machine.
 *
 * @param search the machine; KERFGRIP_BROWSER in its environment names a browser and is the only one then tried
 * @returns the path of the first one that can be run, or `undefined`
 */
export function findBrowser(
  search: BrowserSearch = { platform: process.platform, env: process.env, isProgram },
): string | undefined {
  const named = search.env.KERFGRIP_BROWSER;
  const candidates = named ? [named] : getBrowserCandidates(search.platform, search.env);
  return candidates.find(search.isProgram);
}
