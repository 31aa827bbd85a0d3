// Does with `dpkg-deb` what electron-builder asks of fpm, which makes a Debian package of folders and files and has to
// be downloaded from where not every machine may. Files, fields and scripts are all electron-builder's own.
import { spawnSync } from 'node:child_process';
import { chmodSync, cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { parseArgs } from 'node:util';

const text = { type: 'string' } as const;
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    input: { ...text, short: 's' },
    target: { ...text, short: 't' },
    force: { type: 'boolean' },
    depends: { ...text, short: 'd', multiple: true },
    'deb-recommends': { ...text, multiple: true },
    'deb-compression': text,
    'deb-priority': text,
    architecture: text,
    'after-install': text,
    'after-remove': text,
    description: text,
    version: text,
    package: text,
    name: text,
    maintainer: text,
    vendor: text,
    url: text,
    license: text,
  },
});

/** A value that a package cannot do without. */
function need(name: 'package' | 'name' | 'version' | 'architecture' | 'maintainer' | 'description'): string {
  const value = values[name];
  if (value === undefined || value === '') throw new Error(`--${name} is missing.`);
  return value;
}

/** The fields of a binary package (Debian Policy, chapter 5). */
function buildControl(): string {
  const fields: [string, string | undefined][] = [
    ['Package', need('name')],
    ['Version', need('version')],
    ['Architecture', need('architecture')],
    ['Maintainer', need('maintainer')],
    ['Priority', values['deb-priority']],
    ['Homepage', values.url],
    ['Depends', values.depends?.join(', ')],
    ['Recommends', values['deb-recommends']?.join(', ')],
    // Its first line is the synopsis; the lines after it are indented.
    [
      'Description',
      need('description')
        .trim()
        .split('\n')
        .map((line) => line.trim())
        .join('\n '),
    ],
  ];
  return fields.flatMap(([name, value]) => (value === undefined ? [] : `${name}: ${value}\n`)).join('');
}

const stage = mkdtempSync(join(tmpdir(), 'kerfgrip-deb-'));
try {
  for (const pair of positionals) {
    const [, from = '', to = ''] = /^(.*?)=(\/.*)$/.exec(pair) ?? [];
    mkdirSync(dirname(join(stage, to)), { recursive: true });
    cpSync(from, join(stage, to), { recursive: true, verbatimSymlinks: true });
  }
  mkdirSync(join(stage, 'DEBIAN'));
  writeFileSync(join(stage, 'DEBIAN/control'), buildControl());
  for (const [script, from] of [
    ['postinst', values['after-install']],
    ['postrm', values['after-remove']],
  ] as const) {
    if (from === undefined) continue;
    cpSync(from, join(stage, 'DEBIAN', script));
    chmodSync(join(stage, 'DEBIAN', script), 0o755);
  }
  // Packed for tests alone, so not pressed together.
  const words = ['--root-owner-group', '-Znone', '--build', stage, need('package')];
  process.exitCode = spawnSync('dpkg-deb', words, { stdio: 'inherit' }).status ?? 1;
} finally {
  rmSync(stage, { recursive: true, force: true });
}
