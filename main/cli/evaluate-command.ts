import { type Evaluation, evaluate } from '../../shared/evaluate';
import { type Command, EXIT, type ExitCode } from './command';
import { loadJob } from './load-job';
import { getOnly, parseWords } from './parse-words';

/** Options of every verb that works on a plan. */
export const PLAN_OPTIONS = { shop: { type: 'string' }, strict: { type: 'boolean', default: false } } as const;

/** The exit code of a job that is done. */
export function getDoneCode(evaluation: Evaluation, isStrict: boolean): ExitCode {
  const isStopped = evaluation.findings.some(({ severity }) => severity === 'stop');
  return isStrict && isStopped ? EXIT.stopStands : EXIT.done;
}

/** Everything there is to say of a plan. */
export const evaluateCommand: Command = {
  usage: 'evaluate PLAN [--shop FILE] [--strict]',
  about: 'the whole evaluation as JSON, lengths in mm',
  async run(args, { out }) {
    const { values, positionals } = parseWords(args, PLAN_OPTIONS);
    const { plan, shop } = await loadJob(getOnly(positionals, 'plan'), values.shop);
    const evaluation = evaluate(plan, shop);
    out(`${JSON.stringify(evaluation, null, 2)}\n`);
    return getDoneCode(evaluation, values.strict);
  },
};
