import { join } from 'node:path';
import { app, type BrowserWindow, dialog } from 'electron';
import { getAboutText } from './about-text';

function getText(): string {
  const licences = app.isPackaged ? join(process.resourcesPath, 'licences') : undefined;
  return getAboutText(app.getVersion(), process.versions, licences);
}

/** Shows what the program is, its cautions and its versions. */
export async function showAboutBox(window: BrowserWindow): Promise<void> {
  await dialog.showMessageBox(window, {
    type: 'info',
    title: 'About Kerfgrip',
    message: 'Kerfgrip',
    detail: getText(),
    buttons: ['Close'],
    cancelId: 0,
  });
}

/** Has the about panel of macOS, which its own menu opens, say the same. */
export function setAboutPanel(): void {
  app.setAboutPanelOptions({ applicationName: 'Kerfgrip', applicationVersion: app.getVersion(), credits: getText() });
}
