import type { Browser, Page } from '@playwright/test';
import { type Frames, traceFrames } from './trace';

export interface Place {
  readonly x: number;
  readonly y: number;
}

const FRAME_MS = 1000 / 60;

/** Asks for every frame the screen shows, so that a frame that moves nothing counts as well. */
const TICK = `
  (() => {
    window.benchTicks = true;
    const tick = () => { if (window.benchTicks) requestAnimationFrame(tick); };
    requestAnimationFrame(tick);
  })();
`;

/** Drags to and fro from a point for a while, one move a frame, and reads the frames from the browser's trace. */
export async function measureDrag(
  browser: Browser,
  page: Page,
  from: Place,
  reach: Place,
  forMs: number,
): Promise<Frames> {
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x + Math.sign(reach.x) * 6, from.y + Math.sign(reach.y) * 6);
  // The first figures of a drag start the worker; what is measured is the drag, not its start.
  await page.waitForTimeout(400);
  await page.evaluate(TICK);
  const frames = await traceFrames(browser, page, async () => {
    const until = Date.now() + forMs;
    for (let step = 0; Date.now() < until; step += 1) {
      const swing = Math.sin(step / 20);
      await Promise.all([
        page.mouse.move(from.x + reach.x * swing, from.y + reach.y * swing),
        new Promise((resolve) => setTimeout(resolve, FRAME_MS)),
      ]);
    }
  });
  await page.evaluate('window.benchTicks = false');
  await page.mouse.up();
  return frames;
}

/**
 * Notes when a page first shows something, the first pixel on a canvas or what is marked as drawn, and when it can be
 * worked with.
 */
export const FIRST_DRAWN = `
  (() => {
    const hasPixel = (canvas) => {
      if (canvas.width < 50 || canvas.height < 50) return false;
      const { data } = canvas.getContext('2d').getImageData(0, canvas.height >> 1, canvas.width, 1);
      return data.some((value) => value > 0);
    };
    const isMarked = () => document.querySelector('[data-drawn]') !== null;
    const isDrawn = () => isMarked() || [...document.querySelectorAll('canvas')].some(hasPixel);
    const isLive = () => isMarked() || document.querySelector('.bench-feature') !== null;
    const note = (is, name) => {
      const look = () => requestAnimationFrame(is() ? (time) => { window[name] = time; } : look);
      requestAnimationFrame(look);
    };
    note(isDrawn, 'firstDrawnMs');
    note(isLive, 'liveMs');
  })();
`;

export function getShare(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}

export function getMedian(values: readonly number[]): number {
  return getShare(values, 0.5);
}
