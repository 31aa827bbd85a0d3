import { strict as assert } from 'node:assert';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { join } from 'node:path';
import { extractFile, listPackage } from '@electron/asar';
import { ROOT } from '../run/run-program';

/** Most that the program's own files may take; a library that goes in unnoticed takes more than the room left. */
const MOST_MB = 16;

/** What may be in the archive: the bundles, the page, fonts, samples and the icon. */
const EXPECTED = [
  /^\/(assets|assets\/(fonts|samples|icons|icons\/png)|build|build\/main|build\/renderer|build\/renderer\/assets)$/,
  /^\/package\.json$/,
  /^\/build\/main\/(desktop(-[\w-]+)?|import-worker|preload)\.cjs$/,
  /^\/build\/renderer\/(index\.html|assets\/[\w.-]+\.(js|css|ttf))$/,
  /^\/assets\/(fonts\/[\w-]+\.ttf|samples\/[\w-]+\.kgplan)$/,
  /^\/assets\/icons\/png\/256x256\.png$/,
];

/** What has to be there beside what the bundles name by themselves. */
const NEEDED = ['/build/main/desktop.cjs', '/build/main/import-worker.cjs', '/build/main/preload.cjs', '/package.json'];

/** Each file of licences, and the source maps that tell what it has to cover. */
const LICENCES: Readonly<Record<string, RegExp>> = {
  'program.txt': /^main\/desktop.*\.map$/,
  'drawings.txt': /^main\/import-worker.*\.map$/,
  'page.txt': /^renderer\/assets\/.*\.map$/,
};

/** What a bundle imports, as an ES module or otherwise. */
function listImports(bundle: string): string[] {
  const imports = [
    ...bundle.matchAll(/^import [^;]*?["']([^"']+)["'];$/gm),
    ...bundle.matchAll(/\brequire\(["']([^"']+)["']\)/g),
  ];
  return imports.map(([, name]) => name ?? '');
}

/** Packages whose code went into a bundle. */
function listBundled(map: string): string[] {
  const { sources } = JSON.parse(map) as { sources: string[] };
  return sources.flatMap((source) => /.*node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(source)?.[1] ?? []);
}

/** @throws AssertionError where a package went into a bundle and its licence into no file */
function checkLicences(resources: string): void {
  const built = readdirSync(join(ROOT, 'build'), { recursive: true, encoding: 'utf8' });
  for (const [file, isMap] of Object.entries(LICENCES)) {
    const maps = built.filter((path) => isMap.test(path));
    assert.ok(maps.length > 0, `no source map tells what ${file} has to cover`);
    const bundled = new Set(maps.flatMap((path) => listBundled(readFileSync(join(ROOT, 'build', path), 'utf8'))));
    const text = readFileSync(join(resources, 'licences', file), 'utf8');
    const bare = [...bundled].filter((name) => !text.includes(`\n## ${name} - `));
    assert.deepEqual(bare, [], `${file} lacks licences`);
  }
  const fonts = readdirSync(join(ROOT, 'assets/fonts')).filter((name) => name.endsWith('.txt'));
  assert.ok(fonts.length > 0);
  assert.deepEqual(readdirSync(join(resources, 'licences/fonts')).sort(), fonts.sort());
  const own = readFileSync(join(resources, 'licences/kerfgrip.txt'), 'utf8');
  assert.equal(own, readFileSync(join(ROOT, 'LICENSE'), 'utf8'));
}

/**
 * Checks what went into a package.
 *
 * @param resources the folder of the program's archive, as `npm run package` left it
 * @returns how many files and folders the archive has, and its size
 * @throws AssertionError where it holds what does not run, lacks what does, is too large, or brings no licences
 */
export function checkPackage(resources: string): { files: number; megabytes: number } {
  const archive = join(resources, 'app.asar');
  const names = listPackage(archive, { isPack: false });
  const strangers = names.filter((name) => !EXPECTED.some((pattern) => pattern.test(name)));
  assert.deepEqual(strangers, [], 'the package holds what does not run');
  assert.deepEqual(
    NEEDED.filter((name) => !names.includes(name)),
    [],
    'the package lacks what runs',
  );
  const megabytes = statSync(archive).size / 1e6;
  assert.ok(megabytes < MOST_MB, `the package holds ${megabytes.toFixed(1)} MB`);
  for (const bundle of names.filter((name) => /^\/build\/main\/.*\.c?js$/.test(name))) {
    const imports = listImports(extractFile(archive, bundle.slice(1)).toString('utf8'));
    const outside = imports.filter((name) => !/^(node:|\.\/|electron$)/.test(name) && !builtinModules.includes(name));
    assert.deepEqual(outside, [], `${bundle} reads packages that are not there`);
  }
  checkLicences(resources);
  return { files: names.length, megabytes };
}
