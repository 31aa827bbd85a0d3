import { type BrowserWindow, dialog, type FileFilter } from 'electron';
import type { HostDialogs, OpenedKind, SavedKind } from '../services/host-dialogs';

const FILTERS: Readonly<Record<SavedKind, FileFilter>> = {
  plan: { name: 'Kerfgrip plan', extensions: ['kgplan'] },
  pdf: { name: 'PDF', extensions: ['pdf'] },
  svg: { name: 'SVG drawing', extensions: ['svg'] },
  dxf: { name: 'DXF drawing', extensions: ['dxf'] },
  csv: { name: 'List as CSV', extensions: ['csv'] },
  shop: { name: 'Shop library', extensions: ['kgshop'] },
};

const OPEN_FILTERS: Readonly<Record<OpenedKind, FileFilter>> = {
  plan: FILTERS.plan,
  drawing: { name: 'DXF and SVG drawings', extensions: ['dxf', 'svg'] },
  list: { name: 'Lists', extensions: ['csv', 'tsv', 'txt'] },
  shop: { name: 'Shop library', extensions: ['kgshop', 'json'] },
};

/** The system's own dialogs, in front of the window. */
export function createNativeDialogs(window: BrowserWindow, setTitle: HostDialogs['setTitle']): HostDialogs {
  return {
    hostKind: 'electron',
    native: true,
    setTitle,
    async askOpen(what) {
      const filters = [OPEN_FILTERS[what], { name: 'All files', extensions: ['*'] }];
      const { filePaths } = await dialog.showOpenDialog(window, { properties: ['openFile'], filters });
      return filePaths[0] ?? null;
    },
    async askSave(suggestedName, what) {
      const { filePath, canceled } = await dialog.showSaveDialog(window, {
        defaultPath: suggestedName,
        filters: [FILTERS[what]],
        properties: ['showOverwriteConfirmation', 'createDirectory'],
      });
      return canceled || filePath === '' ? null : filePath;
    },
  };
}
