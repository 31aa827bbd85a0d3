import { type ChildProcess, spawn } from 'node:child_process';

/** How long a process may take to end by itself once asked to, ms. */
const END_WAIT_MS = 5_000;

/** Resolves with the exit code once the process has ended; a signal counts as code 1. */
export function waitForEnd(child: ChildProcess): Promise<number> {
  if (child.exitCode !== null) return Promise.resolve(child.exitCode);
  if (child.signalCode !== null) return Promise.resolve(1);
  return new Promise((resolve) => {
    child.once('exit', (code) => resolve(code ?? 1));
    child.once('error', () => resolve(1));
  });
}

/** Asks a process to end, and ends it by force when it has not done so within `waitMs`. */
export async function stopProcess(child: ChildProcess, waitMs: number = END_WAIT_MS): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null || child.pid === undefined) return;
  const ended = waitForEnd(child);
  child.kill('SIGTERM');
  const timer = setTimeout(() => child.kill('SIGKILL'), waitMs);
  await ended;
  clearTimeout(timer);
}

/** Runs a program to its end without showing what it prints. */
export async function runToEnd(
  program: string,
  args: readonly string[],
  cwd: string = process.cwd(),
): Promise<{ code: number; output: string }> {
  const child = spawn(program, args, { cwd, stdio: ['ignore', 'pipe', 'pipe'] });
  let output = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream.setEncoding('utf8');
    stream.on('data', (text: string) => {
      output += text;
    });
  }
  child.on('error', (error) => {
    output += error.message;
  });
  const code = await waitForEnd(child);
  return { code, output };
}

/** Resolves with whether the process has ended within `ms`. */
export async function getEndsWithin(child: ChildProcess, ms: number): Promise<boolean> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<boolean>((resolve) => {
    timer = setTimeout(() => resolve(false), ms);
  });
  const ended = await Promise.race([waitForEnd(child).then(() => true), late]);
  clearTimeout(timer);
  return ended;
}
