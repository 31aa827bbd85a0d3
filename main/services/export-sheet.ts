import { buildSheet, type SheetOptions } from '../../shared/drawing/sheet/build-sheet';
import { toSheetSvg } from '../../shared/drawing/sinks/sheet-svg';
import type { Evaluation } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import { loadPdfFonts } from './pdf/load-fonts';
import { renderPdf } from './pdf/render-pdf';

export interface RenderedPdf {
  bytes: Uint8Array;
  pages: number;
}

/**
 * The fixture sheet as a PDF.
 *
 * @returns the bytes of the file and how many pages it has; the same bytes for the same plan, shop and options
 */
export async function renderSheetPdf(
  plan: Plan,
  evaluation: Evaluation,
  shop: Shop,
  options: SheetOptions,
): Promise<RenderedPdf> {
  const pages = buildSheet(plan, evaluation, shop, options);
  const info = {
    title: `${plan.name || 'Untitled plan'}: fixture sheet`,
    author: plan.author,
    subject: [plan.number, plan.revision && `rev. ${plan.revision}`].filter(Boolean).join(', '),
    date: plan.date,
  };
  return { bytes: await renderPdf(pages, info, await loadPdfFonts()), pages: pages.length };
}

/** The fixture sheet as one SVG, its pages below each other in true size. */
export function renderSheetSvg(
  plan: Plan,
  evaluation: Evaluation,
  shop: Shop,
  options: SheetOptions,
): { text: string; pages: number } {
  const pages = buildSheet(plan, evaluation, shop, options);
  return { text: toSheetSvg(pages), pages: pages.length };
}
