import { parseArgs } from 'node:util';
import type { AskedWay } from './choose-way';

export interface StartOptions {
  asked: AskedWay;
  /** The plan to open; the sample when none is named. */
  plan: string | undefined;
  help: boolean;
}

export const START_USAGE = `npm start                     build the planner and open it on the sample plan
npm start -- PLAN             … on a plan file of yours
npm start -- --electron       only in Electron or, failing that, a browser
npm start -- --browser        in an app window of a browser, without Electron
npm start -- --address        no window: print the address to open`;

/**
 * Reads the launcher's command line.
 *
 * @param args the words after the script's name
 * @throws Error with one sentence for the user, when an option is unknown or too much is given
 */
export function parseStartOptions(args: readonly string[]): StartOptions {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      electron: { type: 'boolean', default: false },
      browser: { type: 'boolean', default: false },
      address: { type: 'boolean', default: false },
      help: { type: 'boolean', short: 'h', default: false },
    },
  });
  const asked = (['electron', 'browser', 'address'] as const).filter((way) => values[way]);
  if (asked.length > 1) throw new Error(`Only one of --${asked.join(' and --')} can be asked for.`);
  if (positionals.length > 1) throw new Error('Only one plan can be opened at a time.');
  return { asked: asked[0] ?? 'auto', plan: positionals[0], help: values.help };
}
