import { join } from 'node:path';
import { app, BrowserWindow, dialog, type IpcMainInvokeEvent, ipcMain, Menu, screen } from 'electron';
import type { Reply } from '../../shared/contract/host';
import { createHost, type HostDoor } from '../services/host-calls';
import { ASSETS_FOLDER } from '../services/program-folders';
import type { Services } from '../services/services';
import { showAboutBox } from './about-box';
import { CHANNELS } from './channels';
import { type CloseAnswer, createCloseGuard } from './close-guard';
import { lockDownContents } from './lock-down';
import { buildMenuTemplate, type MenuParts } from './menu-template';
import { createNativeDialogs } from './native-dialogs';
import { getIsOwnAddress, PAGE_ADDRESS } from './page-address';
import { readWindowPlace, WINDOW_SIZE, type WindowPlace, writeWindowPlace } from './window-place';

export interface PlannerWindow {
  /** Brings the window to the front. */
  focus(): void;
  /** Asks the page to open a plan. */
  open(path: string): void;
}

export interface PlannerWindowParts {
  services: Services;
  dataFolder: string;
  preloadFile: string;
  requestedPlan: string | undefined;
}

const ICON_FILE = join(ASSETS_FOLDER, 'icons/png/256x256.png');

/** Calls after which the list of recent plans may be another. */
const MOVING_CALLS: ReadonlySet<string> = new Set(['start', 'openPlan', 'savePlan', 'savePlanAs']);
const SAVING_CALLS: ReadonlySet<string> = new Set(['savePlan', 'savePlanAs']);

/** Opens the one window of the program. */
export async function openPlannerWindow(parts: PlannerWindowParts): Promise<PlannerWindow> {
  const placeFile = join(parts.dataFolder, 'window.json');
  const place = await readWindowPlace(
    placeFile,
    screen.getAllDisplays().map(({ workArea }) => workArea),
  );
  const window = buildWindow(parts.preloadFile, place);
  const run = (actionId: string): void => window.webContents.send(CHANNELS.action, actionId);
  const guard = createCloseGuard({
    ask: () => askAboutUnsaved(window),
    save: () => run('file.save'),
    discard: () => parts.services.recovery.discardOwn().catch(() => undefined),
    close: () => window.destroy(),
  });
  const dialogs = createNativeDialogs(window, (title, unsaved, path) => {
    guard.setUnsaved(unsaved);
    // It was to close once all was saved.
    if (window.isDestroyed()) return;
    window.setTitle(`${unsaved ? '• ' : ''}${title === '' ? 'Untitled' : title} — Kerfgrip`);
    // macOS shows both in the title bar, by the plan's icon and its close button.
    window.setDocumentEdited(unsaved);
    window.setRepresentedFilename(path ?? '');
  });
  const host = createHost(parts.services, dialogs, parts.requestedPlan);
  const open = (path: string): void => window.webContents.send(CHANNELS.open, host.giveToken(path));
  const setMenu = (): Promise<void> =>
    showMenu(parts.services, { run, openRecent: open, showAbout: () => void showAboutBox(window) });

  answerCalls(window, host, (verb, reply) => {
    if (SAVING_CALLS.has(verb) && (!reply.ok || reply.value === null)) guard.handleSaveFailed();
    if (MOVING_CALLS.has(verb)) void setMenu();
  });
  keepPlace(window, placeFile);
  window.on('close', (event) => {
    if (!guard.handleClose()) event.preventDefault();
  });
  // The guard has asked already; a page that holds on to its window could not be closed at all.
  window.webContents.on('will-prevent-unload', (event) => event.preventDefault());
  offerReload(window);
  await setMenu();
  await window.loadURL(PAGE_ADDRESS);
  return {
    open,
    focus() {
      if (window.isMinimized()) window.restore();
      window.focus();
    },
  };
}

function buildWindow(preloadFile: string, place: WindowPlace | null): BrowserWindow {
  const window = new BrowserWindow({
    ...WINDOW_SIZE,
    ...place?.bounds,
    title: 'Kerfgrip',
    show: false,
    // Elsewhere the window takes the icon that is in the program's own file.
    ...(process.platform === 'linux' ? { icon: ICON_FILE } : {}),
    webPreferences: {
      preload: preloadFile,
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      webSecurity: true,
      webviewTag: false,
      navigateOnDragDrop: false,
      // Its dictionaries would be fetched from the network.
      spellcheck: false,
    },
  });
  if (place?.isMaximized) window.maximize();
  lockDownContents(window.webContents);
  window.once('ready-to-show', () => window.show());
  // The title is the plan's; the page's own would take its place.
  window.on('page-title-updated', (event) => event.preventDefault());
  return window;
}

/** Only the window's own page, and nothing that may be embedded in it, is answered. */
function getIsOwnPage(window: BrowserWindow, event: IpcMainInvokeEvent): boolean {
  const frame = event.senderFrame;
  return event.sender === window.webContents && frame !== null && frame.parent === null && getIsOwnAddress(frame.url);
}

function answerCalls(
  window: BrowserWindow,
  host: HostDoor,
  onReply: (verb: string, reply: Reply<unknown>) => void,
): void {
  ipcMain.handle(CHANNELS.call, async (event, verb: unknown, request: unknown): Promise<Reply<unknown>> => {
    if (!getIsOwnPage(window, event) || typeof verb !== 'string') {
      const sentence = 'This request did not come from the planner’s own page, so it is not answered.';
      return { ok: false, problem: { code: 'not-allowed', sentence, where: '' } };
    }
    const reply = await host.call(verb, request);
    onReply(verb, reply);
    return reply;
  });
  window.on('closed', () => ipcMain.removeHandler(CHANNELS.call));
}

async function showMenu(
  services: Services,
  doings: Pick<MenuParts, 'run' | 'openRecent' | 'showAbout'>,
): Promise<void> {
  const recents = (await services.recents.list()).map(({ path }) => {
    const [name = path] = path.split(/[\\/]/).slice(-1);
    return { path, name, folder: path.slice(0, -name.length - 1) };
  });
  const { platform } = process;
  Menu.setApplicationMenu(
    Menu.buildFromTemplate(buildMenuTemplate({ platform, isPackaged: app.isPackaged, recents, ...doings })),
  );
  for (const { path } of recents.toReversed()) app.addRecentDocument(path);
}

async function askAboutUnsaved(window: BrowserWindow): Promise<CloseAnswer> {
  const answers: readonly CloseAnswer[] = ['save', 'discard', 'stay'];
  const { response } = await dialog.showMessageBox(window, {
    type: 'question',
    title: 'Kerfgrip',
    message: 'Save the changes to this plan?',
    detail: 'They are lost if the window is closed without saving.',
    buttons: ['Save', 'Close without saving', 'Go on working'],
    defaultId: 0,
    cancelId: 2,
    noLink: true,
  });
  return answers[response] ?? 'stay';
}

function keepPlace(window: BrowserWindow, file: string): void {
  let timer: NodeJS.Timeout | undefined;
  const keep = (): void => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      if (window.isDestroyed() || window.isMinimized()) return;
      void writeWindowPlace(file, { bounds: window.getNormalBounds(), isMaximized: window.isMaximized() });
    }, 500);
  };
  window.on('resize', keep);
  window.on('move', keep);
  window.on('maximize', keep);
  window.on('unmaximize', keep);
  window.on('closed', () => clearTimeout(timer));
}

/** After its page has crashed the window comes back with what the journal kept. */
function offerReload(window: BrowserWindow): void {
  window.webContents.on('render-process-gone', async (_event, { reason }) => {
    if (reason === 'clean-exit' || window.isDestroyed()) return;
    const { response } = await dialog.showMessageBox(window, {
      type: 'error',
      title: 'Kerfgrip',
      message: 'The planner’s page has stopped.',
      detail: 'Load it again to go on; changes that were not saved are offered from the recovery journal.',
      buttons: ['Load again', 'Close'],
      defaultId: 0,
      cancelId: 0,
      noLink: true,
    });
    if (response === 0) window.webContents.reload();
    else window.destroy();
  });
}
