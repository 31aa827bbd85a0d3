// Reads ten thousand files of each kind, changed at random: npm run test:soak [count] [seed]
import { OUTLINE_FILES } from '../data/outlines/outline-files';
import { LIST_FILES } from '../unit/lists/list-files';
import { fuzzReader, readDrawingWhole, readTableWhole } from '../unit/outline/fuzz-readers';
import { report } from './report';

/** Longest that one file may take here, ms; the program ends its reading thread later than that. */
const SLOWEST_MS = 2000;

const count = Number(process.argv[2] ?? 10_000);
const seed = Number(process.argv[3] ?? Math.floor(Math.random() * 1e9));
if (!Number.isInteger(count) || !Number.isInteger(seed)) throw new Error('Count and seed are whole numbers.');

// The damaged files make the reader's library complain of each; what counts is told below.
console.error = () => undefined;
const drawings = (ending: string) =>
  [...OUTLINE_FILES].filter(([name]) => name.endsWith(ending) && !name.includes('bomb'));
const kinds = [
  { kind: 'DXF', files: drawings('.dxf'), read: readDrawingWhole },
  { kind: 'SVG', files: drawings('.svg'), read: readDrawingWhole },
  { kind: 'CSV', files: LIST_FILES, read: readTableWhole },
];

let failed = 0;
for (const { kind, files, read } of kinds) {
  const { read: taken, refused, crashed, slowestMs, slowest } = fuzzReader(files, read, count, seed);
  report({
    check: `Readers, ${kind}`,
    counts: { read: taken, refused, crashed: crashed.length },
    most: { 'ms for one': Math.round(slowestMs), 'MB of memory': Math.round(process.memoryUsage().rss / 1e6) },
  });
  if (slowestMs > SLOWEST_MS) console.log(`Too slow: ${slowest}`);
  for (const crash of crashed.slice(0, 5)) console.log(crash);
  failed += crashed.length + (slowestMs > SLOWEST_MS ? 1 : 0);
}
console.log(`Seed ${seed}.`);
process.exitCode = failed > 0 ? 1 : 0;
