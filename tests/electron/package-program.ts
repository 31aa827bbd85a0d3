import { strict as assert } from 'node:assert';
import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from '../run/run-program';
import { getAppFolder, type Runtime } from './runtime';

/** Stands in for fpm where electron-builder makes a Debian package. */
function writePacker(output: string): string {
  const script = join(output, 'fpm');
  const tsx = join(ROOT, 'node_modules/tsx/dist/loader.mjs');
  const packer = join(ROOT, 'tests/electron/pack-deb.ts');
  writeFileSync(script, `#!/bin/sh\nexec "${process.execPath}" --import "${tsx}" "${packer}" "$@"\n`);
  chmodSync(script, 0o755);
  return script;
}

/** Words for electron-builder that have it take a runtime that is here. */
function getRuntimeWords({ folder, version }: Runtime, output: string): string[] {
  return [`-c.electronDist=${folder}`, `-c.electronVersion=${version}`, `-c.directories.output=${output}`];
}

function run(program: string, args: readonly string[], env: Record<string, string> = {}): void {
  const { status } = spawnSync(program, args, { cwd: ROOT, stdio: 'inherit', env: { ...process.env, ...env } });
  assert.equal(status, 0, `${program} ${args.join(' ')} did not finish`);
}

/**
 * Builds and packages the program as a developer does, as users get it: `npm run package -- --dir`.
 *
 * @returns the folder of the program's archive
 */
export function buildUserPackage(runtime: Runtime): string {
  const output = join(ROOT, 'build/package');
  rmSync(output, { recursive: true, force: true });
  run('npm', ['run', '--silent', 'package', '--', '--dir', ...getRuntimeWords(runtime, output)]);
  return join(output, 'linux-unpacked/resources');
}

/**
 * Makes a Debian package of what the runtime can run: by the same settings, of the build that suits it.
 *
 * @returns the package
 */
export function buildRunnableDeb(runtime: Runtime): string {
  const output = join(ROOT, 'build/package-deb');
  rmSync(output, { recursive: true, force: true });
  mkdirSync(output, { recursive: true });
  const app = getAppFolder(runtime);
  const words = [...getRuntimeWords(runtime, output), ...(app === ROOT ? [] : [`-c.directories.app=${app}`])];
  const builder = join(ROOT, 'node_modules/electron-builder/cli.js');
  run(process.execPath, ['--import', 'tsx', builder, '--linux', 'deb', ...words], {
    CUSTOM_FPM_PATH: writePacker(output),
  });
  const [deb] = readdirSync(output).filter((name) => name.endsWith('.deb'));
  assert.ok(deb !== undefined, 'no Debian package was made');
  return join(output, deb);
}
