import { isActionEnabled } from '../state/actions';
import type { App } from '../state/app';

/** In the desktop window: carries out what its menu asks, and opens the plans that the system hands over. */
export function listenToWindow(app: App): void {
  window.kerfgrip?.onAction((id) => {
    const action = app.actions.find(id);
    if (action === undefined || app.dialogs.store.getState().open !== null || !isActionEnabled(action, app)) return;
    action.perform(app);
  });
  window.kerfgrip?.onOpen((token) => void app.files.openRecent(token));
}
