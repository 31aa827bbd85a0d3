import { spawn } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { parseLocalOptions } from '../../../main/local/local-options';
import { serializePlan } from '../../../shared/model/serialize';
import { buildNamedPlan } from '../services/sample-plan';
import { makeTempFolder } from '../services/temp-folder';

const ROOT = resolve(import.meta.dirname, '../../..');
const START_WAIT_MS = 30_000;

async function startEntry(args: readonly string[]) {
  const child = spawn(process.execPath, ['--import', 'tsx', join(ROOT, 'main/local/main.ts'), ...args], { cwd: ROOT });
  onTestFinished(() => void child.kill('SIGKILL'));
  const ended = new Promise<number | null>((done) => child.on('exit', (code) => done(code)));
  let output = '';
  const address = await new Promise<string>((found, fail) => {
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      output += text;
      const match = /^Kerfgrip is at (http:\/\/127\.0\.0\.1:\d+\/\?t=[\w-]+)$/m.exec(output);
      if (match?.[1] !== undefined) found(match[1]);
    });
    child.on('exit', () => fail(new Error(`ended: ${output}`)));
  });
  const origin = new URL(address).origin;
  const arrival = await fetch(address, { redirect: 'manual' });
  const cookie = arrival.headers.get('set-cookie')?.split(';')[0] ?? '';
  const call = async (verb: string, request: unknown) => {
    const headers = { cookie, origin, 'content-type': 'application/json' };
    const answer = await fetch(`${origin}/call/${verb}`, { method: 'POST', headers, body: JSON.stringify(request) });
    return answer.json();
  };
  return { child, ended, call };
}

describe('the loopback host as a program', () => {
  test('opens the plan it is given, ends on Ctrl-C with 0, and offers at the next start what was not saved', {
    timeout: START_WAIT_MS,
  }, async () => {
    const folder = await makeTempFolder();
    const plan = join(folder, 'hoist.kgplan');
    const data = join(folder, 'data');
    mkdirSync(data);
    writeFileSync(plan, serializePlan(buildNamedPlan('hoist')));
    const first = await startEntry(['--plan', plan, '--data-dir', data]);
    const { file } = (await first.call('start', {})).value.opened;
    expect(file).toMatchObject({ name: 'hoist.kgplan', folder });
    await first.call('writeJournal', { plan: buildNamedPlan('unsaved'), file, shop: null });
    first.child.kill('SIGINT');
    expect(await first.ended).toBe(0);
    const second = await startEntry(['--data-dir', data]);
    const { unsaved } = (await second.call('start', {})).value;
    expect(unsaved).toMatchObject([{ fileName: 'hoist.kgplan', plan: { name: 'unsaved' } }]);
    expect(JSON.parse(readFileSync(plan, 'utf8')).name).toBe('hoist');
    second.child.kill('SIGTERM');
    expect(await second.ended).toBe(0);
  });
});

describe('its command line', () => {
  test('names files and folders', () => {
    expect(parseLocalOptions(['--plan', '/a/b.kgplan', '--data-dir', '/data', '--stay-open'])).toEqual({
      plan: '/a/b.kgplan',
      dataFolder: '/data',
      stayOpen: true,
      help: false,
    });
  });

  test('refuses what it does not know', () => {
    expect(() => parseLocalOptions(['--port', '80'])).toThrow(/--port/);
  });
});
