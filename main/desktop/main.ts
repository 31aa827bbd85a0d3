// The planner as a desktop program.
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { app, protocol, session } from 'electron';
import { getDataFolder } from '../services/data-folder';
import { PAGE_FOLDER } from '../services/program-folders';
import { createServices } from '../services/services';
import { setAboutPanel } from './about-box';
import { lockDownSession } from './lock-down';
import { answerPageRequest, PAGE_SCHEME } from './page-address';
import { findPlanArgument } from './plan-argument';
import { openPlannerWindow, type PlannerWindow } from './planner-window';

/** The preload script is built beside this file. */
const PRELOAD_FILE = fileURLToPath(new URL('preload.cjs', import.meta.url));

const dataFolder = getDataFolder();
let window: PlannerWindow | undefined;
let requestedPlan = findPlanArgument(process.argv, process.cwd(), app.getAppPath());

function openWhenReady(path: string): void {
  if (window === undefined) requestedPlan = path;
  else window.open(path);
}

/** Lets the session's notes and signs of life be taken away before the process ends. */
function quitAfter(close: () => Promise<void>): void {
  let isClosed = false;
  app.on('will-quit', (event) => {
    if (isClosed) return;
    event.preventDefault();
    void close().finally(() => {
      isClosed = true;
      app.quit();
    });
  });
}

async function run(): Promise<void> {
  lockDownSession(session.defaultSession);
  protocol.handle(PAGE_SCHEME, ({ url }) => answerPageRequest(PAGE_FOLDER, url));
  const services = createServices({ dataFolder });
  quitAfter(() => services.close());
  const firstPlan = requestedPlan;
  window = await openPlannerWindow({ services, dataFolder, preloadFile: PRELOAD_FILE, requestedPlan: firstPlan });
  // Another one may have been asked for while the window was being opened.
  if (requestedPlan !== undefined && requestedPlan !== firstPlan) window.open(requestedPlan);
}

app.setName('Kerfgrip');
// What Windows groups the program's windows and recent plans by; the installer gives its shortcut the same.
app.setAppUserModelId('app.kerfgrip.planner');
setAboutPanel();
app.setPath('userData', join(dataFolder, 'window'));
// Root on Linux can run without the sandbox only, and asking for it takes that word off the command line again.
if (!app.commandLine.hasSwitch('no-sandbox')) app.enableSandbox();
protocol.registerSchemesAsPrivileged([
  { scheme: PAGE_SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true } },
]);

if (app.requestSingleInstanceLock()) {
  // macOS hands over a double-clicked file by this event, the others by a command line.
  app.on('open-file', (event, path) => {
    event.preventDefault();
    openWhenReady(path);
  });
  app.on('second-instance', (_event, argv, folder) => {
    window?.focus();
    const plan = findPlanArgument(argv, folder, app.getAppPath());
    if (plan !== undefined) openWhenReady(plan);
  });
  app.on('window-all-closed', () => app.quit());
  app
    .whenReady()
    .then(run)
    .catch((error) => {
      console.error(error);
      app.exit(1);
    });
} else {
  app.quit();
}
