import { execFileSync } from 'node:child_process';
import { onTestFinished } from 'vitest';

/** Said of a test that needs a disk of its own where none can be had. */
export const NEEDS_ROOT = 'only root on Linux can mount a small disk';

/**
 * Mounts a disk in the memory, until the test has ended.
 *
 * @param folder where
 * @param size as mount takes it, such as "64k"
 * @returns whether the system let us
 */
export function mountSmallDisk(folder: string, size: string): boolean {
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${size}`, 'tmpfs', folder], { stdio: 'ignore' });
  } catch {
    return false;
  }
  onTestFinished(() => void execFileSync('umount', [folder]));
  return true;
}

/** From now on the disk can only be read, by root as well. */
export function protectDisk(folder: string): void {
  execFileSync('mount', ['-o', 'remount,ro', folder], { stdio: 'ignore' });
}
