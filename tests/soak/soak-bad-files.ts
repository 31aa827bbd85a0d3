// Takes 20,000 spoilt plan and shop files from their text to their sheet, in two processes: part of npm run test:soak.
import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { type BadFileOutcome, runBadFiles } from './bad-files/run-bad-files';

const PROCESSES = 2;
const [countText = '20000', seedText = String(Math.floor(Math.random() * 1e9)), share] = process.argv.slice(2);
const count = Number(countText);
const seed = Number(seedText);

function showProgress({ read, refused, faults }: BadFileOutcome): void {
  console.log(`  seed ${seed}: ${read} brought to the sheet, ${refused} refused, ${faults.length} at fault`);
}

/** A process of its own for each share: one that hangs or runs out of memory is then seen as such. */
function runShare(index: number): Promise<BadFileOutcome> {
  const args = [String(Math.ceil(count / PROCESSES)), String(seed + index), 'share'];
  return new Promise((resolve, reject) => {
    const child = fork(fileURLToPath(import.meta.url), args, { execArgv: ['--import', 'tsx'] });
    child.on('message', (outcome) => resolve(outcome as BadFileOutcome));
    child.on('exit', (code) => reject(new Error(`A share ended by itself with ${code}.`)));
  });
}

if (share !== undefined) {
  process.send?.(await runBadFiles(count, seed, showProgress));
} else {
  const shares = await Promise.all(Array.from({ length: PROCESSES }, (_, index) => runShare(index)));
  const sum = (get: (outcome: BadFileOutcome) => number): number => shares.reduce((total, one) => total + get(one), 0);
  const faults = shares.flatMap((one) => one.faults);
  const slowest = Math.round(Math.max(...shares.map(({ slowestMs }) => slowestMs)));
  console.log(
    `Plans and shops: ${sum(({ read }) => read)} brought to the sheet, ${sum(({ refused }) => refused)} refused, ${faults.length} at fault; slowest ${slowest} ms of processor time. Seed ${seed}.`,
  );
  for (const fault of faults.slice(0, 20)) console.log(fault);
  process.exitCode = faults.length > 0 ? 1 : 0;
}
