// Everything that takes long: npm run test:soak. Each program prints its counts and its seed.
import { spawn } from 'node:child_process';
import { ROOT } from '../run/run-program';

/** Side by side where each keeps one core busy; the last takes two. */
const STAGES: readonly (readonly string[][])[] = [
  [['soak-kills', 'soak-session'], ['soak-readers']],
  [['soak-bad-files']],
];

function runProgram(name: string): Promise<boolean> {
  const args = ['--import', 'tsx', `tests/soak/${name}.ts`];
  return new Promise((resolve) => {
    const child = spawn(process.execPath, args, { cwd: ROOT, stdio: 'inherit' });
    child.on('error', () => resolve(false));
    child.on('exit', (code) => resolve(code === 0));
  });
}

/** One program after the other; gives back those that failed. */
async function runLane(names: readonly string[]): Promise<string[]> {
  const failed: string[] = [];
  for (const name of names) if (!(await runProgram(name))) failed.push(name);
  return failed;
}

const started = performance.now();
const failed: string[] = [];
for (const lanes of STAGES) failed.push(...(await Promise.all(lanes.map(runLane))).flat());
const minutes = ((performance.now() - started) / 60_000).toFixed(1);
const total = STAGES.flat(2).length;
for (const name of failed) console.log(`Failed: ${name}`);
console.log(`${total - failed.length} passed, ${failed.length} failed, in ${minutes} minutes`);
process.exitCode = failed.length > 0 ? 1 : 0;
