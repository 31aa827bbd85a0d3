import type { IncomingMessage } from 'node:http';

/** What became of reading a request's body. */
export type Body = { ok: true; text: string } | { ok: false; reason: 'too-large' | 'broken' };

/**
 * Reads a request's body as text, of which no more than `mostBytes` are ever held.
 *
 * @param request the request, its headers read
 * @param mostBytes the limit, whatever length the request says it has
 */
export function readBody(request: IncomingMessage, mostBytes: number): Promise<Body> {
  if (Number(request.headers['content-length'] ?? 0) > mostBytes) {
    return Promise.resolve({ ok: false, reason: 'too-large' });
  }
  return new Promise((resolve) => {
    const pieces: Buffer[] = [];
    let total = 0;
    request.on('data', (piece: Buffer) => {
      total += piece.length;
      if (total > mostBytes) {
        pieces.length = 0;
        request.pause();
        resolve({ ok: false, reason: 'too-large' });
        return;
      }
      pieces.push(piece);
    });
    request.on('end', () => resolve({ ok: true, text: Buffer.concat(pieces).toString('utf8') }));
    request.on('error', () => resolve({ ok: false, reason: 'broken' }));
    request.on('close', () => resolve({ ok: false, reason: 'broken' }));
  });
}
