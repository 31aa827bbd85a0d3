import { resolve } from 'node:path';
import { performance } from 'node:perf_hooks';
import { type BinInstance, computeBinAnswer, parseBinInstance } from '../../shared/nest/bin-instance';
import { ExpectedProblem } from '../services/expected-problem';
import { getShortName } from '../services/file-problem';
import { readFileLimited } from '../services/read-file-limited';
import { type Command, EXIT, UsageError } from './command';
import { getOnly, parseWords } from './parse-words';

const USUAL_LIMIT_S = 10;
const LONGEST_LIMIT_S = 86_400;

const OPTIONS = { limit: { type: 'string' } } as const;

/** Public cutting-stock instances, to see how good the nesting is. */
export const nestCommand: Command = {
  usage: 'nest FILE.tsv [--limit SECONDS]',
  about: `public instances, a line each: name, bars, bound, true when proven least, ms; ${USUAL_LIMIT_S} s for each by default`,
  async run(args, { out }) {
    const { values, positionals } = parseWords(args, OPTIONS);
    const path = getOnly(positionals, 'file');
    const limitMs = 1000 * parseLimit(values.limit);
    const instances = parseInstances((await readFileLimited(resolve(path))).toString('utf8'), getShortName(path));
    for (const instance of instances) out(solve(instance, limitMs));
    return EXIT.done;
  },
};

function parseLimit(text: string | undefined): number {
  if (text === undefined) return USUAL_LIMIT_S;
  const seconds = text.trim() === '' ? Number.NaN : Number(text);
  if (!(seconds > 0 && seconds <= LONGEST_LIMIT_S)) {
    throw new UsageError('--limit must be a number of seconds over 0, at most a day.');
  }
  return seconds;
}

/** All lines are read before the first is solved: a fault in the last must not come after an hour's work. */
function parseInstances(text: string, name: string): BinInstance[] {
  const instances = text.split(/\r?\n/).flatMap((line, index) => {
    const read = parseBinInstance(line);
    if (read.kind === 'refused') {
      throw new ExpectedProblem('bad-instance', `${name}, line ${index + 1}: ${read.reason}`, `line ${index + 1}`);
    }
    return read.kind === 'instance' ? [read.instance] : [];
  });
  if (instances.length === 0) throw new ExpectedProblem('no-instance', `${name} holds no instance.`, name);
  return instances;
}

function solve(instance: BinInstance, limitMs: number): string {
  const start = performance.now();
  const shouldStop = (): boolean => performance.now() - start >= limitMs;
  const { bins, bound, isProven } = computeBinAnswer(instance, { workUnits: Number.MAX_SAFE_INTEGER, shouldStop });
  const ms = Math.round(performance.now() - start);
  return `${[instance.name, bins, bound, isProven, ms].join('\t')}\n`;
}
