// Kills a process that saves a plan and writes its journal, 300 times: part of npm run test:soak.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'vite';
import { ROOT } from '../run/run-program';
import { createChance } from './bad-files/spoil-json';
import { killWhileSaving } from './kills/kill-saves';

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
  console.log(
    `Kills: ${outcome.kills}, ${outcome.midway} in the middle of a write; ${outcome.whole} of ${2 * kills} plans and journals whole. Seed ${seed}.`,
  );
  for (const fault of outcome.faults.slice(0, 10)) console.log(fault);
  process.exitCode = outcome.faults.length > 0 ? 1 : 0;
} finally {
  rmSync(folder, { recursive: true, force: true });
  rmSync(bundle, { recursive: true, force: true });
}
