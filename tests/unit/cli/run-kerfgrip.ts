import { spawn } from 'node:child_process';
import { join, resolve } from 'node:path';
import { COMMANDS } from '../../../main/cli/commands';
import { runCli } from '../../../main/cli/run-cli';
import { getSamplePath } from '../support/sample-plans';

export const ROOT = resolve(import.meta.dirname, '../../..');

/** A child process starts a TypeScript loader of its own, and a first sheet reads its fonts; a busy machine takes its time over both. */
export const CHILD_WAIT_MS = 30_000;

export const HOIST_ARMS = getSamplePath('hoist-arms');

export interface Run {
  code: number | null;
  out: string;
  err: string;
}

/** Runs the command line in this process, where only its words and answers matter. */
export async function runKerfgrip(...args: string[]): Promise<Run> {
  const run: Run = { code: null, out: '', err: '' };
  const code = await runCli(COMMANDS, args, {
    out: (text) => {
      run.out += text;
    },
    err: (text) => {
      run.err += text;
    },
  });
  return { ...run, code };
}

/** Runs the command line as a process of its own, as a script would. */
export function runProgram(...args: string[]): Promise<Run> {
  const child = spawn(process.execPath, ['--import', 'tsx', join(ROOT, 'main/cli.ts'), ...args], { cwd: ROOT });
  const run: Run = { code: null, out: '', err: '' };
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    run.out += text;
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    run.err += text;
  });
  return new Promise((done) =>
    child.on('close', (code) => {
      done({ ...run, code });
    }),
  );
}
