import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Reply } from '../../shared/contract/host';
import { PAGE_ID_HEADER } from '../../shared/contract/page-header';
import { type PageFile, readPageFile } from '../services/page-files';
import { PAGE_HEADERS } from '../services/page-policy';
import { createDoor, type Door, type DoorAnswer } from './door';
import { createPagePresence, type PagePresence, PRESENCE_SCRIPT } from './page-presence';
import { readBody } from './read-body';

export interface LoopbackOptions {
  /** Folder of the built page. */
  pageFolder: string;
  /** Answers a host call of a page, by the id that it gave itself; takes whatever came and never throws. */
  handleCall: (verb: string, request: unknown, page: string) => Promise<Reply<unknown>>;
  /** Called when the last window has gone. */
  onGone: () => void;
  /** Largest body of a call, bytes. */
  mostBodyBytes: number;
  /** How long no window may be there before it counts as gone, ms. */
  graceMs: number;
  /** How long a client may take to send its headers, ms; its whole request may take six times that. */
  headersMs: number;
}

export const LOOPBACK_DEFAULTS = { mostBodyBytes: 64_000_000, graceMs: 30_000, headersMs: 10_000 } as const;

/** More than a window ever opens, and few enough that none of them can eat up the machine. */
const MOST_CONNECTIONS = 512;

export interface LoopbackServer {
  /** The address to open, its one-time token included. */
  readonly address: string;
  readonly port: number;
  close(): Promise<void>;
}

interface Rooms {
  options: LoopbackOptions;
  door: Door;
  presence: PagePresence;
}

/** Starts the host on a free port of the loopback address 127.0.0.1, which no other machine reaches. */
export async function startLoopbackServer(options: LoopbackOptions): Promise<LoopbackServer> {
  const server = createServer({
    headersTimeout: options.headersMs,
    requestTimeout: options.headersMs * 6,
    connectionsCheckingInterval: Math.min(options.headersMs, 5000),
    keepAliveTimeout: 5000,
  });
  server.maxConnections = MOST_CONNECTIONS;
  const port = await listen(server);
  const rooms: Rooms = {
    options,
    door: createDoor(port),
    presence: createPagePresence(options.graceMs, options.onGone),
  };
  server.on('request', (request, response) => {
    handleRequest(rooms, request, response).catch(() => {
      if (response.headersSent) response.destroy();
      else sendText(response, 500, 'Kerfgrip could not answer this request.');
    });
  });
  return {
    port,
    address: `http://127.0.0.1:${port}/?t=${rooms.door.token}`,
    close: () =>
      new Promise((resolve) => {
        rooms.presence.close();
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

function listen(server: Server): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => resolve((server.address() as AddressInfo).port));
  });
}

async function handleRequest(rooms: Rooms, request: IncomingMessage, response: ServerResponse): Promise<void> {
  for (const [name, value] of Object.entries(PAGE_HEADERS)) response.setHeader(name, value);
  const [path = '', query = ''] = (request.url ?? '').split('?', 2);
  const host = rooms.door.checkHost(request.headers);
  if (!host.ok) return turnAway(request, response, host);
  if (request.method === 'POST' && path.startsWith('/call/'))
    return handleCall(rooms, path.slice(6), request, response);
  if (request.method !== 'GET') {
    return turnAway(request, response, {
      ok: false,
      status: 405,
      sentence: 'Kerfgrip has nothing to do for this request.',
    });
  }
  const token = path === '/' ? new URLSearchParams(query).get('t') : null;
  if (token !== null) return handleArrival(rooms, token, request, response);
  const visit = rooms.door.checkVisit(request.headers);
  if (!visit.ok) return turnAway(request, response, visit);
  return handleVisit(rooms, path, response);
}

function handleArrival(rooms: Rooms, token: string, request: IncomingMessage, response: ServerResponse): void {
  const cookie = rooms.door.redeem(token);
  if (cookie === null && !rooms.door.hasCookie(request.headers)) {
    const sentence =
      'This address has been used already or is not the one that Kerfgrip printed. Start Kerfgrip again.';
    turnAway(request, response, { ok: false, status: 403, sentence });
    return;
  }
  if (cookie !== null) response.setHeader('set-cookie', cookie);
  // Away from the token, so that it stays in no history.
  response.writeHead(303, { location: '/' }).end();
}

async function handleVisit(rooms: Rooms, path: string, response: ServerResponse): Promise<void> {
  if (path === '/presence') {
    if (!rooms.presence.add(response)) sendText(response, 503, 'Too many windows are open.');
    return;
  }
  if (path === '/presence.js') return sendFile(response, getScript(PRESENCE_SCRIPT));
  const file = await readPageFile(rooms.options.pageFolder, path);
  if (file === null) return sendText(response, 404, 'There is nothing at this address.');
  sendFile(response, file.type.startsWith('text/html') ? addPresence(file) : file);
}

async function handleCall(
  rooms: Rooms,
  verb: string,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const check = rooms.door.checkCall(request.headers);
  if (!check.ok) return turnAway(request, response, check);
  const body = await readBody(request, rooms.options.mostBodyBytes);
  if (!body.ok) {
    const megabytes = Math.round(rooms.options.mostBodyBytes / 1e6);
    return turnAway(request, response, { ok: false, status: 413, sentence: `This is more than ${megabytes} MB.` });
  }
  const parsed = parseJson(body.text);
  if (!parsed.ok) return sendReply(response, 400, refuse('bad-request', 'The page sent a request that is not JSON.'));
  const page = String(request.headers[PAGE_ID_HEADER] ?? '');
  sendReply(response, 200, await rooms.options.handleCall(verb, parsed.value, page));
}

function parseJson(text: string): { ok: true; value: unknown } | { ok: false } {
  try {
    return { ok: true, value: JSON.parse(text) };
  } catch {
    return { ok: false };
  }
}

function addPresence(file: PageFile): PageFile {
  const html = file.content.toString('utf8');
  const script = '<script type="module" src="./presence.js"></script></head>';
  return { ...file, content: Buffer.from(html.replace('</head>', script)) };
}

function getScript(source: string): PageFile {
  return { type: 'text/javascript; charset=utf-8', content: Buffer.from(source) };
}

function refuse(code: string, sentence: string): Reply<never> {
  return { ok: false, problem: { code, sentence, where: '' } };
}

type TurnedAway = Exclude<DoorAnswer, { ok: true }> | { ok: false; status: 405 | 413; sentence: string };

/** The rest of the request is not read, so the connection cannot be used again. */
function turnAway(request: IncomingMessage, response: ServerResponse, { status, sentence }: TurnedAway): void {
  response.setHeader('connection', 'close');
  response.on('finish', () => request.destroy());
  if (request.url?.startsWith('/call/'))
    sendReply(response, status, refuse(status === 413 ? 'too-large' : 'not-allowed', sentence));
  else sendText(response, status, sentence);
}

function sendReply(response: ServerResponse, status: number, reply: Reply<unknown>): void {
  const content = Buffer.from(JSON.stringify(reply));
  response.writeHead(status, { 'content-type': 'application/json; charset=utf-8', 'content-length': content.length });
  response.end(content);
}

function sendText(response: ServerResponse, status: number, sentence: string): void {
  response.writeHead(status, { 'content-type': 'text/plain; charset=utf-8' }).end(`${sentence}\n`);
}

function sendFile(response: ServerResponse, { type, content }: PageFile): void {
  response.writeHead(200, { 'content-type': type, 'content-length': content.length }).end(content);
}
