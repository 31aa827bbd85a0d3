import { stat } from 'node:fs/promises';
import { extname, join } from 'node:path';
import type { SaveTarget } from '../../shared/contract/host';
import { ExpectedProblem } from './expected-problem';
import { parseFileName } from './file-name';
import { SHOP_ENDING } from './folder-listing';
import type { HostDialogs, SavedKind } from './host-dialogs';
import type { PathTokens } from './path-tokens';

const ENDINGS: Readonly<Record<SavedKind, string>> = {
  plan: '.kgplan',
  pdf: '.pdf',
  svg: '.svg',
  dxf: '.dxf',
  png: '.png',
  csv: '.csv',
  shop: SHOP_ENDING,
};

export interface SavePlace {
  path: string;
  /** Whether the user has agreed that a file there is replaced. */
  mayReplace: boolean;
}

/**
 * Where to write, from the page's own dialog or from the host's.
 *
 * @returns the place, or `null` when the user thought better of it
 * @throws ExpectedProblem when the name cannot be, or when this host has no dialog and the page named no place
 */
export async function findSavePlace(
  tokens: PathTokens,
  dialogs: HostDialogs,
  kind: SavedKind,
  suggestedName: string,
  target: SaveTarget | null,
): Promise<SavePlace | null> {
  const ending = ENDINGS[kind];
  if (target !== null) {
    const folder = tokens.take('folder', target.folder);
    return { path: join(folder, parseFileName(target.name, ending)), mayReplace: target.replace };
  }
  if (!dialogs.native) {
    throw new ExpectedProblem('no-dialog', 'Choose a folder and a name to save under.', 'target');
  }
  const chosen = await dialogs.askSave(suggestedName, kind);
  if (chosen === null) return null;
  if (extname(chosen).toLowerCase() === ending) return { path: chosen, mayReplace: true };
  // The dialog asked about another name than the one that is written.
  return { path: `${chosen}${ending}`, mayReplace: false };
}

/** @throws ExpectedProblem `file-exists` when a file is there that the user has not agreed to replace */
export async function checkMayWrite({ path, mayReplace }: SavePlace, name: string): Promise<void> {
  if (mayReplace) return;
  const isThere = await stat(path).then(
    () => true,
    () => false,
  );
  if (isThere) throw new ExpectedProblem('file-exists', `There is a file ${name} already.`, path);
}
