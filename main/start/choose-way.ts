/** How the planner is opened: in Electron, in an app window of a browser, or by an address to open by hand. */
export type Way =
  | { kind: 'electron'; binary: string }
  | { kind: 'app-window'; browser: string }
  | { kind: 'address'; reason: string };

export type AskedWay = 'auto' | 'electron' | 'browser' | 'address';

export interface Means {
  asked: AskedWay;
  /** Whether a window can be shown at all. */
  hasDisplay: boolean;
  /** Path of Electron's own binary, where there is one. */
  electron: string | undefined;
  /** Path of a Chromium-family browser, where there is one. */
  browser: string | undefined;
}

/**
 * Whether this machine can show a window.
 *
 * @param platform as `process.platform`
 * @param env as `process.env`; on Linux and its kin a display is there when DISPLAY or WAYLAND_DISPLAY names one
 */
export function getHasDisplay(platform: NodeJS.Platform, env: Readonly<Record<string, string | undefined>>): boolean {
  if (platform === 'win32' || platform === 'darwin') return true;
  return Boolean(env.DISPLAY || env.WAYLAND_DISPLAY);
}

/** Whether Electron's binary is wanted, so that it is worth looking for and fetching. */
export function getWantsElectron(asked: AskedWay, hasDisplay: boolean): boolean {
  return hasDisplay && (asked === 'auto' || asked === 'electron');
}

/**
 * Chooses how the planner is opened with the means at hand.
 *
 * @returns Electron where it may be used, else a browser's app window, else the address with the reason for it
 */
export function chooseWay({ asked, hasDisplay, electron, browser }: Means): Way {
  if (asked === 'address') return { kind: 'address', reason: 'As asked, no window is opened.' };
  if (!hasDisplay) return { kind: 'address', reason: 'There is no display here to open a window on.' };
  if (electron !== undefined && getWantsElectron(asked, hasDisplay)) return { kind: 'electron', binary: electron };
  if (browser !== undefined) return { kind: 'app-window', browser };
  return {
    kind: 'address',
    reason: 'Neither Electron nor a Chromium-family browser (Chromium, Chrome, Edge) was found on this machine.',
  };
}
