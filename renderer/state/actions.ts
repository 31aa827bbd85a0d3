import { createStore } from 'zustand/vanilla';
import type { ReadStore } from './read-store';

/** Something the user can do, wherever it is offered: a button, a menu, a key, the command list. */
export interface Action<Context> {
  /** Stable, such as `file.save`. */
  readonly id: string;
  readonly label: string | ((context: Context) => string);
  /** Heading in the command list. */
  readonly group: string;
  /** Such as `Mod+Shift+Z`; `Mod` is Ctrl, or Cmd on a Mac. The first is shown. */
  readonly shortcuts?: readonly string[];
  /** Whether the shortcut works while a text field has the focus; where it is not said, only those with `Mod` do. */
  readonly inFields?: boolean;
  readonly isEnabled?: (context: Context) => boolean;
  readonly perform: (context: Context) => void;
}

export interface Actions<Context> {
  readonly store: ReadStore<{ readonly all: readonly Action<Context>[] }>;
  /** Adds actions for as long as a view is there; gives back how to take them away. */
  add(actions: readonly Action<Context>[]): () => void;
  find(id: string): Action<Context> | undefined;
}

export function createActions<Context>(first: readonly Action<Context>[]): Actions<Context> {
  const store = createStore<{ readonly all: readonly Action<Context>[] }>(() => ({ all: first }));
  return {
    store,
    add(actions) {
      store.setState(({ all }) => ({ all: [...all, ...actions] }));
      return () => store.setState(({ all }) => ({ all: all.filter((action) => !actions.includes(action)) }));
    },
    find: (id) => store.getState().all.find((action) => action.id === id),
  };
}

export function getActionLabel<Context>(action: Action<Context>, context: Context): string {
  return typeof action.label === 'function' ? action.label(context) : action.label;
}

export function isActionEnabled<Context>(action: Action<Context>, context: Context): boolean {
  return action.isEnabled?.(context) ?? true;
}

/** The parts of a key press that a shortcut is told by. */
export interface KeyPress {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly shiftKey: boolean;
}

export function isShortcut(press: KeyPress, shortcut: string, onMac: boolean): boolean {
  const names = shortcut.split('+');
  const key = names.at(-1)?.toLowerCase() ?? '';
  const mod = names.includes('Mod');
  const wanted = {
    ctrl: (mod && !onMac) || names.includes('Ctrl'),
    meta: mod && onMac,
    alt: names.includes('Alt'),
    shift: names.includes('Shift'),
  };
  return (
    press.key.toLowerCase() === key &&
    press.ctrlKey === wanted.ctrl &&
    press.metaKey === wanted.meta &&
    press.altKey === wanted.alt &&
    press.shiftKey === wanted.shift
  );
}

/** A shortcut as it is printed on the user's keyboard. */
export function formatShortcut(shortcut: string, onMac: boolean): string {
  if (!onMac) return shortcut.replace('Mod', 'Ctrl');
  return shortcut.replace('Mod', '⌘').replace('Shift', '⇧').replace('Alt', '⌥').replaceAll('+', '');
}
