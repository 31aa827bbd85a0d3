/** Why a file could not be read. The codes are stable; the sentence is for the user. */
export interface ParseProblem {
  code:
    | 'file-empty'
    | 'file-too-big'
    | 'not-json'
    | 'file-truncated'
    | 'wrong-kind'
    | 'newer-version'
    | 'bad-field'
    | 'duplicate-id';
  sentence: string;
  /** Path of the field, such as `parts.1.length`; '' for the file as a whole. */
  where: string;
}

export type ParseResult<K extends string, T> =
  | ({ ok: true; remarks: string[] } & Record<K, T>)
  | { ok: false; problem: ParseProblem };
