import type { ReadKind } from '../../shared/contract/host';

/** What a host does in its own way: dialogs, where it has them, and its window. */
export interface HostDialogs {
  readonly hostKind: 'electron' | 'local';
  /** True when the two `ask` verbs show dialogs. */
  readonly native: boolean;
  /** @returns the path of the file to open, or `null` when the user thought better of it */
  askOpen(what: OpenedKind): Promise<string | null>;
  /**
   * Asks where to write; a dialog of the system asks by itself before a file is replaced.
   *
   * @param suggestedName file name with its ending
   * @param what the kind of file
   */
  askSave(suggestedName: string, what: SavedKind): Promise<string | null>;
  /** Shows the name of the plan and whether it has changes that are not on file. @param path its file, if it has one */
  setTitle(title: string, unsaved: boolean, path: string | null): void;
}

export type SavedKind = 'plan' | 'pdf' | 'svg' | 'dxf' | 'png' | 'csv' | 'shop';

export type OpenedKind = 'plan' | ReadKind;

/** A host without dialogs: the page asks with its own. */
export const NO_DIALOGS: HostDialogs = {
  hostKind: 'local',
  native: false,
  askOpen: async () => null,
  askSave: async () => null,
  setTitle: () => undefined,
};
