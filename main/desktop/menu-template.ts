import type { MenuItemConstructorOptions } from 'electron';

export interface MenuRecent {
  name: string;
  folder: string;
  path: string;
}

export interface MenuParts {
  platform: NodeJS.Platform;
  isPackaged: boolean;
  recents: readonly MenuRecent[];
  /** Runs an action of the page by its id. */
  run: (actionId: string) => void;
  openRecent: (path: string) => void;
  showAbout: () => void;
}

type Item = MenuItemConstructorOptions;

const SEPARATOR: Item = { type: 'separator' };

/** The window's menu; what an item does is an action of the page or a role of the platform. */
export function buildMenuTemplate(parts: MenuParts): Item[] {
  const isMac = parts.platform === 'darwin';
  return [
    ...(isMac ? [{ role: 'appMenu' } satisfies Item] : []),
    { label: '&File', submenu: buildFileMenu(parts, isMac) },
    { label: '&Edit', submenu: buildEditMenu(parts) },
    { label: '&View', submenu: buildViewMenu(parts) },
    { label: '&Window', role: 'windowMenu' },
    { label: '&Help', role: 'help', submenu: buildHelpMenu(parts) },
  ];
}

function buildAction({ run }: MenuParts, id: string, label: string, accelerator?: string): Item {
  return { id, label, click: () => run(id), ...(accelerator === undefined ? {} : { accelerator }) };
}

function buildFileMenu(parts: MenuParts, isMac: boolean): Item[] {
  return [
    buildAction(parts, 'file.new', '&New plan', 'CmdOrCtrl+N'),
    buildAction(parts, 'file.open', '&Open…', 'CmdOrCtrl+O'),
    { label: 'Open &recent', submenu: buildRecentMenu(parts), enabled: parts.recents.length > 0 },
    SEPARATOR,
    buildAction(parts, 'file.save', '&Save', 'CmdOrCtrl+S'),
    buildAction(parts, 'file.saveAs', 'Save &as…', 'CmdOrCtrl+Shift+S'),
    SEPARATOR,
    buildAction(parts, 'file.print', '&Print the sheet…', 'CmdOrCtrl+P'),
    SEPARATOR,
    { role: isMac ? 'close' : 'quit' },
  ];
}

function buildRecentMenu({ recents, openRecent }: MenuParts): Item[] {
  return recents.map(({ name, folder, path }) => ({
    // An ampersand in a label marks its key.
    label: `${name} (${folder})`.replaceAll('&', '&&'),
    click: () => openRecent(path),
  }));
}

function buildEditMenu(parts: MenuParts): Item[] {
  return [
    buildAction(parts, 'edit.undo', '&Undo', 'CmdOrCtrl+Z'),
    buildAction(parts, 'edit.redo', '&Redo', 'CmdOrCtrl+Shift+Z'),
    SEPARATOR,
    { role: 'cut' },
    { role: 'copy' },
    { role: 'paste' },
    { role: 'selectAll' },
  ];
}

function buildViewMenu(parts: MenuParts): Item[] {
  const tabs = ['Parts', 'Bench', 'Order', 'Sheet', 'Shop'];
  return [
    ...tabs.map((tab, index) => buildAction(parts, `view.${tab.toLowerCase()}`, `&${tab}`, `Alt+${index + 1}`)),
    SEPARATOR,
    buildAction(parts, 'view.units', 'Inch or mm', 'Alt+U'),
    buildAction(parts, 'view.theme', 'Light or dark'),
    SEPARATOR,
    { role: 'resetZoom' },
    { role: 'zoomIn' },
    { role: 'zoomOut' },
    { role: 'togglefullscreen' },
    ...(parts.isPackaged
      ? []
      : [SEPARATOR, { role: 'reload' } satisfies Item, { role: 'toggleDevTools' } satisfies Item]),
  ];
}

function buildHelpMenu(parts: MenuParts): Item[] {
  return [
    buildAction(parts, 'help.about', '&Guide and cautions', 'F1'),
    buildAction(parts, 'help.commands', '&All commands…', 'CmdOrCtrl+K'),
    SEPARATOR,
    { label: 'About &Kerfgrip', click: () => parts.showAbout() },
  ];
}
