// Everything that takes long, one after the other: npm run test:soak. Each prints its counts and its seed.
import { runNode } from '../run/run-program';

const PROGRAMS = ['soak-kills', 'soak-bad-files', 'soak-session', 'soak-readers'];

const started = performance.now();
const failed = PROGRAMS.filter((name) => {
  console.log(`\n== ${name}`);
  return runNode(['--import', 'tsx', `tests/soak/${name}.ts`]) !== 0;
});
const minutes = ((performance.now() - started) / 60_000).toFixed(1);
console.log(`\n${PROGRAMS.length - failed.length} passed, ${failed.length} failed, in ${minutes} minutes`);
process.exitCode = failed.length > 0 ? 1 : 0;
