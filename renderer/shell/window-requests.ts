import type { App } from '../state/app';
import { runAction } from './run-action';

/**
 * In the desktop window: carries out what its menu asks, and opens the plans that the system hands over. Nothing asked
 * for is dropped: the window that saves before it closes asks in the same way, and would wait for ever.
 */
export function listenToWindow(app: App): void {
  window.kerfgrip?.onAction((id) => {
    const action = app.actions.find(id);
    if (action !== undefined) runAction(app, action);
  });
  window.kerfgrip?.onOpen((token) => void app.files.openRecent(token));
}
