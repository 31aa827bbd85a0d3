import { EventEmitter } from 'node:events';

type Handler = (event: unknown, ...args: unknown[]) => unknown;

/** What the window's side asked of Electron, and what it answers. */
export const electron = {
  windows: [] as FakeWindow[],
  handlers: new Map<string, Handler>(),
  menus: [] as unknown[],
  /** Which button of the next message box is pressed. */
  pressed: 0,
  messages: [] as string[],
  openPath: undefined as string | undefined,
  savePath: undefined as string | undefined,
};

export class FakeContents extends EventEmitter {
  readonly sent: { channel: string; value: unknown }[] = [];
  windowOpenHandler: (() => { action: string }) | undefined;
  reloads = 0;
  send(channel: string, value: unknown): void {
    this.sent.push({ channel, value });
  }
  setWindowOpenHandler(handler: () => { action: string }): void {
    this.windowOpenHandler = handler;
  }
  reload(): void {
    this.reloads += 1;
  }
}

export class FakeWindow extends EventEmitter {
  readonly webContents = new FakeContents();
  readonly options: { webPreferences: Record<string, unknown> };
  title = '';
  isEdited = false;
  representedFile = '';
  address = '';
  isGone = false;
  constructor(options: { webPreferences: Record<string, unknown> }) {
    super();
    this.options = options;
    electron.windows.push(this);
  }
  setTitle(title: string): void {
    this.title = title;
  }
  async loadURL(address: string): Promise<void> {
    this.address = address;
  }
  destroy(): void {
    this.isGone = true;
    this.emit('closed');
  }
  isDestroyed(): boolean {
    return this.isGone;
  }
  setDocumentEdited(isEdited: boolean): void {
    this.isEdited = isEdited;
  }
  setRepresentedFilename(path: string): void {
    this.representedFile = path;
  }
  maximize(): void {}
  show(): void {}
  focus(): void {}
  isMinimized(): boolean {
    return false;
  }
}

/** Stands in for the package `electron`, as far as the window's side uses it. */
export const fakeElectron = {
  BrowserWindow: FakeWindow,
  app: { isPackaged: true, addRecentDocument: () => undefined },
  screen: { getAllDisplays: () => [{ workArea: { x: 0, y: 0, width: 1920, height: 1080 } }] },
  ipcMain: {
    handle: (channel: string, handler: Handler) => void electron.handlers.set(channel, handler),
    removeHandler: (channel: string) => void electron.handlers.delete(channel),
  },
  Menu: {
    buildFromTemplate: (template: unknown) => template,
    setApplicationMenu: (menu: unknown) => void electron.menus.push(menu),
  },
  dialog: {
    showMessageBox: async (_window: unknown, { message }: { message: string }) => {
      electron.messages.push(message);
      return { response: electron.pressed };
    },
    showOpenDialog: async () => ({ filePaths: electron.openPath === undefined ? [] : [electron.openPath] }),
    showSaveDialog: async () => ({ canceled: electron.savePath === undefined, filePath: electron.savePath ?? '' }),
  },
};
