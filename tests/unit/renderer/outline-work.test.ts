import { describe, expect, it } from 'vitest';
import {
  createOutlineWork,
  OUTLINE_LIMIT_MS,
  type OutlineAsk,
  type OutlineReply,
} from '../../../renderer/state/outline-work';
import { OUTLINE_DEFAULTS, type Outline, type OutlineOptions } from '../../../shared/outline/outline';
import type { OutlineDrawing } from '../../../shared/outline/outline-drawing';

const drawing: OutlineDrawing = { format: 'dxf', entities: [], counts: [], declaredUnit: null, remarks: [] };
const inMm: OutlineOptions = { ...OUTLINE_DEFAULTS, unit: 'mm', units: 'mm' };
const inInch: OutlineOptions = { ...inMm, unit: 'in' };
const outline = (width: number) => ({ width }) as Outline;

function setUp() {
  const asked: OutlineAsk[][] = [];
  let reply: (reply: OutlineReply) => void = () => undefined;
  let ended = 0;
  let timer: { run: () => void; delayMs: number } | null = null;
  const work = createOutlineWork(drawing, {
    createWorker: () => {
      const own: OutlineAsk[] = [];
      asked.push(own);
      return {
        postMessage: (ask) => own.push(ask),
        onReply: (handle) => {
          reply = handle;
        },
        terminate: () => {
          ended += 1;
        },
      };
    },
    later: (run, delayMs) => {
      timer = { run, delayMs };
      return () => {
        timer = null;
      };
    },
  });
  return {
    work,
    asked,
    reply: (answer: OutlineReply) => reply(answer),
    getTimer: () => timer,
    runOut: () => timer?.run(),
    countEnded: () => ended,
    get state() {
      return work.store.getState();
    },
  };
}

describe('the outline beside the page', () => {
  it('is worked out by one worker, which is given the drawing once', () => {
    const bench = setUp();
    bench.work.measure();
    expect(bench.getTimer()?.delayMs).toBe(OUTLINE_LIMIT_MS);
    bench.reply({ kind: 'size', size: { width: 95, height: 20 } });
    expect(bench.state).toMatchObject({ size: { width: 95, height: 20 }, outline: null });
    bench.work.ask(inMm);
    bench.reply({ kind: 'outline', outline: outline(95), options: { ...inMm } });
    expect(bench.state).toMatchObject({ stage: 'ready', outline: { width: 95 } });
    expect(bench.asked.map((each) => each.map(({ kind }) => kind))).toEqual([['drawing', 'outline']]);
    expect(bench.getTimer()).toBeNull();
  });

  it('passes over an answer to what is no longer asked', () => {
    const bench = setUp();
    bench.work.ask(inMm);
    bench.work.ask(inInch);
    bench.reply({ kind: 'outline', outline: outline(95), options: inMm });
    expect(bench.state).toMatchObject({ stage: 'working', outline: null });
    bench.reply({ kind: 'outline', outline: outline(2413), options: inInch });
    expect(bench.state).toMatchObject({ stage: 'ready', outline: { width: 2413 } });
  });

  it('is given up when it takes too long, and tried afresh when it is asked otherwise', () => {
    const bench = setUp();
    bench.work.ask(inMm);
    bench.runOut();
    expect(bench.state.stage).toBe('tooSlow');
    expect(bench.countEnded()).toBe(1);
    bench.work.ask(inInch);
    expect(bench.asked).toHaveLength(2);
    bench.reply({ kind: 'outline', outline: outline(2413), options: inInch });
    expect(bench.state.stage).toBe('ready');
  });

  it('keeps the last outline while the next is worked out', () => {
    const bench = setUp();
    bench.work.ask(inMm);
    bench.reply({ kind: 'outline', outline: outline(95), options: inMm });
    bench.work.ask(inInch);
    expect(bench.state).toMatchObject({ stage: 'working', outline: { width: 95 } });
  });

  it('says when it cannot be worked out, also where there is no worker to be had', () => {
    const bench = setUp();
    bench.work.ask(inMm);
    bench.reply({ kind: 'failed' });
    expect(bench.state.stage).toBe('failed');
    const none = createOutlineWork(drawing, {
      createWorker: () => {
        throw new Error('no workers here');
      },
      later: () => () => undefined,
    });
    none.measure();
    expect(none.store.getState().stage).toBe('failed');
  });

  it('ends with the dialog', () => {
    const bench = setUp();
    bench.work.measure();
    bench.work.end();
    expect(bench.countEnded()).toBe(1);
    expect(bench.getTimer()).toBeNull();
  });
});
