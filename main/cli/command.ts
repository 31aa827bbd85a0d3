/** Exit codes of the command line. */
export const EXIT = { done: 0, failed: 1, usage: 2, stopStands: 3 } as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** Where a command writes: results to `out`, one sentence on what went wrong to `err`. */
export interface Streams {
  out: (text: string) => void;
  err: (text: string) => void;
}

/** One verb of the command line. */
export interface Command {
  /** The words after the program's name. */
  usage: string;
  /** One line on what it does. */
  about: string;
  /**
   * @param args the words after the verb
   * @throws UsageError for words it cannot make sense of, ExpectedProblem when the job failed
   */
  run(args: readonly string[], streams: Streams): Promise<ExitCode>;
}

/** The command line itself is wrong; the sentence says how. */
export class UsageError extends Error {
  constructor(sentence: string) {
    super(sentence);
    this.name = 'UsageError';
  }
}
