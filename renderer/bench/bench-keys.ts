import type { FeatureRef } from '../../shared/findings/finding';
import { formatLength } from '../../shared/units/format';
import { isShortcut, type KeyPress } from '../state/actions';
import type { App } from '../state/app';
import { BENCH_ACTIONS, type BenchActionContext } from './bench-actions';
import type { BenchSession } from './bench-session';
import { getStepName } from './features';
import { computeNudge } from './gestures/drag';
import type { Mover } from './gestures/mover';
import type { PaneName } from './panes';

const ARROWS: Readonly<Record<string, { readonly axis: Mover['axis']; readonly direction: 1 | -1 }>> = {
  ArrowLeft: { axis: 'X', direction: -1 },
  ArrowRight: { axis: 'X', direction: 1 },
  ArrowUp: { axis: 'Z', direction: 1 },
  ArrowDown: { axis: 'Z', direction: -1 },
};

const SHIFTED = 10;
/** px of the screen that Ctrl and an arrow move the paper by. */
const PAN_PX = 60;

const PANS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [PAN_PX, 0],
  ArrowRight: [-PAN_PX, 0],
  ArrowUp: [0, PAN_PX],
  ArrowDown: [0, -PAN_PX],
};

/** The selection as actions take it; null while there is nothing on the Bench. */
export function getActionContext(app: App, session: BenchSession): BenchActionContext | null {
  const setting = session.controller.getDrawn()?.setting ?? null;
  if (setting === null) return null;
  const { selection } = app.view.store.getState();
  return { app, session, setting, selection, first: selection[0] ?? null };
}

/** The thing that has the focus, and where it is shown. */
interface Focused {
  readonly feature: FeatureRef;
  readonly pane: PaneName;
}

/**
 * Keys while a thing of the Bench has the focus.
 *
 * @returns true when the key was used
 */
export function handleBenchKey(app: App, session: BenchSession, { feature, pane }: Focused, press: KeyPress): boolean {
  session.controller.settle();
  const { ctrlKey, metaKey, altKey, key } = press;
  const isPlain = !ctrlKey && !metaKey && !altKey;
  const arrow = ARROWS[key];
  const pan = PANS[key];
  if (pan !== undefined && !altKey && (app.onMac ? metaKey : ctrlKey)) {
    session.controller.pan(pane, ...pan);
    return true;
  }
  if (isPlain && arrow !== undefined) return nudge(app, session, feature, arrow, press.shiftKey);
  if (isPlain && /^[\d.]$/.test(key)) {
    session.typing.begin(feature, key);
    return true;
  }
  const context = getActionContext(app, session);
  if (context === null) return false;
  const action = BENCH_ACTIONS.find((candidate) => isActionKey(press, candidate.key, app.onMac));
  if (action === undefined || !action.isOffered(context)) return false;
  action.perform(context);
  return true;
}

function isActionKey(press: KeyPress, key: string, onMac: boolean): boolean {
  if (key === '') return false;
  return isShortcut(press, key, onMac) || (key === 'Delete' && isShortcut(press, 'Backspace', onMac));
}

/** An arrow moves by the shop's step, with Shift by ten; keys held down are one step of the history. */
function nudge(
  app: App,
  session: BenchSession,
  feature: FeatureRef,
  { axis, direction }: { readonly axis: Mover['axis']; readonly direction: 1 | -1 },
  isShifted: boolean,
): boolean {
  const mover = session.controller.getMover(feature);
  if (mover === null || mover.axis !== axis) return false;
  const { plan, shop } = app.documents.store.getState();
  const step = plan.units === 'in' ? shop.rules.nudgeStepInch : shop.rules.nudgeStepMm;
  const value = computeNudge(mover, direction, isShifted ? step * SHIFTED : step);
  const { apply } = mover;
  session.store.setState({ said: `${mover.name} ${formatLength(value, plan.units, { unit: true })} ${mover.measure}` });
  if (apply === null) {
    app.view.setSectionX(value);
    return true;
  }
  app.documents.edit(getStepName(mover, value, plan.units), (before) => apply(before, value), {
    join: `nudge ${feature.kind} ${feature.id}`,
  });
  const moved = mover.getMoved?.(value);
  if (moved !== undefined) app.view.select(moved);
  return true;
}
