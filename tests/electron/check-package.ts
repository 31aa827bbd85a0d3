import { strict as assert } from 'node:assert';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { extractAll, listPackage } from '@electron/asar';
import { ROOT } from '../run/run-program';

/** Most that the program's own files may take; a package that goes in unnoticed takes more than the room left. */
const MOST_MB = 28;

/** What may be in the archive: the bundles, the page, fonts, samples, the icon, and packages that run. */
const EXPECTED = [
  /^\/(assets|assets\/(fonts|samples|icons|icons\/png)|build|build\/main|build\/renderer|build\/renderer\/assets)$/,
  /^\/package\.json$/,
  /^\/build\/main\/(desktop|desktop-[\w-]+|import-worker|import-worker-[\w-]+)\.js$/,
  /^\/build\/main\/preload\.cjs$/,
  /^\/build\/renderer\/(index\.html|licences\.txt)$/,
  /^\/build\/renderer\/assets\/[\w.-]+\.(js|css|ttf|wasm)$/,
  /^\/assets\/(fonts|samples)\/[\w.-]+$/,
  /^\/assets\/icons\/png\/256x256\.png$/,
  /^\/node_modules(\/|$)/,
];

/** What must not be, in packages either. */
const UNWANTED =
  /\.map$|\.d\.[cm]?ts$|\.tsx?$|\.md$|\/(tests?|__tests__|docs|examples?)\/|\/node_modules\/(electron|react|konva|vite|typescript|highs)(\/|$)/;

/** Packages that a bundle reads at run time. */
function listPackagesOf(bundle: string): string[] {
  const names = [...bundle.matchAll(/^import [^;]*?["']([^"']+)["'];$/gm)].map(([, name]) => name ?? '');
  return names.filter((name) => !/^(node:|\.|electron$)/.test(name) && !builtinModules.includes(name));
}

/** @throws AssertionError where the archive holds what does not run, lacks what does, or is too large */
export function checkPackage(archive: string): { files: number; megabytes: number } {
  const names = listPackage(archive, { isPack: false });
  const strangers = names.filter((name) => UNWANTED.test(name) || !EXPECTED.some((pattern) => pattern.test(name)));
  assert.deepEqual(strangers, [], 'the package holds what does not run');
  const megabytes = statSync(archive).size / 1e6;
  assert.ok(megabytes < MOST_MB, `the package holds ${megabytes.toFixed(1)} MB`);
  const folder = mkdtempSync(join(tmpdir(), 'kerfgrip-package-'));
  try {
    extractAll(archive, folder);
    for (const file of ['desktop.js', 'import-worker.js']) {
      const packages = listPackagesOf(readFileSync(join(folder, 'build/main', file), 'utf8'));
      const script = packages.map((name) => `await import(${JSON.stringify(name)});`).join('\n');
      const { status, stderr } = spawnSync(process.execPath, ['--input-type=module', '-e', script], {
        cwd: folder,
        encoding: 'utf8',
        env: { PATH: process.env.PATH, NODE_PATH: '' },
      });
      assert.equal(status, 0, `the package lacks what ${file} reads: ${stderr}`);
    }
    const own = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as { version: string };
    const { version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { version: string };
    assert.equal(own.version, version);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return { files: names.length, megabytes };
}
