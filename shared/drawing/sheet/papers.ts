import type { PaperSize } from '../../model/plan';

export interface Paper {
  name: string;
  /** Lying, mm. */
  width: number;
  height: number;
}

/** A4, A3: ISO 216. Letter, Tabloid: ANSI/ASME Y14.1 sizes A and B. */
export const PAPERS: Readonly<Record<PaperSize, Paper>> = {
  letter: { name: 'Letter', width: 279.4, height: 215.9 },
  a4: { name: 'A4', width: 297, height: 210 },
  a3: { name: 'A3', width: 420, height: 297 },
  tabloid: { name: 'Tabloid', width: 431.8, height: 279.4 },
};
