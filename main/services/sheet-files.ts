import type { SheetOptions } from '../../shared/drawing/sheet/build-sheet';
import { toDxf } from '../../shared/drawing/sinks/dxf';
import { buildDrawingSet } from '../../shared/drawing/views/drawing-set';
import { evaluate, THOROUGH } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import { renderSheetPdf, renderSheetSvg } from './export-sheet';

export interface SheetOrder {
  plan: Plan;
  shop: Shop;
  format: 'pdf' | 'svg' | 'dxf';
  /** Paper and scales instead of what the plan says. */
  paper?: SheetOptions['paper'];
  scale?: SheetOptions['scale'];
  /** Name of the plan's file for the foot of each page; '' or absent for none. */
  fileName?: string;
  /** Side of the printed 100 mm test square as measured, mm; null or absent until somebody has. */
  measuredSquare?: number | null;
  /** Pages with the workings of every figure as well; default false. */
  workings?: boolean;
}

export interface RenderedSheet {
  content: Uint8Array | string;
  pages: number;
}

/** Drawing mm to a mm of paper for which letters and hatches of a DXF are sized. */
const DXF_SCALE = 2;

/** The fixture sheet of a plan as the content of a file; a DXF holds the views of the setup in true size. */
export async function renderSheetFile(order: SheetOrder): Promise<RenderedSheet> {
  const { plan, shop, format } = order;
  const evaluation = evaluate(plan, shop, THOROUGH);
  const printCheck = { measuredSquare: order.measuredSquare ?? null };
  const options: SheetOptions = {
    paper: order.paper,
    scale: order.scale,
    fileName: order.fileName ?? '',
    printCheck,
    workings: order.workings ?? false,
  };
  switch (format) {
    case 'pdf': {
      const { bytes, pages } = await renderSheetPdf(plan, evaluation, shop, options);
      return { content: bytes, pages };
    }
    case 'svg': {
      const { text, pages } = renderSheetSvg(plan, evaluation, shop, options);
      return { content: text, pages };
    }
    case 'dxf':
      return { content: toDxf(buildDrawingSet(plan, evaluation, shop, DXF_SCALE)), pages: 1 };
    default:
      return format satisfies never;
  }
}
