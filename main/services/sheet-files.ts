import type { PaperSize } from '../../shared/contract/host';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import { ExpectedProblem } from './expected-problem';

export interface SheetOrder {
  plan: Plan;
  shop: Shop;
  format: 'pdf' | 'svg' | 'dxf';
  paper: PaperSize;
}

export interface RenderedSheet {
  content: Uint8Array | string;
  pages: number;
}

/** The fixture sheet of a plan as the content of a file. */
export async function renderSheetFile(_order: SheetOrder): Promise<RenderedSheet> {
  throw new ExpectedProblem('no-sheet', 'The fixture sheet cannot be drawn yet.');
}
