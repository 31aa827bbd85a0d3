import { basename, dirname } from 'node:path';
import type { ReadKind } from '../../shared/contract/host';
import { buildCsv, UTF8_MARK } from './build-csv';
import { ExpectedProblem } from './expected-problem';
import { listFolder } from './folder-listing';
import { giveListing } from './give-listing';
import type { Handlers, HostParts } from './host-handlers';
import { readDrawingFile, readTableFile } from './import/import-files';
import { readFileLimited } from './read-file-limited';
import { findSavePlace } from './save-place';
import { buildShopContent, parseShopContent } from './shop-text';
import { writeExport } from './write-export';

type ImportVerb = 'browseFiles' | 'readOutline' | 'readTable' | 'exportTable' | 'readShop' | 'exportShop';

const ASK: Readonly<Record<ReadKind, string>> = {
  drawing: 'Choose the drawing to read.',
  list: 'Choose the list to read.',
  shop: 'Choose the shop library to read.',
};

/** Answers the calls that take in drawings, lists and shop libraries, and that hand lists and the library on. */
export function createImportHandlers({ services, dialogs, tokens, session }: HostParts): Pick<Handlers, ImportVerb> {
  const findFile = async (kind: ReadKind, token: string | null): Promise<string | null> => {
    const path = token === null ? await dialogs.askOpen(kind) : tokens.take('file', token);
    if (path === null && !dialogs.native) throw new ExpectedProblem('no-dialog', ASK[kind], 'token');
    if (path !== null) session.lastFolder = dirname(path);
    return path;
  };
  return {
    async browseFiles({ folder, show }) {
      const asked = folder === null ? (session.lastFolder ?? services.home) : tokens.take('folder', folder);
      return giveListing(tokens, await listFolder(asked, show));
    },
    async readOutline({ token }) {
      const path = await findFile('drawing', token);
      return path === null ? null : { name: basename(path), drawing: await readDrawingFile(path) };
    },
    async readTable({ token, delimiter }) {
      const path = await findFile('list', token);
      if (path === null) return null;
      return { name: basename(path), token: tokens.give('file', path), table: await readTableFile(path, delimiter) };
    },
    async exportTable({ rows, delimiter, suggestedName, target }) {
      const place = await findSavePlace(tokens, dialogs, 'csv', suggestedName, target);
      return writeExport(session, place, async () => `${UTF8_MARK}${buildCsv(rows, delimiter)}`);
    },
    async readShop({ token }) {
      const path = await findFile('shop', token);
      if (path === null) return null;
      const content = await readFileLimited(path);
      return { name: basename(path), ...parseShopContent(content.toString('utf8'), basename(path)) };
    },
    async exportShop({ shop, suggestedName, target }) {
      const place = await findSavePlace(tokens, dialogs, 'shop', suggestedName, target);
      return writeExport(session, place, async () => buildShopContent(shop));
    },
  };
}
