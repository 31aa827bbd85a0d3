import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { ROOT } from '../../run/run-program';

/** Licences that let a program under the MIT licence carry the package along, with its notice. */
const MAY_BE_CARRIED = new Set(['MIT', 'ISC', 'Apache-2.0', 'BSD-2-Clause', 'BSD-3-Clause', '0BSD', 'BlueOak-1.0.0']);

/** Licences of tools that build and test and are not carried along. */
const MAY_BE_USED = new Set([...MAY_BE_CARRIED, 'MPL-2.0', 'Python-2.0', 'WTFPL', 'CC0-1.0']);

/** Packages whose package.json does not say; what their licence file says. */
const SAID_ELSEWHERE: Readonly<Record<string, { file: string; says: RegExp; licence: string }>> = {
  'png-js': { file: 'LICENSE', says: /^MIT License/, licence: 'MIT' },
};

interface Manifest {
  name: string;
  license?: string;
  dependencies?: Record<string, string>;
  allowScripts?: Record<string, boolean>;
}

interface Locked {
  license?: string;
  hasInstallScript?: boolean;
}

const readJson = (path: string): unknown => JSON.parse(readFileSync(path, 'utf8'));
const own = readJson(join(ROOT, 'package.json')) as Manifest;
const { packages } = readJson(join(ROOT, 'package-lock.json')) as { packages: Record<string, Locked> };
const getName = (lockPath: string): string => lockPath.slice(lockPath.lastIndexOf('node_modules/') + 13);

/** What starts and packages the program is no part of it. */
const isTool = (file: string): boolean => ['start', 'package'].some((folder) => file.startsWith(join('main', folder)));

/** Names of the packages that the program's own files import, those the page bundles included. */
function listImported(): Set<string> {
  const names = new Set(['electron', ...Object.keys(own.dependencies ?? {})]);
  const folders = ['main', 'renderer', 'shared'];
  const files = folders.flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' }).map((file) => join(folder, file)),
  );
  for (const file of files) {
    if (!/\.tsx?$/.test(file) || isTool(file)) continue;
    const text = readFileSync(join(ROOT, file), 'utf8');
    for (const [, name] of text.matchAll(/(?:from|import) ?\(?'((?:@[^/']+\/)?[^./'][^/']*)(?:\/[^']*)?'/g)) {
      if (name !== undefined && !name.startsWith('node:')) names.add(name);
    }
  }
  return names;
}

/** Where Node would find a package from a folder. */
function findPackage(name: string, from: string): string | undefined {
  for (let folder = from; folder.startsWith(ROOT); folder = dirname(folder)) {
    const found = join(folder, 'node_modules', name);
    if (existsSync(join(found, 'package.json'))) return found;
  }
  return undefined;
}

/** Folders of all packages that the program carries, by what each needs in turn. */
function listCarried(): Set<string> {
  const carried = new Set<string>();
  const visit = (name: string, from: string): void => {
    const folder = findPackage(name, from);
    if (folder === undefined || carried.has(folder)) return;
    carried.add(folder);
    const { dependencies = {} } = readJson(join(folder, 'package.json')) as Manifest;
    for (const needed of Object.keys(dependencies)) visit(needed, folder);
  };
  for (const name of listImported()) visit(name, ROOT);
  return carried;
}

/** The licences a package may be taken under: any of an OR, all of an AND. */
function getIsAllowed(licence: string, allowed: ReadonlySet<string>): boolean {
  const bare = licence.replace(/^\(|\)$/g, '');
  if (bare.includes(' OR ')) return bare.split(' OR ').some((one) => allowed.has(one));
  return bare.split(' AND ').every((one) => allowed.has(one));
}

function getLicence(folder: string): string {
  const { name, license } = readJson(join(folder, 'package.json')) as Manifest;
  const elsewhere = SAID_ELSEWHERE[name];
  if (license !== undefined || elsewhere === undefined) return license ?? 'none';
  return elsewhere.says.test(readFileSync(join(folder, elsewhere.file), 'utf8')) ? elsewhere.licence : 'none';
}

test('every package that the program carries has a licence that lets it', () => {
  const carried = [...listCarried()];
  const counts = new Map<string, number>();
  const refused: string[] = [];
  for (const folder of carried) {
    const licence = getLicence(folder);
    counts.set(licence, (counts.get(licence) ?? 0) + 1);
    if (!getIsAllowed(licence, MAY_BE_CARRIED)) refused.push(`${folder}: ${licence}`);
  }
  console.log(`Packages carried: ${carried.length} (${[...counts].map(([name, n]) => `${n} ${name}`).join(', ')})`);
  expect(refused).toEqual([]);
  expect(carried.map((folder) => getName(folder))).toEqual(expect.arrayContaining(['react', 'konva', 'pdfkit', 'zod']));
});

test('every tool in the lock file has a licence that lets it be used', () => {
  const refused = Object.entries(packages).flatMap(([path, { license }]) => {
    const licence = license ?? SAID_ELSEWHERE[getName(path)]?.licence ?? 'none';
    return path === '' || getIsAllowed(licence, MAY_BE_USED) ? [] : [`${path}: ${licence}`];
  });
  expect(refused).toEqual([]);
});

test('no package needs its install script: each that has one is named and not allowed to run it', () => {
  const withScript = Object.entries(packages).filter(([, { hasInstallScript }]) => hasInstallScript === true);
  const names = [...new Set(withScript.map(([path]) => getName(path)))].sort();
  expect(own.allowScripts).toEqual(Object.fromEntries(names.map((name) => [name, false])));
});

test('every font comes with its licence', () => {
  const files = readdirSync(join(ROOT, 'assets/fonts'));
  const families = new Set(files.filter((file) => file.endsWith('.ttf')).map((file) => file.split(/[-.]/)[0]));
  const bare = [...families].filter(
    (family) => !files.some((file) => file.startsWith(`${family}-`) && /\.txt$/.test(file)),
  );
  expect(bare).toEqual([]);
});
