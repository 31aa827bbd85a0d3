import { createStore } from 'zustand/vanilla';
import type { Outline, OutlineOptions } from '../../shared/outline/outline';
import type { OutlineDrawing } from '../../shared/outline/outline-drawing';
import type { ReadStore } from './read-store';

export interface DrawingSize {
  readonly width: number;
  readonly height: number;
}

/** What is asked of the worker: a drawing to work on, whose size it tells, then outlines of it. */
export type OutlineAsk =
  | { readonly kind: 'drawing'; readonly drawing: OutlineDrawing }
  | { readonly kind: 'outline'; readonly options: OutlineOptions };

export type OutlineReply =
  | { readonly kind: 'size'; readonly size: DrawingSize }
  | { readonly kind: 'outline'; readonly outline: Outline; readonly options: OutlineOptions }
  | { readonly kind: 'failed' };

/** The part of a Worker that is used; tests put their own in. */
export interface OutlineWorker {
  postMessage(ask: OutlineAsk): void;
  onReply(handle: (reply: OutlineReply) => void): void;
  terminate(): void;
}

export interface OutlineWorkState {
  readonly stage: 'working' | 'ready' | 'tooSlow' | 'failed';
  /** Size of the drawing in its own units; null until it is known. */
  readonly size: DrawingSize | null;
  /** The last outline worked out, which stays while the next one is worked out. */
  readonly outline: Outline | null;
}

/** Works out the outlines of a drawing beside the page, which never waits for them. */
export interface OutlineWork {
  readonly store: ReadStore<OutlineWorkState>;
  /** Has the drawing's size found. */
  measure(): void;
  /** Has the outline worked out as the drawing is now taken; an answer to an earlier call is passed over. */
  ask(options: OutlineOptions): void;
  end(): void;
}

interface OutlineWorkParts {
  readonly createWorker: () => OutlineWorker;
  /** Runs once, later; gives back how to call it off. */
  readonly later: (run: () => void, delayMs: number) => () => void;
}

/** How long one answer may take. */
export const OUTLINE_LIMIT_MS = 2000;

export function createOutlineWork(drawing: OutlineDrawing, { createWorker, later }: OutlineWorkParts): OutlineWork {
  const store = createStore<OutlineWorkState>(() => ({ stage: 'working', size: null, outline: null }));
  let worker: OutlineWorker | null = null;
  let asked: OutlineOptions | null = null;
  let callOff: () => void = () => undefined;

  const end = (): void => {
    callOff();
    worker?.terminate();
    worker = null;
  };

  const giveUp = (stage: 'tooSlow' | 'failed'): void => {
    end();
    store.setState({ stage });
  };

  const take = (reply: OutlineReply): void => {
    switch (reply.kind) {
      case 'size':
        callOff();
        store.setState({ size: reply.size });
        break;
      case 'outline':
        // A worker answers in order, so an answer to an earlier call only means that the last one is still to come.
        if (!isSame(reply.options, asked)) return;
        callOff();
        store.setState({ outline: reply.outline, stage: 'ready' });
        break;
      case 'failed':
        giveUp('failed');
        break;
      default:
        reply satisfies never;
    }
  };

  const getWorker = (): OutlineWorker => {
    if (worker !== null) return worker;
    worker = createWorker();
    worker.onReply(take);
    worker.postMessage({ kind: 'drawing', drawing });
    return worker;
  };

  const post = (ask: OutlineAsk | null): void => {
    callOff();
    store.setState({ stage: 'working' });
    try {
      const at = getWorker();
      if (ask !== null) at.postMessage(ask);
      callOff = later(() => giveUp('tooSlow'), OUTLINE_LIMIT_MS);
    } catch {
      giveUp('failed');
    }
  };

  return {
    store,
    measure: () => post(null),
    ask(options) {
      asked = options;
      post({ kind: 'outline', options });
    },
    end,
  };
}

/** The same choices: what comes back from a worker is a copy. */
function isSame(a: OutlineOptions, b: OutlineOptions | null): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
