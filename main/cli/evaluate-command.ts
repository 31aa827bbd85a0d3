import { sampleChance } from '../../shared/engine/chance-sampling';
import { type Evaluation, evaluate, THOROUGH } from '../../shared/evaluate';
import { type Command, EXIT, type ExitCode, UsageError } from './command';
import { loadJob } from './load-job';
import { getOnly, parseWords } from './parse-words';

/** Options of every verb that works on a plan. */
export const PLAN_OPTIONS = { shop: { type: 'string' }, strict: { type: 'boolean', default: false } } as const;

/** The exit code of a job that is done. */
export function getDoneCode(evaluation: Evaluation, isStrict: boolean): ExitCode {
  const isStopped = evaluation.findings.some(({ severity }) => severity === 'stop');
  return isStrict && isStopped ? EXIT.stopStands : EXIT.done;
}

const OPTIONS = { ...PLAN_OPTIONS, draws: { type: 'string' }, seed: { type: 'string' } } as const;

/** Everything there is to say of a plan; with `--draws` the chances found by drawing lots as well, as a check on the sums. */
export const evaluateCommand: Command = {
  usage: 'evaluate PLAN [--draws N [--seed N]] [--shop FILE] [--strict]',
  about: 'the whole evaluation as JSON, lengths in mm; --draws adds chanceDrawn, found by so many drawn lots',
  async run(args, { out }) {
    const { values, positionals } = parseWords(args, OPTIONS);
    const { plan, shop } = await loadJob(getOnly(positionals, 'plan'), values.shop);
    const evaluation = evaluate(plan, shop, THOROUGH);
    const draws = getWhole(values.draws, '--draws', 1, 1_000_000);
    const seed = getWhole(values.seed, '--seed', 0, 4_294_967_295) ?? 1;
    const drawn =
      draws === undefined ? {} : { chanceDrawn: sampleChance({ ...evaluation, rules: shop.rules }, { draws, seed }) };
    out(`${JSON.stringify({ ...evaluation, ...drawn }, null, 2)}\n`);
    return getDoneCode(evaluation, values.strict);
  },
};

function getWhole(text: string | undefined, option: string, least: number, most: number): number | undefined {
  if (text === undefined) return undefined;
  const value = Number(text);
  if (!/^\d+$/.test(text) || value < least || value > most) {
    throw new UsageError(`${option} must be a whole number from ${least} to ${most}.`);
  }
  return value;
}
