import type { FolderListing } from '../../shared/contract/host';
import { DRIVES, type ListedFolder } from './folder-listing';
import type { PathTokens } from './path-tokens';

/** A folder's contents as the page may hold them: tokens in place of paths. */
export function giveListing(tokens: PathTokens, { path, parent, entries }: ListedFolder): FolderListing {
  return {
    folder: tokens.give('folder', path),
    shown: path === DRIVES ? 'This computer' : path,
    parent: parent === null ? null : tokens.give('folder', parent),
    entries: entries.map((entry) => ({
      name: entry.name,
      kind: entry.kind,
      token: tokens.give(entry.kind === 'folder' ? 'folder' : 'file', entry.path),
    })),
  };
}
