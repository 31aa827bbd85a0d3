import { type ChildProcess, spawn } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { getRootFlags } from '../../main/start/app-window';
import { stopProcess, waitForEnd } from '../../main/start/child-process';
import type { Desk } from './desk';
import { connectPage, type Page } from './devtools';
import { waitUntil } from './wait-until';

/** The program under test: what starts it, and the words that stand before those of the user. */
export interface Program {
  command: string;
  words: readonly string[];
}

export interface Planner {
  page: Page;
  /** Connects to the page again, as after a crash. */
  connect(): Promise<Page>;
  process: ChildProcess;
  /** What the program printed so far. */
  getOutput(): string;
  /** The program's processes with the memory that is theirs alone (unique set size). */
  listProcesses(): ProgramProcess[];
  /** Waits for the end of the program. @returns its exit code */
  waitForEnd(): Promise<number>;
  /** From the start of the process until the sample's canvas was drawn, ms. */
  openedAfterMs: number;
  stop(): Promise<void>;
}

export interface ProgramProcess {
  id: number;
  /** As Chromium calls it: browser, renderer, gpu-process, utility, zygote. */
  kind: string;
  ownMemoryMb: number;
  /** What it has had of the processor so far, s. */
  cpuSeconds: number;
}

/** Ticks of a second in /proc (USER_HZ, proc(5)). */
const TICKS = 100;

function getOwnMemoryMb(id: string): number {
  const text = readFileSync(`/proc/${id}/smaps_rollup`, 'utf8');
  const kilobytes = [...text.matchAll(/^Private_(?:Clean|Dirty): +(\d+) kB$/gm)].map(([, count]) => Number(count));
  return kilobytes.reduce((sum, one) => sum + one, 0) / 1024;
}

function readStat(id: string): { parent: number; cpuSeconds: number } {
  // After the name, which may hold anything, stands the state, which is the third field of proc(5).
  const fields = readFileSync(`/proc/${id}/stat`, 'utf8')
    .replace(/^.*\) /s, '')
    .split(' ')
    .map(Number);
  const get = (field: number): number => fields[field - 3] ?? 0;
  return { parent: get(4), cpuSeconds: (get(14) + get(15)) / TICKS };
}

/** A process and all that descend from it. */
function listDescendants(first: number): ProgramProcess[] {
  const ids = readdirSync('/proc').filter((name) => /^\d+$/.test(name));
  const family = new Set([first]);
  const found: ProgramProcess[] = [];
  for (const id of ids.sort((one, other) => Number(one) - Number(other))) {
    try {
      const { parent, cpuSeconds } = readStat(id);
      if (Number(id) !== first && !family.has(parent)) continue;
      family.add(Number(id));
      const kind = /--type=([a-z-]+)/.exec(readFileSync(`/proc/${id}/cmdline`, 'utf8'))?.[1] ?? 'browser';
      found.push({ id: Number(id), kind, ownMemoryMb: getOwnMemoryMb(id), cpuSeconds });
    } catch {
      // It has ended meanwhile.
    }
  }
  return found;
}

/** Starts a process of the program without waiting for a window. */
export function spawnPlanner(program: Program, desk: Desk, dataFolder: string, words: readonly string[]): ChildProcess {
  const flags = getRootFlags(process.platform, process.getuid?.());
  return spawn(program.command, [...flags, ...program.words, ...words], {
    env: { ...desk.env, KERFGRIP_DATA: dataFolder },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
}

/** Opens the planner and waits until its canvas is there and can be worked with. */
export async function openPlanner(
  program: Program,
  desk: Desk,
  dataFolder: string,
  words: readonly string[] = [],
): Promise<Planner> {
  const start = performance.now();
  const child = spawnPlanner(
    { ...program, words: ['--remote-debugging-port=0', ...program.words] },
    desk,
    dataFolder,
    words,
  );
  let output = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream?.setEncoding('utf8').on('data', (text: string) => {
      output += text;
    });
  }
  try {
    const port = await waitUntil('the program says where it can be debugged', () => {
      if (child.exitCode !== null) throw new Error(`it ended with ${child.exitCode}: ${output}`);
      const found = /DevTools listening on ws:\/\/127\.0\.0\.1:(\d+)\//.exec(output)?.[1];
      return found === undefined ? undefined : Number(found);
    });
    const page = await waitUntil('the program shows its page', () => connectPage(port));
    await waitUntil('the Bench is drawn', () => page.evaluate('document.querySelector("canvas") !== null'));
    const openedAfterMs = performance.now() - start;
    await waitUntil('the Bench can be worked with', () =>
      page.evaluate('document.querySelector(".bench-feature") !== null'),
    );
    return {
      page,
      connect: () => connectPage(port),
      process: child,
      openedAfterMs,
      getOutput: () => output,
      listProcesses: () => (child.pid === undefined ? [] : listDescendants(child.pid)),
      waitForEnd: () => waitForEnd(child),
      stop: async () => {
        page.close();
        await stopProcess(child);
      },
    };
  } catch (error) {
    await stopProcess(child);
    throw new Error(`${error instanceof Error ? error.message : String(error)}\n${output}`);
  }
}
