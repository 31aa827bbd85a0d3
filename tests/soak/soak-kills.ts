// Kills a process that saves a plan, its journal, the shop and the recent plans, 300 times: part of npm run test:soak.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'vite';
import { ROOT } from '../run/run-program';
import { createChance } from './bad-files/spoil-json';
import { KILLED_FILES, killWhileSaving } from './kills/kill-saves';
import { report } from './report';

const kills = Number(process.argv[2] ?? 300);
const seed = Number(process.argv[3] ?? Math.floor(Math.random() * 1e9));
const folder = mkdtempSync(join(tmpdir(), 'kerfgrip-soak-'));
const bundle = join(ROOT, 'build/soak');
try {
  // Made into one file, the program starts in a fraction of the time.
  await build({
    root: ROOT,
    configFile: false,
    logLevel: 'error',
    publicDir: false,
    ssr: { noExternal: ['zod', 'fraction.js'] },
    build: { ssr: 'tests/soak/kills/save-until-killed.ts', outDir: bundle, target: 'node20', minify: false },
  });
  const outcome = await killWhileSaving({
    folder,
    kills,
    program: [join(bundle, 'save-until-killed.js')],
    chance: createChance(seed),
  });
  report({
    check: 'Kills in the middle of saving',
    counts: {
      kills: outcome.kills,
      'of them in mid-write': outcome.midway,
      [`of ${KILLED_FILES * kills} plans, journals, shops and lists whole`]: outcome.whole,
      'at fault': outcome.faults.length,
    },
    most: {},
  });
  for (const fault of outcome.faults.slice(0, 10)) console.log(fault);
  process.exitCode = outcome.faults.length > 0 ? 1 : 0;
} finally {
  rmSync(folder, { recursive: true, force: true });
  rmSync(bundle, { recursive: true, force: true });
}
