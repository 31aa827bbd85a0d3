import type { Pen } from './marks';

/** How a pen draws, in mm of paper. */
export interface PenStyle {
  width: number;
  /** Lengths of stroke and gap in turn; empty for a full line. */
  dashes: readonly number[];
}

/** Line group 0.5: wide 0.5, narrow 0.25 (ISO 128; the pairs from memory). Dash lengths are for small sheets. */
export const PEN_STYLES: Readonly<Record<Pen, PenStyle>> = {
  none: { width: 0, dashes: [] },
  wide: { width: 0.5, dashes: [] },
  narrow: { width: 0.25, dashes: [] },
  hair: { width: 0.1, dashes: [] },
  dashed: { width: 0.25, dashes: [1.8, 0.9] },
  chain: { width: 0.25, dashes: [5, 0.9, 0.7, 0.9] },
};
