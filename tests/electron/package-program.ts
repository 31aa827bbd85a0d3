import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { build, Platform } from 'electron-builder';
import { ROOT } from '../run/run-program';
import { getAppFolder, type Runtime } from './runtime';

export interface PackagedProgram {
  program: string;
  /** The archive of the program's own files. */
  archive: string;
}

/**
 * Packages the program for Linux around a runtime, unpacked, by the project's own settings. An old runtime has no
 * fuses to set; everything else is as it is for users.
 *
 * @param app folder of the program that goes in
 */
async function buildPackage(runtime: Runtime, app: string, output: string): Promise<PackagedProgram> {
  rmSync(output, { recursive: true, force: true });
  await build({
    projectDir: ROOT,
    targets: Platform.LINUX.createTarget('dir'),
    config: {
      electronDist: runtime.folder,
      electronVersion: runtime.version,
      directories: { output, ...(app === ROOT ? {} : { app }) },
      ...(runtime.isOld ? { electronFuses: null } : {}),
    },
  });
  const folder = join(output, 'linux-unpacked');
  return { program: join(folder, 'kerfgrip'), archive: join(folder, 'resources/app.asar') };
}

/** The package as users get it; an old runtime cannot run what is in it. */
export function buildUserPackage(runtime: Runtime): Promise<PackagedProgram> {
  return buildPackage(runtime, ROOT, join(ROOT, 'build/package'));
}

/** The package that the runtime can run. */
export function buildRunnablePackage(runtime: Runtime): Promise<PackagedProgram> {
  return buildPackage(runtime, getAppFolder(runtime), join(ROOT, 'build/package-old-runtime'));
}
