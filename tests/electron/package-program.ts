import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { build, Platform } from 'electron-builder';
import { ROOT } from '../run/run-program';
import type { Program } from './planner';
import { getAppFolder, type Runtime } from './runtime';

const OUTPUT = join(ROOT, 'build/package');

/**
 * Packages the program for Linux around a runtime, unpacked, by the project's own settings. An old runtime has no
 * fuses to set and gets the build made for it; everything else is as it is for users.
 *
 * @returns the packaged program
 */
export async function buildPackage(runtime: Runtime): Promise<Program> {
  rmSync(OUTPUT, { recursive: true, force: true });
  await build({
    projectDir: ROOT,
    targets: Platform.LINUX.createTarget('dir'),
    config: {
      electronDist: runtime.folder,
      electronVersion: runtime.version,
      directories: { output: OUTPUT, ...(runtime.isOld ? { app: getAppFolder(runtime) } : {}) },
      ...(runtime.isOld ? { electronFuses: null } : {}),
    },
  });
  return { command: join(OUTPUT, 'linux-unpacked/kerfgrip'), words: [] };
}
