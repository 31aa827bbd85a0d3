// Runs every check and every test, all of them even when one fails, and closes with the counts of all.
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { getCommandPath, ROOT, runNode } from './run-program';
import {
  computeTotal,
  getCountsText,
  parsePlaywrightReport,
  parseTestCounts,
  parseVitestReport,
  type TestCounts,
} from './test-counts';

interface Step {
  name: string;
  run: () => TestCounts;
}

const REPORTS = join(ROOT, 'build/reports');

function getCheckCounts(code: number): TestCounts {
  return { passed: code === 0 ? 1 : 0, failed: code === 0 ? 0 : 1, skipped: 0 };
}

/** The counts of a test run; a run that failed without a failed test, or left no report, counts as one failure. */
function readCounts(reportPath: string, code: number, parse: (report: unknown) => TestCounts): TestCounts {
  try {
    const counts = parse(JSON.parse(readFileSync(reportPath, 'utf8')));
    return code !== 0 && counts.failed === 0 ? { ...counts, failed: 1 } : counts;
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    return getCheckCounts(1);
  }
}

function buildCheck(name: string, ...args: string[]): Step {
  return { name, run: () => getCheckCounts(runNode(args)) };
}

function buildVitestStep(name: string, project: string): Step {
  const report = join(REPORTS, `${project}.json`);
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
  const args = [getCommandPath('vitest', 'vitest.mjs'), 'run', '--project', project, ...reporters];
  return { name, run: () => readCounts(report, runNode(args), parseVitestReport) };
}

function buildE2eStep(): Step {
  const args = ['--import', 'tsx', 'tests/run/run-e2e.ts'];
  return {
    name: 'End-to-end tests',
    run: () => readCounts(join(REPORTS, 'e2e.json'), runNode(args), parsePlaywrightReport),
  };
}

/** Exit code of the Electron tests where there is no Electron to run them in. */
const NO_ELECTRON = 69;

function buildElectronStep(): Step {
  const args = ['--experimental-websocket', '--import', 'tsx', 'tests/electron/run-electron.ts', '--all'];
  return {
    name: 'Tests in Electron and of the package',
    run: () => {
      const code = runNode(args);
      // It has said why. Tests that did not run count as skipped, not as passed.
      return readCounts(join(REPORTS, 'electron.json'), code === NO_ELECTRON ? 0 : code, parseTestCounts);
    },
  };
}

const biome = getCommandPath('@biomejs/biome', 'bin/biome');

const layers = ['--config', 'tests/layers/layers.mjs', 'main', 'renderer', 'shared', 'tests', 'vite.config.ts'];

const steps: readonly Step[] = [
  buildCheck('Format', biome, 'format', '.'),
  buildCheck('Lint', biome, 'lint', '.', '--error-on-warnings'),
  buildCheck('Types', getCommandPath('typescript', 'bin/tsc'), '-b'),
  buildCheck('Layers', getCommandPath('dependency-cruiser', 'bin/dependency-cruise.mjs'), ...layers),
  buildVitestStep('Unit tests', 'unit'),
  buildVitestStep('Checks against published values', 'published'),
  buildE2eStep(),
  buildElectronStep(),
];

rmSync(REPORTS, { recursive: true, force: true });
mkdirSync(REPORTS, { recursive: true });

const results = steps.map(({ name, run }) => {
  console.log(`\n== ${name}`);
  const start = performance.now();
  return { name, counts: run(), seconds: (performance.now() - start) / 1000 };
});

console.log('');
for (const { name, counts, seconds } of results) {
  console.log(`${name}: ${getCountsText(counts)} (${seconds.toFixed(0)} s)`);
}
const total = computeTotal(results.map(({ counts }) => counts));
console.log(getCountsText(total));
process.exitCode = total.failed > 0 || total.passed === 0 ? 1 : 0;
