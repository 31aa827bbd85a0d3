import { ExpectedProblem } from '../services/expected-problem';
import { type Command, EXIT, type ExitCode, type Streams, UsageError } from './command';

/** The verbs by name. */
export type Commands = Readonly<Record<string, Command>>;

/**
 * Runs one command line.
 *
 * @param commands the verbs there are
 * @param args the words after the program's name
 * @param streams where to write
 * @returns the exit code; nothing is thrown but bugs
 */
export async function runCli(commands: Commands, args: readonly string[], streams: Streams): Promise<ExitCode> {
  const [verb, ...rest] = args;
  if (verb === undefined || verb === 'help' || verb === '--help' || verb === '-h') {
    (verb === undefined ? streams.err : streams.out)(getHelp(commands));
    return verb === undefined ? EXIT.usage : EXIT.done;
  }
  const command = Object.hasOwn(commands, verb) ? commands[verb] : undefined;
  if (command === undefined) {
    streams.err(`There is no verb "${verb}": it is one of ${Object.keys(commands).join(', ')}.\n`);
    return EXIT.usage;
  }
  if (rest.includes('--help') || rest.includes('-h')) {
    streams.out(`kerfgrip ${command.usage}\n  ${command.about}\n`);
    return EXIT.done;
  }
  try {
    return await command.run(rest, streams);
  } catch (error) {
    if (error instanceof UsageError) {
      streams.err(`${error.message} Usage: kerfgrip ${command.usage}\n`);
      return EXIT.usage;
    }
    if (error instanceof ExpectedProblem) {
      streams.err(`${error.problem.sentence}\n`);
      return EXIT.failed;
    }
    throw error;
  }
}

function getHelp(commands: Commands): string {
  const lines = Object.values(commands).map(({ usage, about }) => `  kerfgrip ${usage}\n      ${about}`);
  return [
    'Plans how small milled parts come out of bar stock.',
    '',
    ...lines,
    '',
    'evaluate, sheet and order take --shop FILE (the built-in shop otherwise) and --strict (exit 3 when a stop stands).',
    'Exit codes: 0 done, 1 the job failed, 2 wrong usage, 3 done but a stop stands (with --strict).',
    'All figures are estimates for planning. The machine’s manual, local rules and a qualified person stand above them.',
    '',
  ].join('\n');
}
