// Stands in for the module `electron`, so that the program as users get it can be started by plain Node where no
// runtime is to be had that is new enough for it. It keeps the runtime's rules: what must come before the program is
// ready and what after, that messages are copied, that a window asks before it closes, that what is gone cannot be used.
import { EventEmitter } from 'node:events';
import type {
  App,
  BrowserWindowConstructorOptions,
  IpcMain,
  MenuItemConstructorOptions,
  MessageBoxOptions,
  OnBeforeRequestListenerDetails,
  BrowserWindow as RealWindow,
  WebContents,
} from 'electron';
import { runPreload } from './page';

type Handler = (event: object, ...args: unknown[]) => unknown;
type PageHandler = (request: Request) => Response | Promise<Response>;
type LoadFilter = (details: OnBeforeRequestListenerDetails, answer: (found: { cancel?: boolean }) => void) => void;

/** What the tests see and steer. */
export const standIn = {
  isReady: false,
  hasLock: true,
  hasEnded: false,
  exitCode: undefined as number | undefined,
  isSandboxed: false,
  schemes: [] as string[],
  windows: [] as BrowserWindow[],
  menu: [] as MenuItemConstructorOptions[],
  recentDocuments: [] as string[],
  aboutPanel: {} as Parameters<App['setAboutPanelOptions']>[0],
  paths: new Map<string, string>(),
  /** What the user does in the dialogs to come, first things first. */
  answers: [] as (number | string | null)[],
  dialogs: [] as string[],
  handlers: new Map<string, Handler>(),
  pageHandlers: new Map<string, PageHandler>(),
  loadFilter: undefined as LoadFilter | undefined,
};

function needBefore(what: string): void {
  if (standIn.isReady) throw new Error(`${what} has to come before the program is ready.`);
}

function needReady(what: string): void {
  if (!standIn.isReady) throw new Error(`${what} has to wait until the program is ready.`);
}

function emitPreventable(target: EventEmitter, name: string, more: object = {}): boolean {
  let isPrevented = false;
  const preventDefault = (): void => {
    isPrevented = true;
  };
  target.emit(name, { preventDefault, ...more });
  return isPrevented;
}

type AppCalls =
  | 'getAppPath'
  | 'getVersion'
  | 'quit'
  | 'exit'
  | 'setName'
  | 'setAppUserModelId'
  | 'setAboutPanelOptions'
  | 'setPath'
  | 'enableSandbox'
  | 'requestSingleInstanceLock'
  | 'whenReady'
  | 'addRecentDocument';

class StandInApp extends EventEmitter implements Pick<App, AppCalls> {
  readonly isPackaged = true;
  readonly commandLine = { hasSwitch: () => false };
  getAppPath = (): string => '/opt/Kerfgrip/resources/app.asar';
  getVersion = (): string => '0.0.0';
  setName(): void {}
  setAppUserModelId(): void {}
  setAboutPanelOptions(options: Parameters<App['setAboutPanelOptions']>[0]): void {
    standIn.aboutPanel = options;
  }
  setPath(name: string, path: string): void {
    needBefore('A path of the program');
    standIn.paths.set(name, path);
  }
  enableSandbox(): void {
    needBefore('The sandbox');
    standIn.isSandboxed = true;
  }
  requestSingleInstanceLock = (): boolean => standIn.hasLock;
  /** Ready comes once the program's first file has run to its end. */
  whenReady(): Promise<void> {
    return new Promise((resolve) => {
      setImmediate(() => {
        standIn.isReady = true;
        resolve();
      });
    });
  }
  addRecentDocument(path: string): void {
    standIn.recentDocuments.push(path);
  }
  /** Closes all windows, each of which may refuse, then ends, which may be put off. */
  quit(): void {
    for (const window of standIn.windows.filter(({ isGone }) => !isGone)) {
      window.close();
      if (!window.isGone) return;
    }
    if (!emitPreventable(this, 'will-quit')) standIn.hasEnded = true;
  }
  exit(code = 0): void {
    standIn.exitCode = code;
    standIn.hasEnded = true;
  }
}

export const app = new StandInApp();

export const protocol = {
  registerSchemesAsPrivileged(schemes: { scheme: string }[]): void {
    needBefore('A scheme');
    standIn.schemes.push(...schemes.map(({ scheme }) => scheme));
  },
  handle(scheme: string, handler: PageHandler): void {
    needReady('A handler of a scheme');
    standIn.pageHandlers.set(scheme, handler);
  },
};

const defaultSession = {
  setPermissionRequestHandler: () => undefined,
  setPermissionCheckHandler: () => undefined,
  setDevicePermissionHandler: () => undefined,
  webRequest: {
    onBeforeRequest: (filter: LoadFilter): void => {
      standIn.loadFilter = filter;
    },
  },
  on: () => undefined,
};

export const session = {
  get defaultSession() {
    needReady('A session');
    return defaultSession;
  },
};

/** What a page gets that asks for an address; `null` where the program does not let it ask. */
export async function load(url: string): Promise<Response | null> {
  const isCancelled = await new Promise<boolean>((resolve) => {
    if (standIn.loadFilter === undefined) return resolve(false);
    standIn.loadFilter({ url } as OnBeforeRequestListenerDetails, ({ cancel }) => resolve(cancel === true));
  });
  const handler = standIn.pageHandlers.get(new URL(url).protocol.slice(0, -1));
  if (isCancelled || handler === undefined) return null;
  return handler(new Request(url));
}

class Contents extends EventEmitter implements Pick<WebContents, 'send' | 'reload' | 'isDestroyed'> {
  /** What the preload script listens to. */
  readonly preloadListeners = new EventEmitter();
  isGone = false;
  mainFrame = { url: '', parent: null };
  send(channel: string, ...args: unknown[]): void {
    if (this.isGone) throw new TypeError('Object has been destroyed');
    this.preloadListeners.emit(channel, {}, ...structuredClone(args));
  }
  setWindowOpenHandler(): void {}
  reload(): void {}
  isDestroyed = (): boolean => this.isGone;
}

type WindowCalls =
  | 'setTitle'
  | 'setDocumentEdited'
  | 'setRepresentedFilename'
  | 'maximize'
  | 'show'
  | 'focus'
  | 'restore'
  | 'close'
  | 'destroy'
  | 'isMinimized'
  | 'isMaximized'
  | 'isDestroyed'
  | 'getNormalBounds';

export class BrowserWindow extends EventEmitter implements Pick<RealWindow, WindowCalls> {
  readonly webContents = new Contents();
  readonly options: BrowserWindowConstructorOptions;
  isGone = false;
  isShown = false;
  focused = 0;
  title = '';
  /** What the preload script gives the page. */
  bridge: Record<string, (...args: never[]) => unknown> = {};
  constructor(options: BrowserWindowConstructorOptions) {
    super();
    needReady('A window');
    this.options = options;
    standIn.windows.push(this);
  }
  async loadURL(url: string): Promise<void> {
    const page = await load(url);
    if (page === null || !page.ok) throw new Error(`ERR_FAILED loading ${url}`);
    this.webContents.mainFrame = { url, parent: null };
    this.bridge = runPreload(this.options.webPreferences?.preload ?? '', {
      invoke: (channel, ...args) => this.#invoke(channel, args),
      on: (channel, listener) => this.webContents.preloadListeners.on(channel, listener),
    });
    this.emit('ready-to-show');
  }
  async #invoke(channel: string, args: unknown[]): Promise<unknown> {
    const handler = standIn.handlers.get(channel);
    if (handler === undefined) throw new Error(`No handler registered for '${channel}'`);
    const event = { sender: this.webContents, senderFrame: this.webContents.mainFrame };
    return structuredClone(await handler(event, ...structuredClone(args)));
  }
  #need(): void {
    if (this.isGone) throw new TypeError('Object has been destroyed');
  }
  setTitle(title: string): void {
    this.#need();
    this.title = title;
  }
  setDocumentEdited(): void {
    this.#need();
  }
  setRepresentedFilename(): void {
    this.#need();
  }
  maximize(): void {}
  restore(): void {}
  show(): void {
    this.isShown = true;
  }
  focus(): void {
    this.#need();
    this.focused += 1;
  }
  isMinimized = (): boolean => false;
  isMaximized = (): boolean => false;
  isDestroyed = (): boolean => this.isGone;
  getNormalBounds = () => ({ x: 0, y: 0, width: 1440, height: 900 });
  close(): void {
    if (!emitPreventable(this, 'close')) this.destroy();
  }
  destroy(): void {
    this.isGone = true;
    this.webContents.isGone = true;
    this.emit('closed');
    if (standIn.windows.every(({ isGone }) => isGone)) app.emit('window-all-closed');
  }
}

export const ipcMain: Pick<IpcMain, 'handle' | 'removeHandler'> = {
  handle(channel, handler) {
    if (standIn.handlers.has(channel)) throw new Error(`Attempted to register a second handler for '${channel}'`);
    standIn.handlers.set(channel, handler as unknown as Handler);
  },
  removeHandler: (channel) => void standIn.handlers.delete(channel),
};

export const Menu = {
  buildFromTemplate: (template: MenuItemConstructorOptions[]) => template,
  setApplicationMenu(menu: MenuItemConstructorOptions[]): void {
    standIn.menu = menu;
  },
};

export const screen = {
  getAllDisplays() {
    needReady('The displays');
    return [{ workArea: { x: 0, y: 0, width: 1920, height: 1080 } }];
  },
};

function takeAnswer(what: string): number | string | null {
  standIn.dialogs.push(what);
  const answer = standIn.answers.shift();
  if (answer === undefined) throw new Error(`Nobody answers the dialog "${what}".`);
  return answer;
}

export const dialog = {
  async showMessageBox(_window: BrowserWindow, { message }: MessageBoxOptions) {
    return { response: Number(takeAnswer(message)) };
  },
  async showOpenDialog(_window: BrowserWindow, { title = '' }: { title?: string }) {
    const path = takeAnswer(title);
    return { canceled: path === null, filePaths: path === null ? [] : [String(path)] };
  },
  async showSaveDialog(_window: BrowserWindow, { title = '' }: { title?: string }) {
    const path = takeAnswer(title);
    return { canceled: path === null, filePath: path === null ? '' : String(path) };
  },
};
