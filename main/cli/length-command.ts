import { formatLength } from '../../shared/units/format';
import { parseLength } from '../../shared/units/parse-length';
import { type Command, EXIT, UsageError } from './command';
import { getOneOf, getOnly, parseWords } from './parse-words';

const OPTIONS = { units: { type: 'string' }, signed: { type: 'boolean', default: false } } as const;

/** What a length field of the planner would read. */
export const lengthCommand: Command = {
  usage: 'length TEXT --units in|mm [--signed]',
  about: 'what a field would read, as JSON {mm, shown, warning?}, or {refusal} and exit 1; --signed takes less than 0',
  async run(args, { out, err }) {
    // A length may start with a dash, which would make it an option.
    const textIndex = args.findIndex((word) => /^-\s*[\d.½⅓¼¾⅛]/u.test(word));
    const words = textIndex === -1 ? args : args.filter((_, index) => index !== textIndex);
    const { values, positionals } = parseWords(words, OPTIONS);
    const text = getOnly(textIndex === -1 ? positionals : [args[textIndex] ?? '', ...positionals], 'length');
    if (values.units === undefined) throw new UsageError('--units in or --units mm has to say what a bare number is.');
    const units = getOneOf(values.units, ['in', 'mm'], '--units');
    const parsed = parseLength(text, units, { allowNegative: values.signed });
    if (!parsed.ok) {
      out(`${JSON.stringify({ refusal: parsed.refusal })}\n`);
      err(`${parsed.refusal}\n`);
      return EXIT.failed;
    }
    const { mm, warning } = parsed;
    const shown = formatLength(mm, units, { unit: true });
    out(`${JSON.stringify({ mm, shown, ...(warning === undefined ? {} : { warning }) })}\n`);
    return EXIT.done;
  },
};
