import type { Mark } from '../marks';

/** One printed page: marks in mm of paper, 0 at the lower left corner, Y up. */
export interface SheetPage {
  name: string;
  /** What begins on the page, as the outline of the file shows it. */
  sections: string[];
  width: number;
  height: number;
  marks: Mark[];
}
