// Takes spoilt plan and shop files from their text to their sheet: part of npm run test:soak.
import { runBadFiles } from './bad-files/run-bad-files';
import { report } from './report';

/** Longest that one file may take from its text to its sheet, ms of the processor. */
const LONGEST_MS = 2000;

const count = Number(process.argv[2] ?? 1000);
const seed = Number(process.argv[3] ?? Math.floor(Math.random() * 1e9));
if (!Number.isInteger(count) || !Number.isInteger(seed)) throw new Error('Count and seed are whole numbers.');

const { read, refused, faults, slowestMs } = await runBadFiles(count, seed, LONGEST_MS);
report({
  check: 'Plans and shops',
  counts: { 'spoilt files': read + refused, 'brought to the sheet': read, refused, 'at fault': faults.length },
  most: { 'ms of the processor for one': Math.round(slowestMs) },
});
for (const fault of faults.slice(0, 20)) console.log(`Seed ${seed}, ${fault}`);
process.exitCode = faults.length > 0 ? 1 : 0;
