/** A page under the DevTools protocol. */
export interface Page {
  /** Calls a method of the protocol. @throws Error with what the protocol refused */
  send(method: string, params?: object): Promise<Record<string, unknown>>;
  /** Value of an expression in the page, awaited. @throws Error with what the page threw */
  evaluate<T>(expression: string): Promise<T>;
  /** What went wrong in the page so far: errors logged, exceptions, refused loads. */
  readonly troubles: string[];
  close(): void;
}

interface Message {
  id?: number;
  method?: string;
  params?: Record<string, unknown>;
  result?: Record<string, unknown>;
  error?: { message: string };
}

interface Target {
  type: string;
  url: string;
  webSocketDebuggerUrl: string;
}

interface Remote {
  value?: unknown;
  description?: string;
}

/** Longest wait for an answer, ms. */
const ANSWER_MS = 120_000;

/** Pages that a program debugged on a port of this machine shows. */
export async function listPages(port: number): Promise<Target[]> {
  const answer = await fetch(`http://127.0.0.1:${port}/json`);
  return ((await answer.json()) as Target[]).filter(({ type }) => type === 'page');
}

/** What an event tells of trouble, or nothing. */
function getTrouble({ method, params = {} }: Message): string | undefined {
  if (method === 'Runtime.exceptionThrown') {
    const { exception, text } = params.exceptionDetails as { exception?: Remote; text: string };
    return exception?.description ?? text;
  }
  if (method === 'Runtime.consoleAPICalled' && (params.type === 'error' || params.type === 'assert')) {
    return (params.args as Remote[]).map(({ value, description }) => description ?? String(value)).join(' ');
  }
  if (method === 'Log.entryAdded') {
    const { level, text, url } = params.entry as { level: string; text: string; url?: string };
    return level === 'error' ? `${text} ${url ?? ''}` : undefined;
  }
  return undefined;
}

/** Connects to the one page of a program debugged on a port. */
export async function connectPage(port: number): Promise<Page> {
  const [target] = await listPages(port);
  if (target === undefined) throw new Error('The program shows no page.');
  const socket = new WebSocket(target.webSocketDebuggerUrl);
  const waiting = new Map<number, (message: Message) => void>();
  const troubles: string[] = [];
  let lastId = 0;
  await new Promise((resolve, reject) => {
    socket.onopen = resolve;
    socket.onerror = () => reject(new Error('The page does not answer.'));
  });
  socket.onmessage = ({ data }) => {
    const message = JSON.parse(String(data)) as Message;
    if (message.id !== undefined) waiting.get(message.id)?.(message);
    const trouble = getTrouble(message);
    if (trouble !== undefined) troubles.push(trouble);
  };
  const send = (method: string, params: object = {}): Promise<Record<string, unknown>> =>
    new Promise((resolve, reject) => {
      lastId += 1;
      const id = lastId;
      const timer = setTimeout(() => reject(new Error(`${method} got no answer.`)), ANSWER_MS);
      waiting.set(id, ({ result, error }) => {
        clearTimeout(timer);
        waiting.delete(id);
        if (error === undefined) resolve(result ?? {});
        else reject(new Error(`${method}: ${error.message}`));
      });
      socket.send(JSON.stringify({ id, method, params }));
    });
  for (const domain of ['Runtime', 'Log', 'Page']) await send(`${domain}.enable`);
  return {
    send,
    troubles,
    close: () => socket.close(),
    async evaluate<T>(expression: string): Promise<T> {
      const params = { expression, returnByValue: true, awaitPromise: true };
      const { result, exceptionDetails } = await send('Runtime.evaluate', params);
      if (exceptionDetails !== undefined) throw new Error((result as Remote).description ?? 'The page threw.');
      return (result as Remote).value as T;
    },
  };
}
