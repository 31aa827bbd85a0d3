import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { getEndsWithin, stopProcess, waitForEnd } from './child-process';

/** A browser that ends with an error this soon has not opened a window, ms. */
const OPENING_MS = 2_500;

/** Keeps the browser from calling anywhere by itself: the planner makes no network call, nor should its window. */
const QUIET_FLAGS = [
  '--no-first-run',
  '--no-default-browser-check',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-default-apps',
  '--disable-domain-reliability',
  '--disable-sync',
  '--disable-quic',
  '--disable-features=Translate,MediaRouter,OptimizationHints',
  '--password-store=basic',
  '--use-mock-keychain',
] as const;

/**
 * The flag that the Chromium family needs when root runs it on Linux, where it refuses to start otherwise.
 *
 * @param platform as `process.platform`
 * @param userId as `process.getuid()`; `undefined` where there is none
 */
export function getRootFlags(platform: NodeJS.Platform, userId: number | undefined): string[] {
  return platform === 'linux' && userId === 0 ? ['--no-sandbox'] : [];
}

/**
 * The command line that opens an address in a window of its own.
 *
 * @param address the address, shown without tabs or address bar
 * @param profileFolder an empty folder, so that no setting or extension of the user's browser takes part
 * @param rootFlags see `getRootFlags`
 */
export function getAppWindowArguments(address: string, profileFolder: string, rootFlags: readonly string[]): string[] {
  return [
    `--app=${address}`,
    `--user-data-dir=${profileFolder}`,
    '--window-size=1440,900',
    ...QUIET_FLAGS,
    ...rootFlags,
  ];
}

export interface AppWindow {
  /** Resolves when the window has been closed. */
  closed: Promise<void>;
  close: () => Promise<void>;
}

async function removeProfile(folder: string): Promise<void> {
  // The browser's last helper processes may still write for a moment.
  await rm(folder, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 }).catch(() => undefined);
}

/**
 * Opens an address in an app window of a Chromium-family browser.
 *
 * @returns the window, or `undefined` when the browser ended at once
 */
export async function openAppWindow(browser: string, address: string): Promise<AppWindow | undefined> {
  const profileFolder = await mkdtemp(join(tmpdir(), 'kerfgrip-window-'));
  const rootFlags = getRootFlags(process.platform, process.getuid?.());
  const child: ChildProcess = spawn(browser, getAppWindowArguments(address, profileFolder, rootFlags), {
    stdio: 'ignore',
  });
  const closed = waitForEnd(child).then(() => removeProfile(profileFolder));
  if (await getEndsWithin(child, OPENING_MS)) {
    await closed;
    return undefined;
  }
  return {
    closed,
    close: async () => {
      await stopProcess(child);
      await closed;
    },
  };
}
