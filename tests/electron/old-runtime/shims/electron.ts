// Newer calls of Electron, put on top of those that version 9 has. What the program asks stays as it is.
import * as electron from 'electron';

export const { BrowserWindow, Menu, dialog, screen, shell } = electron;
export const { app } = electron;

type Body = Uint8Array | string | null;

/** As much of a response as the program's own scheme needs. */
class PageResponse {
  readonly body: Buffer;
  readonly status: number;
  readonly headers: Record<string, string>;
  constructor(body: Body, init: { status?: number; headers?: Record<string, string> } = {}) {
    this.body = Buffer.from(body ?? '');
    this.status = init.status ?? 200;
    this.headers = init.headers ?? {};
  }
}

if (typeof globalThis.Response === 'undefined') {
  Object.assign(globalThis, { Response: PageResponse });
}

type Answer = (request: { url: string }) => Promise<PageResponse>;

function handleScheme(scheme: string, answer: Answer): void {
  electron.protocol.registerBufferProtocol(scheme, (request, callback) => {
    void answer({ url: request.url }).then(({ body, status, headers }) => {
      const [mimeType = 'text/plain'] = (headers['content-type'] ?? '').split(';');
      callback({ data: body, statusCode: status, headers, mimeType });
    });
  });
}

export const protocol = {
  registerSchemesAsPrivileged: electron.protocol.registerSchemesAsPrivileged.bind(electron.protocol),
  handle: 'handle' in electron.protocol ? electron.protocol.handle.bind(electron.protocol) : handleScheme,
};

/** Version 9 knows nothing of devices, so there is nothing to refuse. */
export const session = {
  get defaultSession(): Electron.Session {
    const found = electron.session.defaultSession;
    found.setDevicePermissionHandler ??= () => undefined;
    return found;
  },
};

app.on('web-contents-created', (_event, contents) => {
  // Before version 25 the address was not in the event. This listener comes before those of the program.
  contents.on('will-navigate', (event, url: string) => Object.assign(event, { url }));
  if (contents.setWindowOpenHandler !== undefined) return;
  // Before version 12 a new window was refused by preventing an event.
  let answer = (): { action: string } => ({ action: 'allow' });
  Object.assign(contents, {
    setWindowOpenHandler(handler: typeof answer) {
      answer = handler;
    },
  });
  (contents as NodeJS.EventEmitter).on('new-window', (event: Electron.Event) => {
    if (answer().action === 'deny') event.preventDefault();
  });
});

type Call = (event: Electron.IpcMainInvokeEvent, ...args: unknown[]) => unknown;

/** Version 9 does not say which frame calls; it gives the preload script's bridge to the main frame alone. */
function addSenderFrame(event: Electron.IpcMainInvokeEvent): Electron.IpcMainInvokeEvent {
  if (event.senderFrame !== undefined) return event;
  return Object.assign(event, {
    senderFrame: { parent: null, url: event.sender.getURL() } as unknown as Electron.WebFrameMain,
  });
}

export const ipcMain = {
  handle: (channel: string, call: Call): void =>
    electron.ipcMain.handle(channel, (event, ...args: unknown[]) => call(addSenderFrame(event), ...args)),
  removeHandler: (channel: string): void => electron.ipcMain.removeHandler(channel),
};
