import type { Host } from './host';

/** What the desktop window's preload script puts at `window.kerfgrip`: the calls, and what the window's menu and the system ask of the page. */
export interface DesktopBridge extends Host {
  /** Told the id of an action that was chosen in the menu. */
  onAction(listener: (id: string) => void): void;
  /** Told the token of a plan that the system asks to open, as by a double click; the page opens it with `openPlan`. */
  onOpen(listener: (token: string) => void): void;
}
