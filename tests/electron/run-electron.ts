// Builds the program, starts it in a real Electron and uses it as a user does: with keys, dialogs and a second start.
//
//   npm run test:electron                 the built program
//   npm run test:electron -- --packaged   what `npm run package` makes: its contents, and the program in it
//   npm run test:electron -- --all        both
//
// Exit: 0 passed, 1 failed, 69 there is no Electron, or no display to show it on (EX_UNAVAILABLE of sysexits.h).
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { extractAll } from '@electron/asar';
import { getCommandPath, ROOT, runNode } from '../run/run-program';
import { checkDeb, unpackDeb } from './check-deb';
import { checkPackage } from './check-package';
import { openDesk } from './desk';
import { buildRunnableDeb, buildUserPackage } from './package-program';
import type { Planner, Program } from './planner';
import { findRuntime, getAppFolder, getBuildWords, type Runtime, USER_BUILD } from './runtime';
import { openStagePlanner, type Stage, smokeTests } from './smoke';

/** No Electron to test in. */
const UNAVAILABLE = 69;

const REPORT = join(ROOT, 'build/reports/electron.json');

interface Counts {
  passed: number;
  failed: number;
  skipped: number;
}

/** Why the tests cannot run here, or nothing. */
function getObstacle(runtime: Runtime | undefined): string | undefined {
  if (runtime === undefined) {
    return 'no Electron was found: neither the electron package has its program, nor does ELECTRON_OVERRIDE_DIST_PATH name one, nor was one fetched by tests/electron/fetch-runtime.ts';
  }
  if (process.platform !== 'linux') return 'they press keys through X11, which only Linux has';
  const missing = ['Xvfb', 'xdotool', 'openbox', 'xwd'].filter((name) => spawnSync('which', [name]).status !== 0);
  return missing.length > 0 ? `${missing.join(', ')} not installed` : undefined;
}

function writeReport(counts: Counts): void {
  mkdirSync(join(ROOT, 'build/reports'), { recursive: true });
  writeFileSync(REPORT, JSON.stringify(counts));
}

async function runTests(program: Program, counts: Counts): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'kerfgrip-electron-'));
  const desk = await openDesk();
  let stage: Stage | undefined;
  try {
    const parts = { program, desk, folder };
    stage = { ...parts, planner: await openStagePlanner(parts) };
    printMeasures(stage.planner);
    for (const [index, { title, run }] of smokeTests.entries()) {
      try {
        await run(stage);
        counts.passed += 1;
        console.log(`ok    ${title}`);
      } catch (error) {
        counts.failed += 1;
        console.log(`FAIL  ${title}\n      ${error instanceof Error ? error.message : String(error)}`);
        // What follows builds on what went before.
        counts.skipped += smokeTests.length - index - 1;
        break;
      }
    }
  } catch (error) {
    counts.failed += 1;
    console.log(`FAIL  the program opens\n      ${error instanceof Error ? error.message : String(error)}`);
  } finally {
    if (process.env.KERFGRIP_SHOTS && counts.failed > 0) {
      spawnSync('import', ['-window', 'root', join(process.env.KERFGRIP_SHOTS, 'electron.png')], { env: desk.env });
    }
    await stage?.planner.stop();
    await desk.close();
    rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
}

function buildWith(words: readonly string[]): boolean {
  return runNode([getCommandPath('vite', 'bin/vite.js'), ...words]) === 0;
}

/** Runs one test that makes or looks into files. */
function runCheck(title: string, counts: Counts, check: () => string): void {
  try {
    const said = check();
    counts.passed += 1;
    console.log(`ok    ${title}${said === '' ? '' : `: ${said}`}`);
  } catch (error) {
    counts.failed += 1;
    console.log(`FAIL  ${title}\n      ${error instanceof Error ? error.message : String(error)}`);
  }
}

/** Runs the tests that start what users get in plain Node, with a stand-in for Electron. */
function runStandIn(program: string, counts: Counts): void {
  console.log('\nWhat users get, with a stand-in for Electron:');
  const args = ['--import', 'tsx', 'tests/electron/stand-in/run-stand-in.ts', program];
  const { status, stdout } = spawnSync(process.execPath, args, {
    cwd: ROOT,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  process.stdout.write(stdout);
  counts.passed += [...stdout.matchAll(/^ok {4}/gm)].length;
  counts.failed += Math.max([...stdout.matchAll(/^FAIL {2}/gm)].length, status === 0 ? 0 : 1);
}

/** What the program takes a moment after it has opened, each process by the memory that is its alone. */
function printMeasures(planner: Planner): void {
  const processes = planner.listProcesses();
  const sum = processes.reduce((total, { ownMemoryMb }) => total + ownMemoryMb, 0);
  const each = processes.map(({ kind, ownMemoryMb }) => `${kind} ${ownMemoryMb.toFixed(0)}`).join(', ');
  const cpu = processes.reduce((total, { cpuSeconds }) => total + cpuSeconds, 0);
  console.log(
    `Opened and drawn after ${(planner.openedAfterMs / 1000).toFixed(2)} s, ${cpu.toFixed(2)} s of the processor; ${sum.toFixed(0)} MB (${each}).`,
  );
}

/** Packages the program twice: as users get it, and what the runtime at hand can run, which is then used. */
async function runPackaged(runtime: Runtime, counts: Counts): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'kerfgrip-package-'));
  try {
    const resources = buildUserPackage(runtime);
    runCheck('the package holds only what runs, and all of it, with the licences', counts, () => {
      const { files, megabytes } = checkPackage(resources);
      return `${files} entries, ${megabytes.toFixed(1)} MB`;
    });
    extractAll(join(resources, 'app.asar'), join(folder, 'archive'));
    runStandIn(join(folder, 'archive'), counts);
    const deb = buildRunnableDeb(runtime);
    const program = unpackDeb(deb, join(folder, 'deb'));
    runCheck('the Debian package tells a desktop of the program, of its plans and of its icon', counts, () => {
      checkDeb(deb, join(folder, 'deb'));
      return '';
    });
    console.log('\nThe packaged program in Electron:');
    await runTests({ command: join(program, 'kerfgrip'), words: [] }, counts);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function close(counts: Counts, code: number): number {
  writeReport(counts);
  const skipped = counts.skipped > 0 ? `, ${counts.skipped} skipped` : '';
  console.log(`${counts.passed} passed, ${counts.failed} failed${skipped}`);
  return counts.failed === 0 ? code : 1;
}

async function run(words: readonly string[]): Promise<number> {
  rmSync(REPORT, { force: true });
  const counts: Counts = { passed: 0, failed: 0, skipped: 0 };
  const runtime = findRuntime();
  const obstacle = getObstacle(runtime);
  if (runtime === undefined || obstacle !== undefined) {
    console.log(`The tests in a real Electron did not run: ${obstacle}.`);
    if (!buildWith(USER_BUILD)) return 1;
    runStandIn(ROOT, counts);
    counts.skipped += smokeTests.length;
    return close(counts, UNAVAILABLE);
  }
  console.log(
    `Electron ${runtime.version} in ${runtime.folder}${runtime.isOld ? ', with the build for old runtimes' : ''}`,
  );
  if (!buildWith(getBuildWords(runtime))) return 1;
  const isPackaged = words.includes('--packaged') || words.includes('--all');
  if (!isPackaged || words.includes('--all')) {
    await runTests({ command: runtime.program, words: [getAppFolder(runtime)] }, counts);
  }
  if (isPackaged) await runPackaged(runtime, counts);
  return close(counts, 0);
}

process.exitCode = await run(process.argv.slice(2));
