import { existsSync, readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';
import { PAGE_HEADERS } from '../../../main/services/page-policy';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.ttf': 'font/ttf',
  '.wasm': 'application/wasm',
};

export interface PageServer {
  readonly address: string;
  close(): void;
}

/** Serves one built page with the planner's own headers; calls of the page are answered by the host given. */
export async function servePage(
  folder: string,
  answer: (verb: string, request: unknown) => Promise<unknown> = () => Promise.resolve({}),
): Promise<PageServer> {
  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url ?? '/', 'http://localhost');
    if (pathname.startsWith('/call/')) {
      let body = '';
      request.on('data', (chunk: Buffer) => {
        body += chunk.toString();
      });
      request.on('end', () => {
        void answer(pathname.slice('/call/'.length), JSON.parse(body)).then((reply) => {
          response.setHeader('content-type', 'application/json');
          response.end(JSON.stringify(reply));
        });
      });
      return;
    }
    const file = join(folder, normalize(pathname === '/' ? '/index.html' : pathname));
    if (!file.startsWith(folder) || !existsSync(file)) {
      response.statusCode = 404;
      response.end();
      return;
    }
    const inline = extname(file) === '.html' ? { 'content-security-policy': '' } : {};
    for (const [name, value] of Object.entries({ ...PAGE_HEADERS, ...inline })) {
      if (value !== '') response.setHeader(name, value);
    }
    response.setHeader('content-type', TYPES[extname(file)] ?? 'application/octet-stream');
    response.end(readFileSync(file));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return { address: `http://127.0.0.1:${port}/`, close: () => server.close() };
}
