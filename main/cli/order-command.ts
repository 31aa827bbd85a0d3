import type { OrderResult } from '../../shared/engine/results';
import { evaluate, THOROUGH } from '../../shared/evaluate';
import { buildCutListCsv } from '../services/cut-list-csv';
import { ExpectedProblem } from '../services/expected-problem';
import type { Command } from './command';
import { getDoneCode, PLAN_OPTIONS } from './evaluate-command';
import { loadJob } from './load-job';
import { getOnly, parseWords } from './parse-words';

const OPTIONS = { ...PLAN_OPTIONS, csv: { type: 'boolean', default: false } } as const;

/** What to buy and how to saw it. */
export const orderCommand: Command = {
  usage: 'order PLAN [--csv] [--shop FILE] [--strict]',
  about: 'bars, cuts, cost, bound and whether it is proven, as JSON; --csv for the cut list',
  async run(args, { out }) {
    const { values, positionals } = parseWords(args, OPTIONS);
    const { plan, shop } = await loadJob(getOnly(positionals, 'plan'), values.shop);
    const evaluation = evaluate(plan, shop, THOROUGH);
    const { order } = evaluation;
    if (order === null) {
      throw new ExpectedProblem(
        'no-order',
        'There is no order: no bar on offer can be taken for these parts.',
        'order',
      );
    }
    out(
      values.csv
        ? buildCutListCsv(order, plan.units)
        : `${JSON.stringify(getSummary(order, shop.currency), null, 2)}\n`,
    );
    return getDoneCode(evaluation, values.strict);
  },
};

/** The order with plain values in place of figures that carry their workings. */
function getSummary(order: OrderResult, currency: string) {
  const { cost, yieldByLength, yieldToBlank, yieldToPart, massKg, ...rest } = order;
  return {
    currency,
    cost: cost?.value ?? null,
    ...rest,
    yieldByLength: yieldByLength.value,
    yieldToBlank: yieldToBlank.value,
    yieldToPart: yieldToPart.value,
    massKg: massKg.value,
  };
}
