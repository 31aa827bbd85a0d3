import type { DesktopBridge } from '../../shared/contract/desktop';
import type { Host, HostCalls, Problem, Reply } from '../../shared/contract/host';
import { PAGE_ID_HEADER } from '../../shared/contract/page-header';

declare global {
  interface Window {
    /** Put there by the desktop window's preload script. */
    readonly kerfgrip?: DesktopBridge;
  }
}

/** The desktop host where the page runs in its window, else the same host over the loopback port that served the page. */
export function getHost(): Host {
  return (
    window.kerfgrip ??
    buildHttpHost(
      (path, init) => window.fetch(path, init),
      crypto.randomUUID(),
      (title) => {
        document.title = title;
      },
    )
  );
}

type Fetch = (path: string, init: RequestInit) => Promise<Response>;

/** A title as a window shows it: the plan, with a mark when it has changes that are not on file. */
function getWindowTitle({ title, unsaved }: HostCalls['setTitle']['request']): string {
  return `${unsaved ? '• ' : ''}${title === '' ? 'Untitled' : title} — Kerfgrip`;
}

/**
 * A host over HTTP: each verb is a POST of its request as JSON; the cookie that came with the page proves who asks.
 *
 * @param page id of this page, another at each load
 */
export function buildHttpHost(fetch: Fetch, page: string, showTitle: (title: string) => void = () => undefined): Host {
  return {
    async call(verb, request) {
      // That host has no window of its own; the page is all there is to put a title on.
      if (verb === 'setTitle') showTitle(getWindowTitle(request as HostCalls['setTitle']['request']));
      try {
        const response = await fetch(`call/${verb}`, {
          method: 'POST',
          credentials: 'same-origin',
          headers: { 'content-type': 'application/json', [PAGE_ID_HEADER]: page },
          body: JSON.stringify(request),
        });
        return (await parseReply(response)) as Reply<never>;
      } catch {
        return refuse(
          'host-gone',
          'The planner’s own service does not answer. Start it again; your work is still here.',
        );
      }
    },
  };
}

async function parseReply(response: Response): Promise<Reply<unknown>> {
  const body: unknown = await response.json().catch(() => null);
  if (isReply(body)) return body;
  return refuse('host-answer', `The planner’s own service gave an answer that cannot be read (${response.status}).`);
}

function isReply(body: unknown): body is Reply<unknown> {
  if (typeof body !== 'object' || body === null || !('ok' in body)) return false;
  return body.ok === true ? 'value' in body : 'problem' in body;
}

function refuse(code: string, sentence: string): { ok: false; problem: Problem } {
  return { ok: false, problem: { code, sentence, where: '' } };
}
