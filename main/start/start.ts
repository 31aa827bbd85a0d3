// Builds the planner and opens it: in Electron, in an app window of a browser, or by its address.
import { spawn } from 'node:child_process';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { getRootFlags, openAppWindow } from './app-window';
import { getEndsWithin, runToEnd, stopProcess, waitForEnd } from './child-process';
import { chooseWay, getHasDisplay, getWantsElectron } from './choose-way';
import { fetchElectron, findElectron, getIsTooOld, readElectronVersion } from './electron-binary';
import { findBrowser } from './find-browser';
import { startLocalHost } from './local-host';
import { parseStartOptions, START_USAGE, type StartOptions } from './start-options';

/** An Electron that ends with an error this soon cannot run here (a missing library, a forbidden sandbox), ms. */
const ELECTRON_OPENING_MS = 4_000;

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const LOCAL_HOST = join(ROOT, 'build/main/local.js');

type Closer = () => Promise<void>;

/** What is open now and has to be closed, last opened first. */
const closers: Closer[] = [];

async function closeAll(): Promise<void> {
  for (let close = closers.pop(); close !== undefined; close = closers.pop()) await close();
}

function closeOnSignal(): void {
  let ending = false;
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
    process.on(signal, () => {
      if (ending) return;
      ending = true;
      void closeAll().finally(() => process.exit(0));
    });
  }
}

async function buildPlanner(): Promise<void> {
  console.log('Building the planner …');
  const vite = join(dirname(createRequire(import.meta.url).resolve('vite/package.json')), 'bin/vite.js');
  const { code, output } = await runToEnd(process.execPath, [vite, 'build', '--app'], ROOT);
  if (code !== 0) throw new Error(`The planner could not be built:\n${output}`);
}

async function getElectron(options: StartOptions, hasDisplay: boolean): Promise<string | undefined> {
  if (!getWantsElectron(options.asked, hasDisplay)) return undefined;
  const found = findElectron();
  if (found !== undefined) {
    // The package's own is of the package's version; only another one can be too old.
    const override = process.env.ELECTRON_OVERRIDE_DIST_PATH;
    const version = override === undefined ? undefined : readElectronVersion(override);
    if (version === undefined || !getIsTooOld(version)) return found;
    console.log(`Going on without Electron ${version}, which ELECTRON_OVERRIDE_DIST_PATH names: it is too old.`);
    return undefined;
  }
  console.log('Electron is not here yet: fetching it once.');
  const fetched = await fetchElectron();
  if ('binary' in fetched) return fetched.binary;
  console.log(`Going on without Electron, which could not be fetched: ${fetched.reason}.`);
  return undefined;
}

/** Runs the planner in Electron until it is closed; `false` when Electron ended at once with an error. */
async function runInElectron(binary: string, plan: string | undefined): Promise<boolean> {
  const args = [...getRootFlags(process.platform, process.getuid?.()), ROOT, ...(plan === undefined ? [] : [plan])];
  const child = spawn(binary, args, { stdio: 'inherit' });
  const ended = waitForEnd(child);
  closers.push(() => stopProcess(child));
  if ((await getEndsWithin(child, ELECTRON_OPENING_MS)) && (await ended) !== 0) return false;
  await ended;
  return true;
}

/** Runs the planner over the loopback host until its window is closed, or until Ctrl-C where there is no window. */
async function runOverLoopback(browser: string | undefined, reason: string, plan: string | undefined): Promise<void> {
  const host = await startLocalHost(LOCAL_HOST, plan === undefined ? [] : ['--plan', plan]);
  closers.push(host.stop);
  const window = browser === undefined ? undefined : await openAppWindow(browser, host.address);
  if (window !== undefined) {
    closers.push(window.close);
    console.log(`Kerfgrip is open in a window of ${browser}. Close the window or press Ctrl-C to end it.`);
    await Promise.race([window.closed, host.ended]);
    return;
  }
  console.log(browser === undefined ? reason : `${browser} could not open a window.`);
  console.log(`Open this address in a browser on this machine; Ctrl-C ends Kerfgrip:\n${host.address}`);
  await host.ended;
}

async function run(options: StartOptions): Promise<void> {
  const plan = options.plan === undefined ? undefined : resolve(options.plan);
  const hasDisplay = getHasDisplay(process.platform, process.env);
  const [electron] = await Promise.all([getElectron(options, hasDisplay), buildPlanner()]);
  const means = { asked: options.asked, hasDisplay, browser: findBrowser() };
  let way = chooseWay({ ...means, electron });
  if (way.kind === 'electron') {
    if (await runInElectron(way.binary, plan)) return;
    console.log('Electron could not open its window here; going on without it.');
    way = chooseWay({ ...means, electron: undefined });
  }
  if (way.kind === 'app-window') await runOverLoopback(way.browser, '', plan);
  if (way.kind === 'address') await runOverLoopback(undefined, way.reason, plan);
}

function readOptions(): StartOptions | undefined {
  try {
    return parseStartOptions(process.argv.slice(2));
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    return undefined;
  }
}

const options = readOptions();
if (options === undefined || options.help) {
  console.log(START_USAGE);
  process.exitCode = options === undefined ? 2 : 0;
} else {
  closeOnSignal();
  try {
    await run(options);
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    process.exitCode = 1;
  }
  await closeAll();
}
