// Asks the registry for published weaknesses of the packages in the lock file: npm run audit. Each that touches no user
// of this program is explained here; any other fails.
import { spawnSync } from 'node:child_process';
import { judgeAudit, parseAudit } from './audit-report';
import { ROOT } from './run-program';

/** Why an advisory does not touch this program, by its address. */
const EXCEPTIONS: Readonly<Record<string, string>> = {};

/** Exit code where the registry does not answer: neither passed nor failed. */
const NOT_ANSWERED = 69;

const { stdout, error } = spawnSync('npm', ['audit', '--json'], {
  cwd: ROOT,
  encoding: 'utf8',
  maxBuffer: 100_000_000,
  // On Windows npm is a script of the shell's.
  shell: process.platform === 'win32',
});
const answer = error === undefined ? parseAudit(stdout) : ({ kind: 'refused', why: error.message } as const);
const { lines, hasPassed } = judgeAudit(answer, EXCEPTIONS);
for (const line of lines) console.log(line);
process.exitCode = answer.kind === 'refused' ? NOT_ANSWERED : hasPassed ? 0 : 1;
