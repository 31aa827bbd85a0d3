import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { stopProcess } from '../../main/start/child-process';
import { waitUntil } from './wait-until';

/** A display of its own with a window manager, and a hand that presses real keys: what a user does, the tests do. */
export interface Desk {
  /** Environment of a program that is to show its windows here. */
  env: NodeJS.ProcessEnv;
  /** Titles of the windows that are shown. */
  listTitles(): string[];
  /** Title of the window that takes the keys. */
  getActiveTitle(): string;
  /** Waits for a window whose title matches to take the keys. */
  waitForActive(title: RegExp): Promise<void>;
  /** The same for a dialog or a menu, which may take the keys before it has drawn all that is in it. */
  waitForDialog(title: RegExp): Promise<void>;
  /** Waits until what is shown no longer changes. */
  waitUntilStill(): Promise<void>;
  press(...keys: string[]): void;
  type(text: string): void;
  /** Place and size of the window that takes the keys. */
  getActivePlace(): { x: number; y: number; width: number; height: number };
  moveActive(x: number, y: number, width: number, height: number): void;
  minimizeActive(): void;
  close(): Promise<void>;
}

/** How many shades of one colour a picture of xwd has; none where there is no picture. */
function countShades(picture: Buffer): number {
  if (picture.length < 100) return 0;
  // Its head (XWDFile.h) begins with its length and has in its 20th word the length of the list of colours after it.
  const pixels = picture.subarray(picture.readUInt32BE(0) + 12 * picture.readUInt32BE(4 * 19));
  return new Set(pixels.filter((_, index) => index % 4 === 0)).size;
}

function startDisplay(): Promise<{ server: ChildProcess; display: string }> {
  return new Promise((resolve, reject) => {
    const words = ['-displayfd', '3', '-screen', '0', '1600x1000x24', '-nolisten', 'tcp'];
    const server = spawn('Xvfb', words, { stdio: ['ignore', 'ignore', 'ignore', 'pipe'] });
    server.once('error', () => reject(new Error('Xvfb is not installed.')));
    server.once('exit', () => reject(new Error('Xvfb ended at once.')));
    server.stdio[3]?.once('data', (number) => resolve({ server, display: `:${String(number).trim()}` }));
  });
}

/** Opens a display with a window manager on it. */
export async function openDesk(): Promise<Desk> {
  const { server, display } = await startDisplay();
  // No session bus: nothing that runs on the machine answers in the program's place, as a file chooser portal would.
  const env = { ...process.env, DISPLAY: display, DBUS_SESSION_BUS_ADDRESS: 'disabled:', GTK_USE_PORTAL: '0' };
  const manager = spawn('openbox', ['--sm-disable'], { env, stdio: 'ignore' });
  manager.once('error', () => undefined);
  const xdotool = (...args: string[]): string => {
    const { status, stdout, error } = spawnSync('xdotool', args, { env, encoding: 'utf8', timeout: 20_000 });
    if (error !== undefined) throw error;
    return status === 0 ? stdout.trim() : '';
  };
  await waitUntil('the window manager is there', () => manager.exitCode === null && xdotool('get_desktop') !== '');
  const getActiveTitle = (): string => xdotool('getactivewindow', 'getwindowname');
  const waitForActive = async (title: RegExp): Promise<void> => {
    await waitUntil(`the window ${title} takes the keys`, () => title.test(getActiveTitle()));
  };
  const takePicture = (...window: string[]): Buffer =>
    spawnSync('xwd', ['-silent', ...window], { env, maxBuffer: 20_000_000, timeout: 20_000 }).stdout;
  const waitUntilStill = async (): Promise<void> => {
    let [last, rests] = [takePicture('-root'), 0];
    await waitUntil('what is shown no longer changes', () => {
      const next = takePicture('-root');
      rests = next.length > 0 && next.equals(last) ? rests + 1 : 0;
      last = next;
      return rests >= 2;
    });
  };
  return {
    env,
    getActiveTitle,
    listTitles: () =>
      xdotool('search', '--onlyvisible', '--name', '.')
        .split('\n')
        .filter((id) => id !== '')
        .map((id) => xdotool('getwindowname', id)),
    waitForActive,
    waitUntilStill,
    async waitForDialog(title) {
      await waitForActive(title);
      // Text in it, with its smooth edges, makes many shades.
      await waitUntil(`${title} is drawn`, () => countShades(takePicture('-id', xdotool('getactivewindow'))) > 16);
      await waitUntilStill();
    },
    press: (...keys) => void (keys.length > 0 && xdotool('key', ...keys)),
    type: (text) => void xdotool('type', '--delay', '5', text),
    getActivePlace() {
      const text = xdotool('getactivewindow', 'getwindowgeometry', '--shell');
      const read = (name: string): number => Number(new RegExp(`^${name}=(-?\\d+)$`, 'm').exec(text)?.[1]);
      return { x: read('X'), y: read('Y'), width: read('WIDTH'), height: read('HEIGHT') };
    },
    moveActive(x, y, width, height) {
      xdotool('getactivewindow', 'windowsize', '--sync', String(width), String(height));
      xdotool('getactivewindow', 'windowmove', '--sync', String(x), String(y));
    },
    minimizeActive: () => void xdotool('getactivewindow', 'windowminimize', '--sync'),
    async close() {
      await stopProcess(manager);
      await stopProcess(server);
    },
  };
}
