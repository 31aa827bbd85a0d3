import { useEffect } from 'react';
import { isActionEnabled, isShortcut } from '../state/actions';
import { useApp } from '../state/hooks';

/** Carries out the action whose shortcut is pressed, unless a field or a dialog has used the key. */
export function useShortcuts(): void {
  const app = useApp();
  useEffect(() => {
    const handle = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || app.dialogs.store.getState().open !== null) return;
      const inField = isTextField(event.target);
      const action = app.actions.store
        .getState()
        .all.find(
          (candidate) =>
            (!inField || candidate.inFields === true || candidate.shortcuts?.some((keys) => keys.startsWith('Mod+'))) &&
            candidate.shortcuts?.some((keys) => isShortcut(event, keys, app.onMac)),
        );
      if (action === undefined) return;
      event.preventDefault();
      if (!isActionEnabled(action, app)) return;
      if (inField) commitField(event.target);
      action.perform(app);
    };
    window.addEventListener('keydown', handle);
    return () => window.removeEventListener('keydown', handle);
  }, [app]);
}

function isTextField(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.matches('input, textarea, [contenteditable="true"]');
}

/** Leaving a field commits it; so does an action that is called from within, or saving would miss what was just typed. */
function commitField(target: EventTarget | null): void {
  if (!(target instanceof HTMLElement)) return;
  target.blur();
  target.focus();
}
