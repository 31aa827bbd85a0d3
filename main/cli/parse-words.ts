import { type ParseArgsConfig, parseArgs } from 'node:util';
import { UsageError } from './command';

type Options = NonNullable<ParseArgsConfig['options']>;

/**
 * Reads the words after a verb.
 *
 * @param args the words
 * @param options the options it takes
 * @throws UsageError with one sentence
 */
export function parseWords<T extends Options>(args: readonly string[], options: T) {
  try {
    return parseArgs({ args: [...args], allowPositionals: true, options });
  } catch (error) {
    // The parser's advice on how to escape a word is of no use here.
    const sentence = (error instanceof Error ? error.message : String(error)).split('. ')[0] ?? '';
    throw new UsageError(`${sentence.replace(/\.$/, '')}.`);
  }
}

/**
 * The one word that a verb works on.
 *
 * @param what what it is, such as "plan"
 */
export function getOnly(words: readonly string[], what: string): string {
  const [only, more] = words;
  if (only === undefined) throw new UsageError(`The ${what} is missing.`);
  if (more !== undefined) throw new UsageError(`Only one ${what} can be given, so "${more}" is one too many.`);
  return only;
}

/** One of the words that an option takes. */
export function getOneOf<T extends string>(value: string | undefined, choices: readonly T[], option: string): T {
  const found = choices.find((choice) => choice === value);
  if (found === undefined)
    throw new UsageError(`${option} must be ${choices.join(', ').replace(/, ([^,]*)$/, ' or $1')}.`);
  return found;
}
