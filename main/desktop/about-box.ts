import { app, type BrowserWindow, dialog } from 'electron';
import { getAboutText } from './about-text';

/** Shows what the program is, its cautions and its versions. */
export async function showAboutBox(window: BrowserWindow): Promise<void> {
  await dialog.showMessageBox(window, {
    type: 'info',
    title: 'About Kerfgrip',
    message: 'Kerfgrip',
    detail: getAboutText(app.getVersion(), process.versions),
    buttons: ['Close'],
    cancelId: 0,
  });
}
