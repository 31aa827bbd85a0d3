import { getListStyle } from '../../shared/lists/list-style';
import { UTF8_MARK } from './build-csv';
import { renderCutList } from './cut-list-csv';
import type { Handlers, HostParts } from './host-handlers';
import { parsePicture } from './parse-picture';
import { findSavePlace } from './save-place';
import { renderSheetFile } from './sheet-files';
import { renderViewFile } from './view-files';
import { writeExport } from './write-export';

type ExportVerb = 'exportSheet' | 'renderSheet' | 'exportView' | 'exportPicture' | 'exportCutList';

/** Answers the calls that make files from a plan. */
export function createExportHandlers({ services, dialogs, tokens, session }: HostParts): Pick<Handlers, ExportVerb> {
  return {
    async exportSheet({ suggestedName, target, ...order }) {
      const place = await findSavePlace(tokens, dialogs, order.format, suggestedName, target);
      return writeExport(session, place, async () => (await renderSheetFile(order)).content);
    },
    async renderSheet(order) {
      const { content, pages } = await renderSheetFile({ ...order, format: 'pdf' });
      return { pdfBase64: Buffer.from(content).toString('base64'), pages };
    },
    async exportView({ suggestedName, target, ...order }) {
      const place = await findSavePlace(tokens, dialogs, order.format, suggestedName, target);
      return writeExport(session, place, async () => renderViewFile(order));
    },
    async exportPicture({ pngBase64, suggestedName, target }) {
      const picture = parsePicture(pngBase64);
      const place = await findSavePlace(tokens, dialogs, 'png', suggestedName, target);
      return writeExport(session, place, async () => picture);
    },
    async exportCutList({ plan, shop, suggestedName, target }) {
      const place = await findSavePlace(tokens, dialogs, 'csv', suggestedName, target);
      const style = getListStyle(services.locale, plan.units);
      return writeExport(session, place, async () => `${UTF8_MARK}${renderCutList(plan, shop, style)}`);
    },
  };
}
