import { type Action, isActionEnabled } from '../state/actions';
import type { App } from '../state/app';
import { dismissQuestion } from '../state/dialogs';

/** Carries out an action wherever it was called from; a window that stands in its way is closed as by Escape. */
export function runAction(app: App, action: Action<App>): void {
  if (!isActionEnabled(action, app)) return;
  commitField(document.activeElement);
  dismissQuestion(app.dialogs.store.getState().open);
  action.perform(app);
}

export function isTextField(target: EventTarget | null): target is HTMLElement {
  return target instanceof HTMLElement && target.matches('input, textarea, [contenteditable="true"]');
}

/** Leaving a field commits it; so does an action that is called from within, or saving would miss what was just typed. */
function commitField(target: Element | null): void {
  if (!isTextField(target)) return;
  target.blur();
  target.focus();
}
