import { basename, dirname } from 'node:path';
import { renderCutList } from './cut-list-csv';
import { buildFileProblem, getShortName } from './file-problem';
import type { Handlers, HostParts } from './host-handlers';
import { checkMayWrite, findSavePlace, type SavePlace } from './save-place';
import { renderSheetFile } from './sheet-files';
import { writeFileSafely } from './write-file-safely';

type ExportVerb = 'exportSheet' | 'renderSheet' | 'exportCutList';

/** Answers the calls that make files from a plan. */
export function createExportHandlers({ dialogs, tokens, session }: HostParts): Pick<Handlers, ExportVerb> {
  const writeTo = async (place: SavePlace | null, build: () => Promise<Uint8Array | string>) => {
    if (place === null) return null;
    await writeExport(place, build);
    session.lastFolder = dirname(place.path);
    return { name: basename(place.path), folder: dirname(place.path) };
  };
  return {
    async exportSheet({ suggestedName, target, ...order }) {
      const place = await findSavePlace(tokens, dialogs, order.format, suggestedName, target);
      return writeTo(place, async () => (await renderSheetFile(order)).content);
    },
    async renderSheet(order) {
      const { content, pages } = await renderSheetFile({ ...order, format: 'pdf' });
      return { pdfBase64: Buffer.from(content).toString('base64'), pages };
    },
    async exportCutList({ plan, shop, suggestedName, target }) {
      const place = await findSavePlace(tokens, dialogs, 'csv', suggestedName, target);
      return writeTo(place, async () => renderCutList(plan, shop));
    },
  };
}

async function writeExport(place: SavePlace, build: () => Promise<Uint8Array | string>): Promise<void> {
  const name = basename(place.path);
  await checkMayWrite(place, name);
  const content = await build();
  try {
    await writeFileSafely(place.path, content);
  } catch (error) {
    throw buildFileProblem(error, `${getShortName(name)} was not written`, place.path);
  }
}
