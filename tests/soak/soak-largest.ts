// Takes the largest plan that a file may hold, each of its parts another length, to its sheet: part of npm run test:soak.
import { buildSheet } from '../../shared/drawing/sheet/build-sheet';
import { buildDrawingSet } from '../../shared/drawing/views/drawing-set';
import { evaluate } from '../../shared/evaluate';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import { parsePlanText } from '../../shared/model/parse-plan';
import { LONGEST_JOB_LIST } from '../../shared/model/schema-fields';
import { serializePlan } from '../../shared/model/serialize';
import { readSamplePlan, SAMPLE_NAMES } from '../unit/support/sample-plans';
import { report } from './report';

/** Longest that it may take from its text to its sheet, ms of the processor. */
const LONGEST_MS = 2000;

function buildLargestText(name: (typeof SAMPLE_NAMES)[number]): string {
  const plan = readSamplePlan(name);
  const [first] = plan.parts;
  if (first === undefined) throw new Error('The sample has no part.');
  const parts = Array.from({ length: LONGEST_JOB_LIST }, (_, index) => ({
    ...first,
    id: `part-${index}`,
    name: `Part ${index + 1}`,
    length: 100 + index * 0.37,
  }));
  return serializePlan({ ...plan, parts });
}

/** From text to sheet; gives back the ms of the processor that it took. */
function workThrough(text: string): number {
  const before = process.cpuUsage();
  const read = parsePlanText(text);
  if (!read.ok) throw new Error(read.problem.sentence);
  const evaluation = evaluate(read.plan, defaultShop);
  buildSheet(read.plan, evaluation, defaultShop, { paper: 'a4' });
  buildDrawingSet(read.plan, evaluation, defaultShop, 2);
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

const times = SAMPLE_NAMES.map((name) => {
  const text = buildLargestText(name);
  // The first time pays for the program's own start as well.
  return [0, 1, 2].map(() => workThrough(text)).sort((a, b) => a - b)[1] ?? Number.NaN;
});
const slowestMs = Math.round(Math.max(...times));
report({
  check: `Plans of ${LONGEST_JOB_LIST} kinds of part`,
  counts: { 'brought to the sheet': times.length },
  most: { 'ms of the processor for one': slowestMs },
});
process.exitCode = slowestMs <= LONGEST_MS ? 0 : 1;
