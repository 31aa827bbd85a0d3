// The planner without a window.
import { COMMANDS } from './cli/commands';
import { runCli } from './cli/run-cli';

// A reader that has seen enough, such as `head`, closes the pipe.
process.stdout.on('error', () => process.exit(0));

process.exitCode = await runCli(COMMANDS, process.argv.slice(2), {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
});
