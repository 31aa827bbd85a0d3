import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { chromium } from '@playwright/test';
import { findBrowser, isProgram } from '../../main/start/find-browser';

/** What the search may know and do; tests pass their own. */
export interface TestBrowserMeans {
  /** Where Playwright would put a browser of its own. */
  playwrightPath: () => string;
  isProgram: (path: string) => boolean;
  /** A browser of the system's. */
  findSystem: () => string | undefined;
  /** Whether packages can be installed here: Debian or its kin, as root. */
  canInstall: () => boolean;
  /** Installs Debian's chromium; returns the reason when it could not. */
  install: () => string | undefined;
}

const NO_BROWSER = 'The end-to-end tests need a Chromium-family browser and none was found';

/**
 * Finds the browser that the end-to-end tests drive: the one that KERFGRIP_BROWSER names, Playwright's own, one of
 * the system's, or on Debian as root the `chromium` package, which is then installed.
 *
 * @returns the path of the browser, or one sentence that says why there is none
 */
export function findTestBrowser(means: TestBrowserMeans = ownMeans): { browser: string } | { problem: string } {
  const named = process.env.KERFGRIP_BROWSER;
  const playwrightPath = named ? '' : means.playwrightPath();
  if (playwrightPath !== '' && means.isProgram(playwrightPath)) return { browser: playwrightPath };
  const found = means.findSystem();
  if (found !== undefined) return { browser: found };
  if (named) return { problem: `KERFGRIP_BROWSER names ${named}, which is not a program that can be run.` };
  if (!means.canInstall()) {
    return { problem: `${NO_BROWSER}: install Chromium or Chrome, or name one in KERFGRIP_BROWSER.` };
  }
  const refusal = means.install();
  if (refusal !== undefined) return { problem: `${NO_BROWSER}, and chromium could not be installed: ${refusal}` };
  const installed = means.findSystem();
  if (installed !== undefined) return { browser: installed };
  return { problem: `${NO_BROWSER}, not even after installing chromium.` };
}

function getPlaywrightPath(): string {
  try {
    return chromium.executablePath();
  } catch {
    // Playwright knows of no browser build for this system.
    return '';
  }
}

function runAptGet(args: readonly string[]): string | undefined {
  const { status, stderr, error } = spawnSync('apt-get', args, {
    encoding: 'utf8',
    stdio: ['ignore', 'inherit', 'pipe'],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  });
  if (status === 0) return undefined;
  return `apt-get ${args[0]}: ${error?.message ?? stderr.trim().split('\n').at(-1) ?? `exit ${status}`}`;
}

function installChromium(): string | undefined {
  console.log('No browser is here for the end-to-end tests: installing the package chromium.');
  // A list that is only partly refreshed may still have the package, so only the second refusal counts.
  runAptGet(['update', '-q']);
  return runAptGet(['install', '-y', '-q', 'chromium']);
}

const ownMeans: TestBrowserMeans = {
  playwrightPath: getPlaywrightPath,
  isProgram,
  findSystem: () => findBrowser(),
  canInstall: () => existsSync('/etc/debian_version') && process.getuid?.() === 0,
  install: installChromium,
};
