import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { getAppWindowArguments, getRootFlags, openAppWindow } from '../../../main/start/app-window';
import { runToEnd } from '../../../main/start/child-process';
import { findAddress, startLocalHost } from '../../../main/start/local-host';

let folder = '';

function writeScript(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text, { mode: 0o755 });
  return path;
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'kerfgrip-processes-'));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('startLocalHost', () => {
  it('gives the address that the host prints, and ends it', async () => {
    const script = writeScript(
      'host.cjs',
      `console.log('starting'); console.log('Kerfgrip: http://127.0.0.1:40123/?token=abc ' + process.argv[2]);
       setInterval(() => {}, 1000);`,
    );
    const host = await startLocalHost(script, ['arms.kgplan']);
    expect(host.address).toBe('http://127.0.0.1:40123/?token=abc');
    expect(host.process.exitCode).toBeNull();
    await host.stop();
    await host.ended;
    expect(host.process.exitCode !== null || host.process.signalCode !== null).toBe(true);
  });

  it('passes on why a host could not start', async () => {
    const script = writeScript('broken.cjs', `console.error('The plan could not be read.'); process.exit(1);`);
    await expect(startLocalHost(script, [])).rejects.toThrow('The plan could not be read.');
  });

  it('reads no address but one on this machine', () => {
    expect(findAddress('open http://127.0.0.1:8080/#x now')).toBe('http://127.0.0.1:8080/#x');
    expect(findAddress('open http://0.0.0.0:8080/')).toBeUndefined();
  });
});

describe('openAppWindow', () => {
  it('notices a browser that ends at once', async () => {
    const browser = writeScript('no-browser', '#!/bin/sh\nexit 3\n');
    expect(await openAppWindow(browser, 'http://127.0.0.1:1/')).toBeUndefined();
    expect(await openAppWindow(join(folder, 'missing'), 'http://127.0.0.1:1/')).toBeUndefined();
  });

  it('opens the address in a profile of its own, without the sandbox for root alone', () => {
    const args = getAppWindowArguments('http://127.0.0.1:1/', '/tmp/p', getRootFlags('linux', 1000));
    expect(args).toContain('--app=http://127.0.0.1:1/');
    expect(args).toContain('--user-data-dir=/tmp/p');
    expect(args).not.toContain('--no-sandbox');
    expect(getRootFlags('linux', 0)).toEqual(['--no-sandbox']);
    expect(getRootFlags('win32', undefined)).toEqual([]);
  });
});

describe('runToEnd', () => {
  it('gives the exit code and all that was printed, and fails for a program that is not there', async () => {
    const done = await runToEnd(process.execPath, ['-e', 'console.log("a"); console.error("b"); process.exit(4)']);
    expect(done.code).toBe(4);
    expect(done.output).toContain('a');
    expect(done.output).toContain('b');
    expect((await runToEnd(join(folder, 'missing'), [])).code).toBe(1);
  });
});
