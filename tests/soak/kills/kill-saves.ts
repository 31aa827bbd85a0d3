import { spawn } from 'node:child_process';
import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { parsePlanContent } from '../../../main/services/plan-text';
import { createRecovery } from '../../../main/services/recovery';
import type { Plan } from '../../../shared/model/plan';
import { ROOT } from '../../run/run-program';

export interface KillOutcome {
  kills: number;
  /** Kills that left an unfinished file, so that came in the middle of a write. */
  midway: number;
  /** Plans and journals found whole after a kill. */
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

/** Every plan that is saved says its number in its name and all through its notes. */
function checkWhole(what: string, plan: Plan | undefined, least: number): string[] {
  if (plan === undefined) return [`${what} is not there`];
  const count = plan.name.replace('plan ', '');
  if (plan.notes !== `${count} `.repeat(2000)) return [`${what} is mixed: ${plan.name}`];
  return Number(count) >= least ? [] : [`${what} is older than what was told to be saved: ${count}`];
}

function readSaved(folder: string): Plan {
  return parsePlanContent(readFileSync(join(folder, 'hoist.kgplan'), 'utf8'), 'hoist.kgplan').plan;
}

/** What killed writes left, counted and taken away. */
function takeLeftovers(folder: string): number {
  const leftovers = readdirSync(folder).filter((name) => name.endsWith('.tmp'));
  for (const name of leftovers) rmSync(join(folder, name));
  return leftovers.length;
}

/** Kills a process in the middle of saving a plan and writing its journal, over and over, and reads both after each kill. */
export async function killWhileSaving(parts: KillParts): Promise<KillOutcome> {
  const { folder, kills, chance } = parts;
  const outcome: KillOutcome = { kills: 0, midway: 0, whole: 0, faults: [] };
  const recovery = createRecovery({ folder: join(folder, 'data', 'recovery'), session: 'next', now: () => new Date() });
  for (let kill = 1; kill <= kills; kill += 1) {
    await saveAndKill(parts, kill * 1000, chance() * LONGEST_WAIT_MS);
    outcome.kills += 1;
    try {
      const [left] = await recovery.listLeft();
      const faults = [
        ...checkWhole('the plan', readSaved(folder), kill * 1000),
        ...checkWhole('the journal', left?.plan, kill * 1000),
      ];
      outcome.whole += 2 - faults.length;
      outcome.faults.push(...faults.map((fault) => `kill ${kill}: ${fault}`));
    } catch (error) {
      outcome.faults.push(`kill ${kill}: ${error instanceof Error ? error.message : String(error)}`);
    }
    const left = takeLeftovers(folder) + takeLeftovers(join(folder, 'data', 'recovery'));
    if (left > 0) outcome.midway += 1;
  }
  const plans = readdirSync(folder).filter((name) => name.endsWith('.kgplan') && !name.startsWith('.'));
  if (plans.length !== 1) outcome.faults.push(`plans in the folder: ${plans.join(', ')}`);
  return outcome;
}
