import { useEffect } from 'react';
import { type Action, isShortcut } from '../state/actions';
import type { App } from '../state/app';
import { mayAct } from '../state/dialogs';
import { useApp } from '../state/hooks';
import { isTextField, runAction } from './run-action';

/** Carries out the action whose shortcut is pressed, unless a field has used the key or a question waits for its answer. */
export function useShortcuts(): void {
  const app = useApp();
  useEffect(() => {
    const handle = (event: KeyboardEvent): void => {
      if (event.defaultPrevented) return;
      const { open } = app.dialogs.store.getState();
      const action = app.actions.store
        .getState()
        .all.find(
          (candidate) =>
            isHeard(candidate, event, open !== null) &&
            candidate.shortcuts?.some((keys) => isShortcut(event, keys, app.onMac)),
        );
      if (action === undefined) return;
      // Even where the action has to wait: the browser would print or save its own page.
      event.preventDefault();
      if (mayAct(open)) runAction(app, action);
    };
    window.addEventListener('keydown', handle);
    return () => window.removeEventListener('keydown', handle);
  }, [app]);
}

/** Letters belong to the field that has the focus, and undoing to what is typed in a dialog. */
function isHeard(action: Action<App>, { target }: KeyboardEvent, isDialogOpen: boolean): boolean {
  if (action.inFields === true) return true;
  if (isDialogOpen) return false;
  return (
    !isTextField(target) ||
    (action.inFields !== false && action.shortcuts?.some((keys) => keys.startsWith('Mod+')) === true)
  );
}
