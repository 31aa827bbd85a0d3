import type { Page } from '@playwright/test';

/** Frames of a drag, as the page itself saw them. All in ms. */
export interface Frames {
  /** From one frame to the next. */
  readonly intervals: readonly number[];
  /** From the begin of a frame until its work on the page was done: input, script, style, layout, paint. */
  readonly work: readonly number[];
  readonly longTasks: readonly number[];
}

/** Put into the page as text: what a compiler adds to functions is not there. */
const RECORDER = `
  window.benchRecorder = (() => {
    let running = false;
    let intervals = [];
    let work = [];
    let longTasks = [];
    let last = 0;
    let began = 0;
    const after = new MessageChannel();
    after.port1.onmessage = () => { if (running) work.push(performance.now() - began); };
    const tick = (time) => {
      if (!running) return;
      if (last > 0) intervals.push(time - last);
      last = time;
      began = time;
      after.port2.postMessage(0);
      requestAnimationFrame(tick);
    };
    new PerformanceObserver((list) => {
      if (running) for (const entry of list.getEntries()) longTasks.push(entry.duration);
    }).observe({ type: 'longtask' });
    return {
      start() { running = true; intervals = []; work = []; longTasks = []; last = 0; requestAnimationFrame(tick); },
      stop() { running = false; return { intervals, work, longTasks }; },
    };
  })();
`;

export async function addRecorder(page: Page): Promise<void> {
  await page.evaluate(RECORDER);
}

const FRAME_MS = 1000 / 60;

/** Drags to and fro from a point for a while, one move a frame, and reads the frames. */
export async function measureDrag(
  page: Page,
  from: { readonly x: number; readonly y: number },
  reach: { readonly x: number; readonly y: number },
  forMs: number,
): Promise<Frames> {
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x + Math.sign(reach.x) * 6, from.y + Math.sign(reach.y) * 6);
  // The first figures of a drag start the worker; what is measured is the drag, not its start.
  await page.waitForTimeout(400);
  await page.evaluate('benchRecorder.start()');
  const until = Date.now() + forMs;
  for (let step = 0; Date.now() < until; step += 1) {
    const swing = Math.sin(step / 20);
    await Promise.all([
      page.mouse.move(from.x + reach.x * swing, from.y + reach.y * swing),
      new Promise((resolve) => setTimeout(resolve, FRAME_MS)),
    ]);
  }
  const frames = (await page.evaluate('benchRecorder.stop()')) as Frames;
  await page.mouse.up();
  return frames;
}

/** Notes when a page first shows something: the first pixel on a canvas, or what is marked as drawn. */
export const FIRST_DRAWN = `
  (() => {
    const hasPixel = (canvas) => {
      if (canvas.width < 50 || canvas.height < 50) return false;
      const { data } = canvas.getContext('2d').getImageData(0, canvas.height >> 1, canvas.width, 1);
      return data.some((value) => value > 0);
    };
    const look = () => {
      const isDrawn = document.querySelector('[data-drawn]') !== null || [...document.querySelectorAll('canvas')].some(hasPixel);
      if (!isDrawn) return requestAnimationFrame(look);
      requestAnimationFrame((time) => { window.firstDrawnMs = time; });
    };
    requestAnimationFrame(look);
  })();
`;

export function getShare(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}

export function getMedian(values: readonly number[]): number {
  return getShare(values, 0.5);
}
