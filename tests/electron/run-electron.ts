// Builds the program, starts it in a real Electron and uses it as a user does: with keys, dialogs and a second start.
//
//   npm run test:electron                 the built program
//   npm run test:electron -- --packaged   the program as it is packaged for this system
//
// Exit: 0 passed, 1 failed, 69 there is no Electron, or no display to show it on (EX_UNAVAILABLE of sysexits.h).
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { getCommandPath, ROOT, runNode } from '../run/run-program';
import { checkPackage } from './check-package';
import { openDesk } from './desk';
import { buildRunnablePackage, buildUserPackage } from './package-program';
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
  const missing = ['Xvfb', 'xdotool', 'openbox'].filter((name) => spawnSync('which', [name]).status !== 0);
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
        counts.skipped = smokeTests.length - index - 1;
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

function runPackageCheck(archive: string, counts: Counts): void {
  const title = 'the package holds only what runs, and all of it';
  try {
    const { files, megabytes } = checkPackage(archive);
    counts.passed += 1;
    console.log(`ok    ${title}: ${files} entries, ${megabytes.toFixed(1)} MB`);
  } catch (error) {
    counts.failed += 1;
    console.log(`FAIL  ${title}\n      ${error instanceof Error ? error.message : String(error)}`);
  }
}

/** What the program takes a moment after it has opened, each process by the memory that is its alone. */
function printMeasures(planner: Planner): void {
  const processes = planner.listProcesses();
  const sum = processes.reduce((total, { ownMemoryMb }) => total + ownMemoryMb, 0);
  const each = processes.map(({ kind, ownMemoryMb }) => `${kind} ${ownMemoryMb.toFixed(0)}`).join(', ');
  console.log(`Opened and drawn after ${(planner.openedAfterMs / 1000).toFixed(2)} s; ${sum.toFixed(0)} MB (${each}).`);
}

async function run(words: readonly string[]): Promise<number> {
  rmSync(REPORT, { force: true });
  const runtime = findRuntime();
  const obstacle = getObstacle(runtime);
  if (runtime === undefined || obstacle !== undefined) {
    console.log(`The tests in a real Electron did not run: ${obstacle}.`);
    writeReport({ passed: 0, failed: 0, skipped: smokeTests.length });
    return UNAVAILABLE;
  }
  console.log(
    `Electron ${runtime.version} in ${runtime.folder}${runtime.isOld ? ', with the build for old runtimes' : ''}`,
  );
  const isPackaged = words.includes('--packaged');
  if (!buildWith(getBuildWords(runtime))) return 1;
  const counts: Counts = { passed: 0, failed: 0, skipped: 0 };
  let program: Program = { command: runtime.program, words: [getAppFolder(runtime)] };
  if (isPackaged) {
    if (runtime.isOld && !buildWith(USER_BUILD)) return 1;
    const forUsers = await buildUserPackage(runtime);
    runPackageCheck(forUsers.archive, counts);
    const runnable = runtime.isOld ? await buildRunnablePackage(runtime) : forUsers;
    program = { command: runnable.program, words: [] };
  }
  await runTests(program, counts);
  writeReport(counts);
  const skipped = counts.skipped > 0 ? `, ${counts.skipped} skipped` : '';
  console.log(`${counts.passed} passed, ${counts.failed} failed${skipped}`);
  return counts.failed === 0 ? 0 : 1;
}

process.exitCode = await run(process.argv.slice(2));
