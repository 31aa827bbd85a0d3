// The checks themselves are checked: each must refuse what it is there to refuse.
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { getCommandPath, ROOT } from '../../run/run-program';

function getLayerErrors(folder: string): string[] {
  const files = ['main', 'renderer', 'shared'];
  const args = [getCommandPath('dependency-cruiser', 'bin/dependency-cruise.mjs'), '--config', LAYERS, ...files];
  const { stdout } = spawnSync(process.execPath, args, { cwd: folder, encoding: 'utf8' });
  return stdout.split('\n').flatMap((line) => /error (\S+: \S+(?: → \S+)?)/.exec(line)?.[1] ?? []);
}

const LAYERS = join(ROOT, 'tests/layers/layers.mjs');

describe('layers', () => {
  let folder = '';

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'kerfgrip-layers-'));
    const files = {
      'package.json': '{ "type": "module" }',
      'shared/units/upward.ts': `import type { Plan } from '../model/plan';\nexport type Upward = Plan;\n`,
      'shared/model/plan.ts': `export type { Step } from '../engine/step';\nexport type Plan = number;\n`,
      'shared/engine/step.ts': `export type { Plan } from '../model/plan';\nexport type Step = string;\n`,
      'shared/findings/read.ts': `import { readFile } from 'node:fs';\nexport const read = readFile;\n`,
      'shared/drawing/lost.ts': `export { lost } from '../engine/not-there';\n`,
      'shared/elsewhere/alone.ts': `export const alone = 1;\n`,
      'renderer/page.tsx': `import { save } from '../main/services/save';\nexport const page = <b title="x">{save}</b>;\n`,
      'main/services/save.ts': `import type { Window } from '../desktop/window';\nexport const save: Window = 1;\n`,
      'main/desktop/window.ts': `export type Window = number;\n`,
    };
    for (const [path, text] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
  });

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('refuse each forbidden import, type-only ones too, unresolved ones and files in no layer', () => {
    expect(getLayerErrors(folder).sort()).toEqual([
      'circular: shared/engine/step.ts',
      'file-in-no-layer: shared/elsewhere/alone.ts',
      'not-in-allowed: main/services/save.ts → main/desktop/window.ts',
      'not-in-allowed: renderer/page.tsx → main/services/save.ts',
      'not-in-allowed: shared/drawing/lost.ts → ../engine/not-there',
      'not-in-allowed: shared/findings/read.ts → fs',
      'not-in-allowed: shared/model/plan.ts → shared/engine/step.ts',
      'not-in-allowed: shared/units/upward.ts → shared/model/plan.ts',
      'unresolved: shared/drawing/lost.ts → ../engine/not-there',
    ]);
  }, 30_000);
});

describe('lint', () => {
  let folder = '';

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'kerfgrip-lint-'));
    for (const path of ['biome.json', 'tests/lint/pure.grit', 'tests/lint/import-type.grit', '.gitignore']) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      copyFileSync(join(ROOT, path), join(folder, path));
    }
  });

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  function getLintOutput(path: string, text: string): string {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
    const args = [getCommandPath('@biomejs/biome', 'bin/biome'), 'lint', '--colors=off', path];
    const { stdout, stderr } = spawnSync(process.execPath, args, { cwd: folder, encoding: 'utf8' });
    return stdout + stderr;
  }

  it.each([
    ['Date.now()', 'no clock'],
    ['new Date()', 'no clock'],
    ['Math.random()', 'no randomness'],
    ['new Intl.NumberFormat()', 'no locale'],
    ['(1234.5).toLocaleString()', 'no locale'],
    ["'a'.localeCompare('b')", 'no locale'],
  ])(
    'refuses %s in shared/ and nowhere else',
    (expression, why) => {
      const text = `export const value = ${expression};\n`;
      expect(getLintOutput('shared/units/example.ts', text)).toContain(`shared/ has ${why}`);
      expect(getLintOutput('main/services/example.ts', text)).toContain('Checked 1 file');
      expect(getLintOutput('main/services/example.ts', text)).not.toContain('shared/ has');
    },
    30_000,
  );

  it('refuses an import inside a type, which the check of the layers does not see', () => {
    const text = "export type Step = import('../engine/step').Step;\n";
    expect(getLintOutput('shared/units/example.ts', text)).toContain('check of the import layers');
    expect(getLintOutput('main/services/example.ts', text)).toContain('check of the import layers');
    expect(getLintOutput('shared/units/example.ts', text.replaceAll('.Step', ''))).toContain(
      'check of the import layers',
    );
    expect(getLintOutput('main/services/example.ts', "export const load = () => import('./other');\n")).not.toContain(
      'check of the import layers',
    );
  }, 30_000);

  it('refuses default exports and star re-exports', () => {
    expect(getLintOutput('shared/units/example.ts', 'export default 1;\n')).toContain('noDefaultExport');
    expect(getLintOutput('shared/units/example.ts', "export * from './other';\n")).toContain('noReExportAll');
  }, 30_000);
});

describe('types', () => {
  let folder = '';

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'kerfgrip-types-'));
  });

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('know neither the page nor Node in shared/, whatever its packages bring along', () => {
    const lines = ['document.title', 'process.pid', 'setTimeout(() => 1)', "fetch('a')", 'new Uint8Array(1)'];
    writeFileSync(
      join(folder, 'probe.ts'),
      `${lines.map((line, at) => `export const v${at} = ${line};`).join('\n')}\n`,
    );
    const project = {
      extends: join(ROOT, 'tsconfig.shared.json'),
      compilerOptions: { tsBuildInfoFile: join(folder, 'info') },
      include: [join(folder, 'probe.ts'), join(ROOT, 'shared')],
    };
    writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify(project));
    const args = [getCommandPath('typescript', 'bin/tsc'), '-p', join(folder, 'tsconfig.json'), '--pretty', 'false'];
    const { stdout } = spawnSync(process.execPath, args, { cwd: folder, encoding: 'utf8' });
    const refused = stdout.split('\n').flatMap((line) => /probe\.ts\((\d+),/.exec(line)?.[1] ?? []);
    expect(refused).toEqual(['1', '2', '3', '4']);
  }, 30_000);
});
