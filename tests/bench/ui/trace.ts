import type { Browser, Page } from '@playwright/test';

/** What the browser's own trace says of a stretch of time. All in ms. */
export interface Frames {
  /** From one frame of the page to the next. */
  readonly intervals: readonly number[];
  /** What the page's own thread did from one frame to the next: input, script, style, layout, paint. */
  readonly work: readonly number[];
  /** The same in processor time, which a busy machine stretches less. */
  readonly processor: readonly number[];
  /** Tasks of the page's thread over 50 ms, and those that took so long of a processor. */
  readonly longTasks: readonly number[];
  readonly longTasksOfProcessor: readonly number[];
}

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** µs. */
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

const LONG_TASK_MS = 50;
const FRAME = 'BeginMainThreadFrame';
const TASK = 'RunTask';
const FROM = 'kerfgrip:from';
const TO = 'kerfgrip:to';

export async function traceFrames(browser: Browser, page: Page, during: () => Promise<void>): Promise<Frames> {
  await browser.startTracing(page, {
    categories: [
      'blink.user_timing',
      'devtools.timeline',
      'disabled-by-default-devtools.timeline',
      'disabled-by-default-devtools.timeline.frame',
    ],
  });
  await page.evaluate((name) => void performance.mark(name), FROM);
  await during();
  await page.evaluate((name) => void performance.mark(name), TO);
  const trace = JSON.parse((await browser.stopTracing()).toString()) as { traceEvents: TraceEvent[] };
  return readFrames(trace.traceEvents);
}

function readFrames(events: readonly TraceEvent[]): Frames {
  const from = events.find(({ name }) => name === FROM);
  const to = events.find(({ name }) => name === TO);
  if (from === undefined || to === undefined) throw new Error('the trace has no marks of its begin and end');
  const own = events
    .filter(({ pid, tid, ts }) => pid === from.pid && tid === from.tid && ts >= from.ts && ts <= to.ts)
    .toSorted((a, b) => a.ts - b.ts);
  const begins = own.filter(({ name }) => name === FRAME).map(({ ts }) => ts);
  const tasks = own.filter(({ name, dur }) => name === TASK && dur !== undefined);
  const intervals: number[] = [];
  const work: number[] = [];
  const processor: number[] = [];
  let at = 0;
  // A frame is begun inside a task, so tasks count from the frame before to the task that begins the next.
  for (const [index, begin] of begins.entries()) {
    const next = begins[index + 1];
    if (next === undefined) break;
    let wall = 0;
    let busy = 0;
    for (let task = tasks[at]; task !== undefined && task.ts + (task.dur ?? 0) < next; task = tasks[at]) {
      wall += task.dur ?? 0;
      busy += task.tdur ?? 0;
      at += 1;
    }
    if (index === 0) continue;
    intervals.push((next - begin) / 1000);
    work.push(wall / 1000);
    processor.push(busy / 1000);
  }
  const getLong = (key: 'dur' | 'tdur'): number[] =>
    tasks.map((task) => (task[key] ?? 0) / 1000).filter((ms) => ms > LONG_TASK_MS);
  return { intervals, work, processor, longTasks: getLong('dur'), longTasksOfProcessor: getLong('tdur') };
}
