// Everything that takes long: npm run test:soak [seed]. Each program prints its counts; their sums close the run.
import { fork } from 'node:child_process';
import { join } from 'node:path';
import { ROOT } from '../run/run-program';
import { addReports, getReportText, type SoakReport } from './report';

const seed = Number(process.argv[2] ?? Math.floor(Math.random() * 1e9));
if (!Number.isInteger(seed)) throw new Error('The seed is a whole number.');

const BAD_FILES = 20_000;
/** A process of its own for each share: one that hangs or runs out of memory is then seen as such. */
const SHARES = 8;

/** Program and words; the longest first, so that both lanes end at about the same time. */
const PROGRAMS: readonly (readonly [string, ...string[]])[] = [
  ['soak-session'],
  ...Array.from({ length: SHARES }, (_, index): [string, ...string[]] => [
    'soak-bad-files',
    String(BAD_FILES / SHARES),
    String(seed + index),
  ]),
  ['soak-kills', '300', String(seed)],
  ['soak-readers', '10000', String(seed)],
  ['soak-largest'],
];

/** Each program keeps about one core busy. */
const LANES = 2;
/** None takes nearly so long; one that hangs is ended. */
const LONGEST_MS = 20 * 60_000;

interface Ran {
  program: string;
  minutes: number;
  reports: SoakReport[];
  hasPassed: boolean;
}

function runProgram([name, ...words]: readonly [string, ...string[]]): Promise<Ran> {
  const started = performance.now();
  const reports: SoakReport[] = [];
  const child = fork(join(ROOT, 'tests/soak', `${name}.ts`), words, {
    cwd: ROOT,
    execArgv: ['--import', 'tsx'],
    timeout: LONGEST_MS,
    killSignal: 'SIGKILL',
  });
  child.on('message', (message) => reports.push(message as SoakReport));
  return new Promise((resolve) => {
    const end = (hasPassed: boolean): void => {
      const minutes = (performance.now() - started) / 60_000;
      resolve({ program: [name, ...words].join(' '), minutes, reports, hasPassed });
    };
    child.on('error', () => end(false));
    // Not at its exit: what it has sent may still be on the way then.
    child.on('close', (code) => end(code === 0));
  });
}

const waiting = [...PROGRAMS];
const ran: Ran[] = [];

async function runLane(): Promise<void> {
  for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) ran.push(await runProgram(next));
}

const started = performance.now();
await Promise.all(Array.from({ length: LANES }, runLane));
const minutes = (performance.now() - started) / 60_000;

console.log(`\nTaken together, seed ${seed}:`);
for (const sum of addReports(ran.flatMap(({ reports }) => reports))) console.log(getReportText(sum));
for (const one of ran) console.log(`${one.program}: ${one.minutes.toFixed(1)} min${one.hasPassed ? '' : ', FAILED'}`);
const failed = ran.filter(({ hasPassed }) => !hasPassed).length;
console.log(`In ${minutes.toFixed(1)} minutes on ${LANES} lanes`);
console.log(`${ran.length - failed} passed, ${failed} failed`);
process.exitCode = failed > 0 ? 1 : 0;
