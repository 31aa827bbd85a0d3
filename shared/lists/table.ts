/** A list as it stands in a file: cells of text, nothing read into them yet. */
export interface TableText {
  /** Rows with at least one cell that is not blank. */
  rows: TableRow[];
  delimiter: string;
  /** Sentences on the file as a whole. */
  remarks: string[];
}

export interface TableRow {
  /** Line of the file the row begins on, from 1. */
  line: number;
  cells: string[];
}

/** What may stand between cells. */
export const DELIMITERS = [';', '\t', ',', '|'] as const;

export const DELIMITER_WORDS: Readonly<Record<string, string>> = {
  ';': 'semicolon',
  '\t': 'tab',
  ',': 'comma',
  '|': 'upright stroke',
};
