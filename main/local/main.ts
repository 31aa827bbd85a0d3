// The planner without Electron: the same services over a port that only this machine reaches.
import { getDataFolder } from '../services/data-folder';
import { createHost } from '../services/host-calls';
import { NO_DIALOGS } from '../services/host-dialogs';
import { PAGE_FOLDER } from '../services/program-folders';
import { createServices } from '../services/services';
import { LOCAL_USAGE, type LocalOptions, parseLocalOptions } from './local-options';
import { LOOPBACK_DEFAULTS, startLoopbackServer } from './loopback-server';
import { createOnePage } from './one-page';

/** Starts the host, prints its address, and ends it when its window goes or a signal asks. */
async function runHost({ plan, dataFolder, stayOpen }: LocalOptions): Promise<void> {
  const services = createServices({ dataFolder: dataFolder ?? getDataFolder() });
  const host = createHost(services, NO_DIALOGS, plan);
  let isEnding = false;
  const end = async (): Promise<void> => {
    if (isEnding) return;
    isEnding = true;
    await server.close();
    await services.close();
  };
  const server = await startLoopbackServer({
    ...LOOPBACK_DEFAULTS,
    pageFolder: PAGE_FOLDER,
    handleCall: createOnePage(host.call),
    onGone: () => {
      if (!stayOpen) void end();
    },
  });
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => void end());
  console.log(`Kerfgrip is at ${server.address}`);
  await host.prepare();
}

function readOptions(): LocalOptions | undefined {
  try {
    return parseLocalOptions(process.argv.slice(2));
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    return undefined;
  }
}

const options = readOptions();
if (options === undefined || options.help) {
  console.log(LOCAL_USAGE);
  process.exitCode = options === undefined ? 2 : 0;
} else {
  await runHost(options);
}
