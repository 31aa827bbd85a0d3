import { spawn } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { parsePlanContent } from '../../../main/services/plan-text';
import { createRecovery } from '../../../main/services/recovery';
import { makeTempFolder } from './temp-folder';

const ROOT = resolve(import.meta.dirname, '../../..');
const KILLS = 8;

/** Lets a process save for a while and kills it; the waits differ, so the kill comes at any point of a save. */
async function saveAndKill(folder: string, start: number, waitMs: number): Promise<void> {
  const script = join(import.meta.dirname, 'save-until-killed.ts');
  const child = spawn(process.execPath, ['--import', 'tsx', script, folder, String(start)], { cwd: ROOT });
  onTestFinished(() => void child.kill('SIGKILL'));
  const ended = new Promise((done) => child.on('exit', done));
  let errors = '';
  child.stderr.on('data', (text) => {
    errors += text;
  });
  await new Promise((saving, fail) => {
    child.stdout.once('data', saving);
    child.on('exit', () => fail(new Error(`ended by itself: ${errors}`)));
  });
  await new Promise((later) => setTimeout(later, waitMs));
  child.kill('SIGKILL');
  await ended;
}

describe('a process that is killed while it saves', () => {
  test('leaves whole files, old or new, never mixed', { timeout: 60_000 }, async () => {
    const folder = await makeTempFolder();
    for (let kill = 1; kill <= KILLS; kill += 1) {
      await saveAndKill(folder, kill * 1000, (kill * 37) % 61);
      const { plan } = parsePlanContent(readFileSync(join(folder, 'hoist.kgplan'), 'utf8'), 'hoist.kgplan');
      const count = plan.name.replace('plan ', '');
      expect(Number(count)).toBeGreaterThanOrEqual(kill * 1000);
      expect(plan.notes).toBe(`${count} `.repeat(2000));
      const [left] = await createRecovery({
        folder: join(folder, 'data', 'recovery'),
        session: 'next',
        now: () => new Date(),
      }).listLeft();
      expect(left?.plan.notes).toBe(`${left?.plan.name.replace('plan ', '')} `.repeat(2000));
    }
    const plans = readdirSync(folder).filter((name) => name.endsWith('.kgplan') && !name.startsWith('.'));
    expect(plans).toEqual(['hoist.kgplan']);
  });
});
