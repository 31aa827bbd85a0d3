import type { Mark } from '../marks';

/** One printed page: marks in mm of paper, 0 at the lower left corner, Y up. */
export interface SheetPage {
  /** Name of the page in the outline of the file. */
  name: string;
  width: number;
  height: number;
  marks: Mark[];
}
