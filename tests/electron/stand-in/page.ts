import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { createContext, runInContext } from 'node:vm';

type Listener = (event: object, ...args: unknown[]) => void;

/** What a preload script may use of the runtime to talk to the main process. */
export interface Renderer {
  invoke(channel: string, ...args: unknown[]): Promise<unknown>;
  on(channel: string, listener: Listener): void;
}

/** All that a preload script in a sandbox can read (electron/electron, docs/tutorial/sandbox.md). */
const READABLE = new Set(['events', 'timers', 'url', 'node:events', 'node:timers', 'node:url']);

const nodeRequire = createRequire(import.meta.url);

/** Copies what passes between the page and the script, as between two worlds; functions pass as functions. */
function copy(value: unknown): unknown {
  return typeof value === 'function' ? value : structuredClone(value);
}

/**
 * Runs a preload script as in a sandbox: without Node, and with no module but the few that it may read.
 *
 * @returns what it gives the page as `window.kerfgrip`
 */
export function runPreload(file: string, ipcRenderer: Renderer): Record<string, (...args: never[]) => unknown> {
  const worlds: Record<string, Record<string, (...args: unknown[]) => unknown>> = {};
  const contextBridge = {
    exposeInMainWorld(name: string, given: Record<string, (...args: unknown[]) => unknown>): void {
      worlds[name] = Object.fromEntries(
        Object.entries(given).map(([key, call]) => [
          key,
          (...args: unknown[]) => {
            const result = call(...args.map(copy));
            return result instanceof Promise ? result.then(copy) : copy(result);
          },
        ]),
      );
    },
  };
  const require = (name: string): unknown => {
    if (name === 'electron') return { contextBridge, ipcRenderer };
    if (READABLE.has(name)) return nodeRequire(name);
    throw new Error(`module not found: ${name}`);
  };
  const module = { exports: {} };
  const world = createContext({ require, module, exports: module.exports, console });
  runInContext(readFileSync(file, 'utf8'), world, { filename: file });
  const bridge = worlds.kerfgrip;
  if (bridge === undefined) throw new Error('The preload script gives the page nothing.');
  return bridge;
}
