import { spawn } from 'node:child_process';
import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { basename, join } from 'node:path';
import { parsePlanContent } from '../../../main/services/plan-text';
import { createServices } from '../../../main/services/services';
import { parseShopContent } from '../../../main/services/shop-text';
import { ROOT } from '../../run/run-program';
import { getPlanNumber, getShopNumber } from './numbered-work';

export interface KillOutcome {
  kills: number;
  /** Kills that left an unfinished file, so that came in the middle of a write. */
  midway: number;
  /** Plans, journals, shops and lists of recent plans found whole after a kill. */
  whole: number;
  faults: string[];
}

export interface KillParts {
  /** An empty folder. */
  folder: string;
  kills: number;
  /** What Node is told to run the program that saves. */
  program: readonly string[];
  chance: () => number;
}

/** Files that the program writes. */
export const KILLED_FILES = 4;

const LONGEST_WAIT_MS = 40;

/** Lets a process save for a while and kills it. */
async function saveAndKill({ folder, program }: KillParts, start: number, waitMs: number): Promise<void> {
  const child = spawn(process.execPath, [...program, folder, String(start)], { cwd: ROOT });
  const ended = new Promise((done) => child.on('exit', done));
  let errors = '';
  child.stderr.on('data', (text) => {
    errors += text;
  });
  try {
    await new Promise((saving, fail) => {
      child.stdout.once('data', saving);
      child.on('exit', () => fail(new Error(`ended by itself: ${errors}`)));
    });
    await new Promise((later) => setTimeout(later, waitMs));
  } finally {
    child.kill('SIGKILL');
    await ended;
  }
}

/** What is wrong with a file that must hold this number or a later one; '' when it is whole. */
async function findFault(what: string, least: number, read: () => Promise<number | null>): Promise<string> {
  try {
    const count = await read();
    if (count === null) return `${what}: mixed`;
    return count >= least ? '' : `${what}: ${count} is older than what was told to be saved`;
  } catch (error) {
    return `${what}: ${error instanceof Error ? error.message : String(error)}`;
  }
}

/** What is wrong with each of the four files, as the next start of the program reads them. */
async function findFaults(folder: string, least: number): Promise<string[]> {
  const read = (...path: string[]): string => readFileSync(join(folder, ...path), 'utf8');
  const { recovery, recents, close } = createServices({ dataFolder: join(folder, 'data'), session: 'next' });
  const faults = await Promise.all([
    findFault('the plan', least, async () => getPlanNumber(parsePlanContent(read('hoist.kgplan'), 'It').plan)),
    findFault('the journal', least, async () => {
      const [left] = await recovery.listLeft();
      if (left === undefined) throw new Error('not there');
      return getPlanNumber(left.plan);
    }),
    findFault('the shop', least, async () => getShopNumber(parseShopContent(read('data', 'shop.json'), 'It').shop)),
    findFault('the recent plans', least, async () => {
      const [last] = await recents.list();
      return last === undefined ? null : Number(basename(last.path, '.kgplan'));
    }),
  ]);
  await close();
  return faults.filter((fault) => fault !== '');
}

/** What killed writes left, counted and taken away. */
function takeLeftovers(folder: string): number {
  const leftovers = readdirSync(folder).filter((name) => name.endsWith('.tmp'));
  for (const name of leftovers) rmSync(join(folder, name));
  return leftovers.length;
}

/** Kills a process in the middle of its saves, over and over, and reads all that it writes after each kill. */
export async function killWhileSaving(parts: KillParts): Promise<KillOutcome> {
  const { folder, kills, chance } = parts;
  const outcome: KillOutcome = { kills: 0, midway: 0, whole: 0, faults: [] };
  for (let kill = 1; kill <= kills; kill += 1) {
    await saveAndKill(parts, kill * 1000, chance() * LONGEST_WAIT_MS);
    outcome.kills += 1;
    const faults = await findFaults(folder, kill * 1000);
    outcome.whole += KILLED_FILES - faults.length;
    outcome.faults.push(...faults.map((fault) => `kill ${kill}: ${fault}`));
    const data = join(folder, 'data');
    const left = [folder, data, join(data, 'recovery')].map(takeLeftovers).reduce((total, count) => total + count);
    if (left > 0) outcome.midway += 1;
  }
  const plans = readdirSync(folder).filter((name) => name.endsWith('.kgplan') && !name.startsWith('.'));
  if (plans.length !== 1) outcome.faults.push(`plans in the folder: ${plans.join(', ')}`);
  return outcome;
}
