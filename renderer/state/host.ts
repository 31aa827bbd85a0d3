import type { DesktopBridge } from '../../shared/contract/desktop';
import type { Host, Problem, Reply } from '../../shared/contract/host';

declare global {
  interface Window {
    /** Put there by the desktop window's preload script. */
    readonly kerfgrip?: DesktopBridge;
  }
}

/** The desktop host where the page runs in its window, else the same host over the loopback port that served the page. */
export function getHost(): Host {
  return window.kerfgrip ?? buildHttpHost((path, init) => window.fetch(path, init));
}

type Fetch = (path: string, init: RequestInit) => Promise<Response>;

/** A host over HTTP: each verb is a POST of its request as JSON; the cookie that came with the page proves who asks. */
export function buildHttpHost(fetch: Fetch): Host {
  return {
    async call(verb, request) {
      try {
        const response = await fetch(`call/${verb}`, {
          method: 'POST',
          credentials: 'same-origin',
          headers: { 'content-type': 'application/json' },
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
