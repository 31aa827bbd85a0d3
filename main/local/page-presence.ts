import type { ServerResponse } from 'node:http';

/** Script that the host adds to the page: the stream it holds open tells the host that the window is still there. */
export const PRESENCE_SCRIPT = "new EventSource('presence');\n";

const PING_EVERY_MS = 20_000;
const MOST_STREAMS = 32;

/** Knows whether a window is open, by the streams that pages hold. */
export interface PagePresence {
  /** Takes a request for the stream. @returns `false` when there are too many already */
  add(response: ServerResponse): boolean;
  close(): void;
}

/**
 * @param graceMs how long no window may be there before `onGone` is called: a reload takes a moment
 * @param onGone called once, and only after a window had been there
 */
export function createPagePresence(graceMs: number, onGone: () => void): PagePresence {
  const streams = new Set<ServerResponse>();
  let leaving: NodeJS.Timeout | undefined;
  const ping = setInterval(() => {
    for (const stream of streams) stream.write(':\n\n');
  }, PING_EVERY_MS);
  ping.unref();

  const remove = (response: ServerResponse): void => {
    if (!streams.delete(response) || streams.size > 0) return;
    leaving = setTimeout(onGone, graceMs);
    leaving.unref();
  };

  return {
    add(response) {
      if (streams.size >= MOST_STREAMS) return false;
      clearTimeout(leaving);
      streams.add(response);
      response.on('close', () => remove(response));
      response.writeHead(200, { 'content-type': 'text/event-stream' });
      response.write(':\n\n');
      return true;
    },
    close() {
      clearInterval(ping);
      clearTimeout(leaving);
      for (const stream of streams) stream.end();
      streams.clear();
      clearTimeout(leaving);
    },
  };
}
