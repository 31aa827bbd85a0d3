import { type BrowserWindow, dialog, type FileFilter } from 'electron';
import type { HostDialogs, OpenedKind, SavedKind } from '../services/host-dialogs';

const FILTERS: Readonly<Record<SavedKind, FileFilter>> = {
  plan: { name: 'Kerfgrip plan', extensions: ['kgplan'] },
  pdf: { name: 'PDF', extensions: ['pdf'] },
  svg: { name: 'SVG drawing', extensions: ['svg'] },
  dxf: { name: 'DXF drawing', extensions: ['dxf'] },
  png: { name: 'PNG picture', extensions: ['png'] },
  csv: { name: 'List as CSV', extensions: ['csv'] },
  shop: { name: 'Shop library', extensions: ['kgshop'] },
};

const OPEN_FILTERS: Readonly<Record<OpenedKind, FileFilter>> = {
  plan: FILTERS.plan,
  drawing: { name: 'DXF and SVG drawings', extensions: ['dxf', 'svg'] },
  list: { name: 'Lists', extensions: ['csv', 'tsv', 'txt'] },
  shop: { name: 'Shop library', extensions: ['kgshop', 'json'] },
};

const OPEN_TITLES: Readonly<Record<OpenedKind, string>> = {
  plan: 'Open a plan',
  drawing: 'Read a drawing',
  list: 'Read a list',
  shop: 'Read a shop library',
};

const SAVE_TITLES: Readonly<Record<SavedKind, string>> = {
  plan: 'Save the plan',
  pdf: 'Export as PDF',
  svg: 'Export as SVG',
  dxf: 'Export as DXF',
  png: 'Save a picture',
  csv: 'Export a list',
  shop: 'Export the shop library',
};

/** The system's own dialogs, in front of the window. */
export function createNativeDialogs(window: BrowserWindow, setTitle: HostDialogs['setTitle']): HostDialogs {
  return {
    hostKind: 'electron',
    native: true,
    setTitle,
    async askOpen(what) {
      const filters = [OPEN_FILTERS[what], { name: 'All files', extensions: ['*'] }];
      const { filePaths } = await dialog.showOpenDialog(window, {
        title: OPEN_TITLES[what],
        properties: ['openFile'],
        filters,
      });
      return filePaths[0] ?? null;
    },
    async askSave(suggestedName, what) {
      const { filePath, canceled } = await dialog.showSaveDialog(window, {
        title: SAVE_TITLES[what],
        defaultPath: suggestedName,
        filters: [FILTERS[what]],
        properties: ['showOverwriteConfirmation', 'createDirectory'],
      });
      return canceled || filePath === '' ? null : filePath;
    },
  };
}
