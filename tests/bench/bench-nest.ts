import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { type BinInstance, computeBinAnswer, parseBinInstance } from '../../shared/nest/bin-instance';
import { computeNest, computeNestTotals, LIGHT_BUDGET } from '../../shared/nest/compute-nest';
import { makeRandom, makeShopJob } from '../unit/nest/random-jobs';
import { solveWithHighs } from './arc-flow';
import { countFirstFitBins, priceFirstFit } from './first-fit';

/**
 * The nesting measured on public instances and on jobs as a shop has them, beside first-fit decreasing (what people do by hand)
 * and a plain arc-flow model given to HiGHS, all in the same run.
 *
 *   npm run bench:nest -- [FOLDER] [--limit 60] [--baseline-sample 3] [--baseline-limit 60] [--shop 40] [--list]
 */
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    limit: { type: 'string', default: '60' },
    'baseline-sample': { type: 'string', default: '3' },
    'baseline-limit': { type: 'string' },
    shop: { type: 'string', default: '40' },
    list: { type: 'boolean', default: false },
  },
});
const limitS = Number(values.limit);
const sampleSize = Number(values['baseline-sample']);
const baselineLimitS = Number(values['baseline-limit'] ?? values.limit);

interface Timed {
  readonly instance: BinInstance;
  readonly bins: number;
  readonly bound: number;
  readonly isProven: boolean;
  readonly ms: number;
}

function findFolder(): string {
  const asked = positionals[0] ?? process.env.KERFGRIP_BPP;
  if (asked) return asked;
  const beside = fileURLToPath(new URL('../../../shared/data/bpp', import.meta.url));
  return existsSync(beside) ? beside : fileURLToPath(new URL('../data', import.meta.url));
}

function readInstances(file: string): BinInstance[] {
  return readFileSync(file, 'utf8')
    .split('\n')
    .flatMap((text) => {
      const line = parseBinInstance(text);
      if (line.kind === 'refused') console.warn(`${basename(file)}: ${line.reason}`);
      return line.kind === 'instance' ? [line.instance] : [];
    });
}

function solveTimed(instance: BinInstance): Timed {
  const start = performance.now();
  const shouldStop = (): boolean => performance.now() - start > limitS * 1000;
  const { bins, bound, isProven } = computeBinAnswer(instance, { workUnits: Number.MAX_SAFE_INTEGER, shouldStop });
  return { instance, bins, bound, isProven, ms: performance.now() - start };
}

function getMedian(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}

const formatMs = (ms: number): string => (ms < 10 ? ms.toFixed(1) : ms.toFixed(0));

function printRow(cells: readonly (string | number)[], widths: readonly number[]): void {
  console.log(cells.map((cell, k) => String(cell)[k === 0 ? 'padEnd' : 'padStart'](widths[k] ?? 8)).join('  '));
}

function getClass(instance: BinInstance, file: string): string {
  const kind = /^Falkenauer_([ut])\d+/.exec(instance.name)?.[1];
  return kind ? `falkenauer ${kind}` : basename(file, '.tsv');
}

async function benchPublic(folder: string): Promise<void> {
  const classes = new Map<string, Timed[]>();
  const files = readdirSync(folder).filter(
    (file) => file.endsWith('.tsv') && (!file.startsWith('bpp-') || folder.endsWith('data')),
  );
  for (const file of files.sort()) {
    for (const instance of readInstances(join(folder, file))) {
      const timed = solveTimed(instance);
      const name = getClass(instance, file);
      classes.set(name, [...(classes.get(name) ?? []), timed]);
      const isWrong = instance.knownBins !== undefined && timed.isProven && timed.bins !== instance.knownBins;
      if (values.list || !timed.isProven || isWrong) {
        const known = `known ${instance.knownBound}..${instance.knownBins}`;
        console.log(
          `  ${instance.name}: ${timed.bound}..${timed.bins} in ${formatMs(timed.ms)} ms, ${known}${isWrong ? ' WRONG' : ''}`,
        );
      }
    }
  }
  const widths = [14, 9, 7, 9, 9, 8, 11, 9];
  printRow(['class', 'instances', 'proven', 'median ms', 'worst ms', 'total s', 'FFD wastes', 'FFD exact'], widths);
  const all: [string, Timed[]][] = [...classes, ['all', [...classes.values()].flat()]];
  for (const [name, list] of all) {
    const times = list.map((timed) => timed.ms);
    const wasted = list.map(({ instance, bins }) => countFirstFitBins(instance) - bins);
    printRow(
      [
        name,
        list.length,
        list.filter((timed) => timed.isProven).length,
        formatMs(getMedian(times)),
        formatMs(Math.max(...times)),
        (times.reduce((a, b) => a + b, 0) / 1000).toFixed(1),
        `${wasted.reduce((a, b) => a + b, 0)} bars`,
        wasted.filter((bars) => bars === 0).length,
      ],
      widths,
    );
  }
  if (sampleSize > 0) await benchBaseline(classes);
}

/** A spread of instances of each class given to HiGHS as one arc-flow model each. */
async function benchBaseline(classes: ReadonlyMap<string, readonly Timed[]>): Promise<void> {
  console.log(`\nplain arc-flow model given to HiGHS, ${sampleSize} instances a class, ${baselineLimitS} s each`);
  const widths = [14, 9, 12, 10, 14, 14, 12];
  printRow(
    ['class', 'instances', 'HiGHS proves', 'we prove', 'HiGHS median ms', 'our median ms', 'times ratio'],
    widths,
  );
  for (const [name, list] of classes) {
    const step = Math.max(1, Math.floor(list.length / sampleSize));
    const sample = list.filter((_, k) => k % step === 0).slice(0, sampleSize);
    const outcomes = [];
    for (const { instance } of sample) outcomes.push(await solveWithHighs(instance, baselineLimitS));
    const highsTotal = outcomes.reduce((sum, outcome) => sum + outcome.ms, 0);
    const ourTotal = sample.reduce((sum, timed) => sum + timed.ms, 0);
    printRow(
      [
        name,
        sample.length,
        outcomes.filter((outcome) => outcome.isProven).length,
        sample.filter((timed) => timed.isProven).length,
        formatMs(getMedian(outcomes.map((outcome) => outcome.ms))),
        formatMs(getMedian(sample.map((timed) => timed.ms))),
        `${(highsTotal / ourTotal).toFixed(0)} x`,
      ],
      widths,
    );
    for (const { note } of outcomes) if (!/Optimal|Time limit/.test(note)) console.log(`  HiGHS: ${note}`);
  }
}

function benchShop(count: number): void {
  const jobs = Array.from({ length: count }, (_, seed) => makeShopJob(seed));
  const runs = jobs.map((job) => {
    const start = performance.now();
    const shouldStop = (): boolean => performance.now() - start > Math.min(limitS, 10) * 1000;
    const result = computeNest(job, { workUnits: Number.MAX_SAFE_INTEGER, shouldStop });
    return { result, ms: performance.now() - start, byHand: priceFirstFit(job) };
  });
  const times = runs.map((run) => run.ms);
  const extra = runs.map((run) => run.byHand / run.result.totalMinor - 1);
  const gaps = runs.map((run) => run.result.gap);
  console.log(
    `\njobs as a shop has them: 3-60 lengths, 1-500 off, 2-5 bar lengths, remnants, kerf; ${Math.min(limitS, 10)} s each`,
  );
  console.log(
    `  ${count} jobs, ${runs.filter((run) => run.result.isProven).length} proven to the cent, largest gap ${(100 * Math.max(...gaps)).toFixed(3)} %`,
  );
  console.log(`  median ${formatMs(getMedian(times))} ms, worst ${formatMs(Math.max(...times))} ms`);
  console.log(
    `  first-fit decreasing costs ${(100 * getMedian(extra)).toFixed(1)} % more at the median, ${(100 * Math.max(...extra)).toFixed(1)} % at worst`,
  );
}

function benchSections(): void {
  const random = makeRandom(60);
  const demands = Array.from({ length: 40 }, (_, k) => ({
    id: `p${k}`,
    parts: 1 + random(20),
    choices: [{ partsPerBlank: 1, lengthNm: (60 + random(900)) * 500_000 }],
  }));
  const sections = Array.from({ length: 60 }, (_, k) => ({
    demands,
    stocks: [3000, 4000, 6000].map((length, n) => ({
      id: `bar-${n}`,
      kind: 'new' as const,
      lengthNm: length * 1_000_000,
      costMinor: Math.round(length * (1 + k / 30)) + random(300),
      worthMinor: 0,
      quantity: null,
    })),
    kerfNm: 2_500_000,
    ends: { squaringTrimNm: 3_000_000, badEndLeftNm: 0, badEndRightNm: 0, stubNm: 0 },
    remnantMinNm: 200_000_000,
  }));
  const passes: number[] = [];
  let gap = 0;
  for (let pass = 0; pass < 5; pass++) {
    const start = performance.now();
    for (const section of sections) {
      const { boundMinor, totalMinor } = computeNestTotals(section, LIGHT_BUDGET);
      gap = Math.max(gap, 1 - boundMinor / totalMinor);
    }
    passes.push(performance.now() - start);
  }
  console.log(
    `\n60 sections x 40 part lengths x 3 bar lengths on the light budget: ${formatMs(getMedian(passes))} ms for all, largest gap ${(100 * gap).toFixed(2)} %`,
  );
}

const folder = findFolder();
console.log(
  `${new Date().toISOString().slice(0, 10)}, Node ${process.version}, ${cpus().length} x ${cpus()[0]?.model ?? 'unknown'}, limit ${limitS} s\n`,
);
await benchPublic(folder);
if (Number(values.shop) > 0) benchShop(Number(values.shop));
benchSections();
