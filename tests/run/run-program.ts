import { spawnSync } from 'node:child_process';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The project's folder. */
export const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), '../..');

/** Path of a command that an installed package brings. */
export function getCommandPath(packageName: string, path: string): string {
  return join(ROOT, 'node_modules', packageName, path);
}

/** Runs Node with these words, its output shown as it comes; returns the exit code. */
export function runNode(args: readonly string[], env: Record<string, string> = {}): number {
  const { status } = spawnSync(process.execPath, args, {
    cwd: ROOT,
    stdio: 'inherit',
    env: { ...process.env, ...env },
  });
  return status ?? 1;
}
