import type { Reply } from '../../shared/contract/host';

type Call = (verb: string, request: unknown) => Promise<Reply<unknown>>;

/**
 * Lets one page at a time work with the host: the one that has started last. Two would write over each other's journal.
 * What the page before it had not saved is in the journal, and the new one offers it.
 *
 * @returns the host for pages that say which one they are
 */
export function createOnePage(call: Call): (verb: string, request: unknown, page: string) => Promise<Reply<unknown>> {
  let current: string | null = null;
  return async (verb, request, page) => {
    if (verb === 'start' || current === null) current = page;
    if (page === current) return call(verb, request);
    const sentence =
      'Kerfgrip was opened again in another window, which works with it now: go on there, or load this page again.';
    return { ok: false, problem: { code: 'other-window', sentence, where: '' } };
  };
}
