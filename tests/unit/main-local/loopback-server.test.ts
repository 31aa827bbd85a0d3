import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { type ClientRequest, type IncomingHttpHeaders, request as sendRequest } from 'node:http';
import { connect } from 'node:net';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { LOOPBACK_DEFAULTS, type LoopbackOptions, startLoopbackServer } from '../../../main/local/loopback-server';
import { makeTempFolder } from '../services/temp-folder';

interface Answer {
  status: number;
  headers: IncomingHttpHeaders;
  body: string;
}

interface Visitor {
  port: number;
  address: string;
  calls: { verb: string; request: unknown; page: string }[];
  folder: string;
  /** Sends exactly this path and these headers, as a browser would not let a page do. */
  send: (method: string, path: string, headers?: Record<string, string>, body?: string) => Promise<Answer>;
  /** Spends the token; gives the headers that a page of ours sends from then on. */
  arrive: () => Promise<Record<string, string>>;
  close: () => Promise<void>;
}

async function startHost(options: Partial<LoopbackOptions> = {}): Promise<Visitor> {
  const folder = await makeTempFolder();
  const pageFolder = join(folder, 'page');
  mkdirSync(join(pageFolder, 'assets'), { recursive: true });
  writeFileSync(join(pageFolder, 'index.html'), '<html><head></head><body>planner</body></html>');
  writeFileSync(join(pageFolder, 'assets', 'index.js'), 'run()');
  writeFileSync(join(folder, 'secret.js'), 'secret');
  symlinkSync(join(folder, 'secret.js'), join(pageFolder, 'assets', 'link.js'));
  const calls: Visitor['calls'] = [];
  const server = await startLoopbackServer({
    ...LOOPBACK_DEFAULTS,
    pageFolder,
    handleCall: async (verb, request, page) => {
      calls.push({ verb, request, page });
      return { ok: true, value: { verb } };
    },
    onGone: () => undefined,
    ...options,
  });
  onTestFinished(() => server.close());
  const { port, address } = server;
  const host = `127.0.0.1:${port}`;
  const send: Visitor['send'] = (method, path, headers = {}, body = '') =>
    new Promise((resolve, reject) => {
      const sent = sendRequest({ host: '127.0.0.1', port, method, path, headers: { host, ...headers }, agent: false });
      sent.on('response', (response) => {
        let text = '';
        response.setEncoding('utf8').on('data', (piece: string) => {
          text += piece;
        });
        response.on('end', () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body: text }));
        response.on('error', reject);
      });
      sent.on('error', reject);
      sent.end(body);
    });
  const arrive = async (): Promise<Record<string, string>> => {
    const { headers } = await send('GET', `/${address.split('/').at(-1)}`);
    const cookie = headers['set-cookie']?.[0]?.split(';')[0] ?? '';
    return { cookie, origin: `http://${host}`, 'content-type': 'application/json' };
  };
  return { port, address, calls, folder, send, arrive, close: server.close };
}

/** The stream by which a page says that its window is there, once the host has answered. */
async function openPresence(port: number, cookie: string): Promise<ClientRequest> {
  const headers = { host: `127.0.0.1:${port}`, cookie };
  const stream = sendRequest({ host: '127.0.0.1', port, path: '/presence', headers });
  stream.on('error', () => undefined).end();
  await new Promise((resolve) => stream.on('response', resolve));
  return stream;
}

describe('the door', () => {
  test('turns the token in the address into a cookie that scripts and other sites do not get', async () => {
    const { send, address, port } = await startHost();
    const answer = await send('GET', `/${address.split('/').at(-1)}`);
    expect(answer.status).toBe(303);
    expect(answer.headers.location).toBe('/');
    expect(answer.headers['set-cookie']?.[0]).toMatch(
      new RegExp(`^kerfgrip-${port}=[\\w-]{43}; HttpOnly; SameSite=Strict; Path=/$`),
    );
  });

  test('lets the page in with the cookie, with a strict content policy', async () => {
    const { send, arrive } = await startHost();
    const { cookie = '' } = await arrive();
    const answer = await send('GET', '/', { cookie });
    expect(answer.status).toBe(200);
    expect(answer.body).toContain('planner');
    expect(answer.headers['content-security-policy']).toMatch(/^default-src 'none'; script-src 'self'/);
    expect(answer.headers['content-security-policy']).not.toContain('unsafe-inline');
    expect(answer.headers['x-content-type-options']).toBe('nosniff');
  });

  test.each(['/', '/assets/index.js', '/presence', '/?t=', '/?t=wrong', '/?t=%00'])(
    'without token or cookie %s gives nothing',
    async (path) => {
      const { send } = await startHost();
      const answer = await send('GET', path);
      expect(answer.status).toBe(403);
      expect(answer.headers['set-cookie']).toBeUndefined();
      expect(answer.body).not.toContain('planner');
    },
  );

  test('takes the token once: a second browser with the same address stays out, the first may use it again', async () => {
    const { send, arrive, address } = await startHost();
    const { cookie = '' } = await arrive();
    const path = `/${address.split('/').at(-1)}`;
    expect((await send('GET', path)).status).toBe(403);
    expect((await send('GET', path, { cookie })).status).toBe(303);
  });

  test('a wrong cookie, or one of another port, is no cookie', async () => {
    const { send, arrive, port } = await startHost();
    const { cookie = '' } = await arrive();
    const values = [`kerfgrip-${port}=x`, cookie.replace(String(port), '1'), `x${cookie}`, `${cookie}x`];
    const statuses = await Promise.all(values.map(async (value) => (await send('GET', '/', { cookie: value })).status));
    expect(statuses).toEqual([403, 403, 403, 403]);
  });

  test.each(['localhost', 'evil.example', '127.0.0.1', '[::1]'])(
    'a request that calls the host %j is not answered',
    async (name) => {
      const { send, arrive, port, calls } = await startHost();
      const headers = await arrive();
      const host = name === '127.0.0.1' ? name : `${name}:${port}`;
      expect((await send('GET', '/', { ...headers, host })).status).toBe(421);
      expect((await send('POST', '/call/start', { ...headers, host }, '{}')).status).toBe(421);
      expect(calls).toEqual([]);
    },
  );

  test('listens on the loopback address and on no other of this machine', async () => {
    const { port } = await startHost();
    const others = Object.values(networkInterfaces())
      .flatMap((found) => found ?? [])
      .filter(({ internal, family }) => !internal && family === 'IPv4')
      .map(({ address }) => address);
    const reached = await Promise.all(
      ['127.0.0.2', ...others].map(
        (host) =>
          new Promise<boolean>((resolve) => {
            const socket = connect({ host, port });
            socket.on('connect', () => resolve(true)).on('error', () => resolve(false));
            onTestFinished(() => void socket.destroy());
          }),
      ),
    );
    expect(reached).not.toContain(true);
  });
});

describe('a host call', () => {
  test('of our own page is answered', async () => {
    const { send, arrive, calls } = await startHost();
    const own = { ...(await arrive()), 'x-kerfgrip-page': 'page-1' };
    const answer = await send('POST', '/call/openPlan', own, '{"token":null}');
    expect(answer.status).toBe(200);
    expect(JSON.parse(answer.body)).toEqual({ ok: true, value: { verb: 'openPlan' } });
    expect(calls).toEqual([{ verb: 'openPlan', request: { token: null }, page: 'page-1' }]);
  });

  test.each<[string, (own: Record<string, string>) => Record<string, string>]>([
    ['no cookie', ({ cookie: _, ...rest }) => rest],
    ['a foreign origin', (own) => ({ ...own, origin: 'https://evil.example' })],
    ['the origin of another port', (own) => ({ ...own, origin: 'http://127.0.0.1:1' })],
    ['the origin null', (own) => ({ ...own, origin: 'null' })],
    ['no origin', ({ origin: _, ...rest }) => rest],
    ['another site by the browser’s word', (own) => ({ ...own, 'sec-fetch-site': 'same-site' })],
    ['the type of a form', (own) => ({ ...own, 'content-type': 'text/plain' })],
    ['no type', ({ 'content-type': _, ...rest }) => rest],
  ])('with %s never reaches a handler', async (_, spoil) => {
    const { send, arrive, calls } = await startHost();
    const answer = await send('POST', '/call/start', spoil(await arrive()), '{}');
    expect(answer.status).toBe(403);
    expect(JSON.parse(answer.body)).toMatchObject({ ok: false, problem: { code: 'not-allowed' } });
    expect(calls).toEqual([]);
  });

  test('larger than the limit is refused, by its word or by its bytes', async () => {
    const { send, arrive, calls, port } = await startHost({ mostBodyBytes: 10_000 });
    const own = await arrive();
    const declared = await send('POST', '/call/savePlan', own, `"${'x'.repeat(20_000)}"`).catch(() => ({
      status: 413,
    }));
    expect(declared.status).toBe(413);
    const status = await new Promise<number>((resolve) => {
      const headers = { host: `127.0.0.1:${port}`, ...own, 'transfer-encoding': 'chunked' };
      const sent = sendRequest({
        host: '127.0.0.1',
        port,
        method: 'POST',
        path: '/call/savePlan',
        headers,
        agent: false,
      });
      sent.on('response', (response) => resolve(response.statusCode ?? 0)).on('error', () => resolve(413));
      for (let sentBytes = 0; sentBytes < 50_000; sentBytes += 5_000) sent.write('x'.repeat(5_000));
    });
    expect(status).toBe(413);
    expect(calls).toEqual([]);
  });

  test('that is not JSON is refused', async () => {
    const { send, arrive, calls } = await startHost();
    expect((await send('POST', '/call/start', await arrive(), '{')).status).toBe(400);
    expect(calls).toEqual([]);
  });

  test('by another method does nothing', async () => {
    const { send, arrive, calls } = await startHost();
    const own = await arrive();
    const statuses = await Promise.all(
      ['PUT', 'DELETE', 'OPTIONS', 'HEAD'].map(async (method) => (await send(method, '/call/start', own)).status),
    );
    expect(statuses).toEqual([405, 405, 405, 405]);
    expect((await send('GET', '/call/start', own)).status).toBe(404);
    expect(calls).toEqual([]);
  });
});

describe('the page’s files', () => {
  test('are served with their type', async () => {
    const { send, arrive } = await startHost();
    const { cookie = '' } = await arrive();
    const answer = await send('GET', '/assets/index.js?x', { cookie });
    expect(answer).toMatchObject({ status: 200, body: 'run()' });
    expect(answer.headers['content-type']).toBe('text/javascript; charset=utf-8');
  });

  test.each([
    '/../secret.js',
    '/%2e%2e/secret.js',
    '/assets/../../secret.js',
    '/assets/..%2f..%2fsecret.js',
    '/..%5csecret.js',
    '/assets/link.js',
    '//etc/passwd',
    '/etc/passwd',
    '/%00',
    '/%',
    '/assets',
    '/assets/',
    '/C:/secret.js',
    `/${'a/'.repeat(2000)}x.js`,
  ])('and nothing else: %s', async (path) => {
    const { send, arrive } = await startHost();
    const { cookie = '' } = await arrive();
    const answer = await send('GET', path, { cookie });
    expect(answer.status).toBe(404);
    expect(answer.body).not.toContain('secret');
  });
});

test('the host ends once the last window has closed', async () => {
  let isGone = false;
  const onGone = (): void => {
    isGone = true;
  };
  const { arrive, port, send } = await startHost({ graceMs: 1, onGone });
  const { cookie = '' } = await arrive();
  expect((await send('GET', '/', { cookie })).body).toContain('src="./presence.js"');
  expect((await send('GET', '/presence.js', { cookie })).body).toContain('EventSource');
  const stream = await openPresence(port, cookie);
  stream.destroy();
  await expect.poll(() => isGone, { timeout: 20_000 }).toBe(true);
});

describe('many and slow clients', () => {
  test('200 at once are all answered', async () => {
    const { send, arrive, calls } = await startHost();
    const own = await arrive();
    const answers = await Promise.all(
      Array.from({ length: 200 }, (_, index) => send('POST', '/call/start', own, JSON.stringify({ index }))),
    );
    expect(answers.filter(({ status }) => status === 200)).toHaveLength(200);
    expect(calls).toHaveLength(200);
  });

  test('a socket left open with half a request is closed, and others are answered meanwhile', async () => {
    const { send, arrive, port } = await startHost({ headersMs: 1000 });
    const { cookie = '' } = await arrive();
    const socket = connect({ host: '127.0.0.1', port });
    const closed = new Promise<void>((resolve) => socket.on('close', () => resolve()));
    socket.on('error', () => undefined).resume();
    socket.write('POST /call/start HTTP/1.1\r\nHost: 127.0.0.1');
    expect((await send('GET', '/', { cookie })).status).toBe(200);
    await closed;
  });

  test('an open stream does not keep the host from ending', async () => {
    const { arrive, port, close } = await startHost();
    const { cookie = '' } = await arrive();
    await openPresence(port, cookie);
    const idle = connect({ host: '127.0.0.1', port });
    idle.on('error', () => undefined);
    await new Promise((resolve) => idle.on('connect', resolve));
    await close();
  });
});
