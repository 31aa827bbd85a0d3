import type { Problem, Reply } from '../../shared/contract/host';

/** A problem that is no fault of the program: what it says is for the user. Anything else that is thrown is a bug. */
export class ExpectedProblem extends Error {
  readonly problem: Problem;

  /**
   * @param code stable, in kebab case
   * @param sentence one sentence for the user
   * @param where the file or field it is about, or ''
   * @param cause what the system said, where there is one
   */
  constructor(code: string, sentence: string, where = '', cause?: unknown) {
    super(sentence, cause === undefined ? undefined : { cause });
    this.name = 'ExpectedProblem';
    this.problem = { code, sentence, where };
  }
}

/** What a host call answers when it failed: the problem itself, or for a bug a sentence that says it is one. */
export function getFailure(error: unknown): Reply<never> {
  if (error instanceof ExpectedProblem) return { ok: false, problem: error.problem };
  const what = error instanceof Error ? error.message : String(error);
  return {
    ok: false,
    problem: { code: 'bug', sentence: `Kerfgrip has a fault of its own here: ${what}`, where: '' },
  };
}
