import { type ChildProcess, spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { stopProcess, waitForEnd } from './child-process';

/** Longest wait for the host to say where it listens, ms. */
const ADDRESS_WAIT_MS = 20_000;

const ADDRESS = /http:\/\/127\.0\.0\.1:\d+\/\S*/;

export interface LocalHost {
  /** The address to open, its one-time token included. */
  address: string;
  process: ChildProcess;
  /** Resolves with the exit code when the host has ended. */
  ended: Promise<number>;
  stop: () => Promise<void>;
}

/** The loopback address in a line that the host printed, if there is one. */
export function findAddress(line: string): string | undefined {
  return ADDRESS.exec(line)?.[0];
}

function waitForAddress(child: ChildProcess, getErrors: () => string): Promise<string> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error('The local host did not say where it listens.')), ADDRESS_WAIT_MS);
    const fail = (why: string): void => {
      clearTimeout(timer);
      reject(new Error(why));
    };
    child.once('error', (error) => fail(`The local host could not be started: ${error.message}`));
    child.once('exit', () => fail(`The local host ended at once: ${getErrors().trim() || 'it gave no reason'}`));
    if (!child.stdout) return;
    createInterface({ input: child.stdout }).on('line', (line) => {
      const address = findAddress(line);
      if (address === undefined) return;
      clearTimeout(timer);
      resolve(address);
    });
  });
}

/**
 * Starts the loopback host and waits until it says where it listens.
 *
 * @param script path of the built host
 * @param args its command line, for instance `--plan FILE`
 * @param env its environment
 * @throws Error with one sentence when it ends or stays silent
 */
export async function startLocalHost(
  script: string,
  args: readonly string[],
  env: NodeJS.ProcessEnv = process.env,
): Promise<LocalHost> {
  const child = spawn(process.execPath, [script, ...args], { stdio: ['pipe', 'pipe', 'pipe'], env });
  let errors = '';
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    errors = (errors + text).slice(-4000);
  });
  const ended = waitForEnd(child);
  try {
    const address = await waitForAddress(child, () => errors);
    return { address, process: child, ended, stop: () => stopProcess(child) };
  } catch (error) {
    await stopProcess(child);
    throw error;
  }
}
