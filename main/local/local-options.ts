import { resolve } from 'node:path';
import { parseArgs } from 'node:util';

export interface LocalOptions {
  /** Path of the plan to open, absolute. */
  plan: string | undefined;
  /** Folder for the shop library, journal and versions; the user's own when not given. */
  dataFolder: string | undefined;
  /** Go on after the window has gone. */
  stayOpen: boolean;
  help: boolean;
}

export const LOCAL_USAGE = `Serves the planner to a browser on this machine.
  --plan FILE        open this plan
  --data-dir FOLDER  keep the shop library, recovery journal and versions here
  --stay-open        go on after the window has gone
  --help`;

/**
 * Reads the command line of the loopback host.
 *
 * @throws Error with one sentence, when an option is unknown
 */
export function parseLocalOptions(args: readonly string[]): LocalOptions {
  const { values } = parseArgs({
    args: [...args],
    options: {
      plan: { type: 'string' },
      'data-dir': { type: 'string' },
      'stay-open': { type: 'boolean', default: false },
      help: { type: 'boolean', short: 'h', default: false },
    },
  });
  return {
    plan: values.plan === undefined ? undefined : resolve(values.plan),
    dataFolder: values['data-dir'] === undefined ? undefined : resolve(values['data-dir']),
    stayOpen: values['stay-open'],
    help: values.help,
  };
}
