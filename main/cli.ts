// The planner without a window.
import { evaluateCommand } from './cli/evaluate-command';
import { lengthCommand } from './cli/length-command';
import { orderCommand } from './cli/order-command';
import { runCli } from './cli/run-cli';

// A reader that has seen enough, such as `head`, closes the pipe.
process.stdout.on('error', () => process.exit(0));

process.exitCode = await runCli(
  { evaluate: evaluateCommand, order: orderCommand, length: lengthCommand },
  process.argv.slice(2),
  { out: (text) => void process.stdout.write(text), err: (text) => void process.stderr.write(text) },
);
