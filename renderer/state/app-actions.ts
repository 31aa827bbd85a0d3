import type { Action } from './actions';
import type { App } from './app';
import { exportParts, exportPurchase, exportRack, readListFile, readOutline, readShopFile } from './imports';
import { TABS, type Tab } from './view';

const TAB_LABELS: Record<Tab, string> = {
  parts: 'Parts',
  bench: 'Bench',
  order: 'Order',
  sheet: 'Sheet',
  shop: 'Shop',
};

const fileActions: readonly Action<App>[] = [
  {
    id: 'file.new',
    label: 'New plan',
    group: 'File',
    shortcuts: ['Alt+N', 'Mod+N'],
    inFields: true,
    perform: (app) => void app.files.newPlan(),
  },
  {
    id: 'file.open',
    label: 'Open…',
    group: 'File',
    shortcuts: ['Mod+O'],
    inFields: true,
    perform: (app) => void app.files.open(),
  },
  {
    id: 'file.save',
    label: 'Save',
    group: 'File',
    shortcuts: ['Mod+S'],
    inFields: true,
    perform: (app) => void app.files.save(),
  },
  {
    id: 'file.saveAs',
    label: 'Save as…',
    group: 'File',
    shortcuts: ['Mod+Shift+S'],
    inFields: true,
    perform: (app) => void app.files.saveAs(),
  },
  {
    id: 'file.print',
    label: 'Print the sheet…',
    group: 'File',
    shortcuts: ['Mod+P'],
    inFields: true,
    perform: (app) => app.view.requestPrint(),
  },
  {
    id: 'file.saveView',
    label: 'Save one view…',
    group: 'File',
    isEnabled: (app) => app.documents.store.getState().plan.parts.length > 0,
    perform: (app) => void app.dialogs.ask('saveView', {}),
  },
];

const importActions: readonly Action<App>[] = [
  {
    id: 'import.outline',
    label: 'Read an outline…',
    group: 'Parts',
    perform: (app) => void readOutline(app),
  },
  {
    id: 'import.parts',
    label: 'Read a parts list…',
    group: 'Parts',
    perform: (app) => void readListFile(app, 'parts'),
  },
  { id: 'export.parts', label: 'Export the parts list…', group: 'Parts', perform: (app) => void exportParts(app) },
  {
    id: 'export.purchase',
    label: 'Export the purchase list…',
    group: 'Order',
    perform: (app) => void exportPurchase(app),
  },
  { id: 'import.rack', label: 'Read a rack list…', group: 'Shop', perform: (app) => void readListFile(app, 'rack') },
  { id: 'export.rack', label: 'Export the rack list…', group: 'Shop', perform: (app) => void exportRack(app) },
  {
    id: 'import.shop',
    label: 'Read another shop library…',
    group: 'Shop',
    perform: (app) => void readShopFile(app),
  },
  {
    id: 'export.shop',
    label: 'Export the shop library…',
    group: 'Shop',
    perform: (app) => void app.files.exportShop(),
  },
];

const editActions: readonly Action<App>[] = [
  {
    id: 'edit.undo',
    label: (app) => getStepLabel('Undo', app.documents.history.getState().undo[0]),
    group: 'Edit',
    shortcuts: ['Mod+Z'],
    isEnabled: (app) => app.documents.history.getState().undo.length > 0,
    perform: (app) => app.documents.undo(),
  },
  {
    id: 'edit.redo',
    label: (app) => getStepLabel('Redo', app.documents.history.getState().redo[0]),
    group: 'Edit',
    shortcuts: ['Mod+Shift+Z', 'Mod+Y'],
    isEnabled: (app) => app.documents.history.getState().redo.length > 0,
    perform: (app) => app.documents.redo(),
  },
];

const viewActions: readonly Action<App>[] = [
  ...TABS.map(
    (tab, index): Action<App> => ({
      id: `view.${tab}`,
      label: `Show ${TAB_LABELS[tab]}`,
      group: 'View',
      shortcuts: [`Alt+${index + 1}`],
      inFields: true,
      perform: (app) => app.view.show(tab),
    }),
  ),
  {
    id: 'view.units',
    label: (app) => (app.documents.store.getState().plan.units === 'in' ? 'Show millimetres' : 'Show inches'),
    group: 'View',
    shortcuts: ['Alt+U'],
    inFields: true,
    perform: (app) => {
      const units = app.documents.store.getState().plan.units === 'in' ? 'mm' : 'in';
      app.documents.edit(units === 'in' ? 'show inches' : 'show millimetres', (plan) => ({ ...plan, units }));
    },
  },
  {
    id: 'view.left',
    label: 'Fold the setup panel',
    group: 'View',
    shortcuts: ['Alt+['],
    perform: (app) => app.view.store.setState(({ leftOpen }) => ({ leftOpen: !leftOpen })),
  },
  {
    id: 'view.right',
    label: 'Fold the findings panel',
    group: 'View',
    shortcuts: ['Alt+]'],
    perform: (app) => app.view.store.setState(({ rightOpen }) => ({ rightOpen: !rightOpen })),
  },
  {
    id: 'view.theme',
    label: 'Switch light and dark',
    group: 'View',
    perform: (app) => app.view.nextTheme(),
  },
  {
    id: 'view.workings',
    label: 'Workings of every figure…',
    group: 'View',
    shortcuts: ['Alt+W'],
    inFields: true,
    perform: (app) => void app.dialogs.ask('workings', {}),
  },
  {
    id: 'view.compare',
    label: 'Compare two variants…',
    group: 'View',
    shortcuts: ['Alt+C'],
    inFields: true,
    isEnabled: (app) => app.documents.store.getState().plan.parts.length > 0,
    perform: (app) => void app.dialogs.ask('compare', { beside: '' }),
  },
  {
    id: 'help.commands',
    label: 'All commands…',
    group: 'Help',
    shortcuts: ['Mod+K'],
    inFields: true,
    perform: (app) => void app.dialogs.ask('commands', {}),
  },
  {
    id: 'help.about',
    label: 'Guide and cautions',
    group: 'Help',
    shortcuts: ['F1'],
    inFields: true,
    perform: (app) => void app.dialogs.ask('about', {}),
  },
];

/** What can be done anywhere in the program. Views add their own while they are shown. */
export const APP_ACTIONS: readonly Action<App>[] = [...fileActions, ...importActions, ...editActions, ...viewActions];

function getStepLabel(verb: string, step: string | undefined): string {
  return step === undefined ? verb : `${verb}: ${step}`;
}
