import { renderSheetPdf } from '../../main/services/export-sheet';
import { loadPdfFonts } from '../../main/services/pdf/load-fonts';
import { renderPdf } from '../../main/services/pdf/render-pdf';
import type { SheetPage } from '../../shared/drawing/sheet/page';
import { buildElevation } from '../../shared/drawing/views/elevation';
import { buildEndSection } from '../../shared/drawing/views/end-section';
import { buildPlanView } from '../../shared/drawing/views/plan-view';
import { buildStack } from '../../shared/drawing/views/stack-view';
import { evaluate } from '../../shared/evaluate';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import { readSamplePlan } from '../unit/support/sample-plans';

const CALLS = 15;
const WARM_UP_CALLS = 5;

async function measure(call: () => unknown): Promise<number> {
  const times: number[] = [];
  for (let round = 0; round < WARM_UP_CALLS + CALLS; round += 1) {
    const from = performance.now();
    await call();
    if (round >= WARM_UP_CALLS) {
      times.push(performance.now() - from);
    }
  }
  return times.sort((a, b) => a - b)[Math.floor(CALLS / 2)] ?? Number.NaN;
}

/** As many pages with one line of text on each: what the PDF library asks for by itself. */
function buildBarePages(count: number): SheetPage[] {
  return Array.from({ length: count }, (_unused, index) => ({
    name: `Page ${index + 1}`,
    sections: [`Page ${index + 1}`],
    width: 297,
    height: 210,
    marks: [
      {
        kind: 'text',
        layer: 'note',
        feature: null,
        at: { x: 10, y: 10 },
        text: `page ${index + 1}`,
        size: 2.5,
        anchor: 'start',
        angle: 0,
        weight: 'regular',
      },
    ],
  }));
}

/** Prints ms of the sheet's PDF and of the views that a drag redraws, beside a PDF of as many bare pages. */
export async function runSheetBench(): Promise<string[]> {
  const plan = readSamplePlan('hoist-arms');
  const evaluation = evaluate(plan, defaultShop);
  const from = performance.now();
  const { pages, bytes } = await renderSheetPdf(plan, evaluation, defaultShop, { paper: 'a4' });
  const coldMs = performance.now() - from;
  const fonts = await loadPdfFonts();
  const info = { title: '', author: '', subject: '', date: '' };
  const options = { mmPerPaperMm: 2 };
  const baseline = await measure(() => renderPdf(buildBarePages(pages), info, fonts));
  const rows: [string, number][] = [
    ['PDF of as many bare pages (baseline)', baseline],
    ['sheet as PDF', await measure(() => renderSheetPdf(plan, evaluation, defaultShop, { paper: 'a4' }))],
    [
      'elevation, section, plan and stack built, as for a frame of a drag',
      await measure(() => {
        buildElevation(plan, evaluation, defaultShop, options);
        buildEndSection(plan, evaluation, defaultShop, options);
        buildPlanView(plan, evaluation, defaultShop, options);
        buildStack(plan, evaluation, defaultShop, options);
      }),
    ],
  ];
  const lines = [
    `sheet: ${pages} pages, ${(bytes.length / 1000).toFixed(0)} kB; first call ${coldMs.toFixed(0)} ms`,
    ...rows.map(
      ([name, ms]) => `  ${ms.toFixed(2).padStart(8)} ms  × ${(ms / baseline).toFixed(2).padStart(6)}  ${name}`,
    ),
  ];
  for (const line of lines) console.log(line);
  return lines;
}

if (process.argv[1]?.endsWith('sheet.bench.ts')) await runSheetBench();
