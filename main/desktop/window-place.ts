import { mkdir } from 'node:fs/promises';
import { dirname } from 'node:path';
import { z } from 'zod';
import { readFileLimited } from '../services/read-file-limited';
import { writeFileSafely } from '../services/write-file-safely';

export interface Rectangle {
  x: number;
  y: number;
  width: number;
  height: number;
}

export interface WindowPlace {
  bounds: Rectangle;
  isMaximized: boolean;
}

const LEAST_WIDTH = 900;
const LEAST_HEIGHT = 600;
/** This much of the title has to be on a display for the window to be moved back, pixels. */
const GRASP = 100;

const number = z.number().int().min(-100_000).max(100_000);
const placeSchema = z.object({
  bounds: z.object({ x: number, y: number, width: number, height: number }),
  isMaximized: z.boolean(),
});

/** Where the window was last; `null` when that is not known or no longer on any display. */
export async function readWindowPlace(file: string, displays: readonly Rectangle[]): Promise<WindowPlace | null> {
  try {
    const place = placeSchema.parse(JSON.parse((await readFileLimited(file, 10_000)).toString('utf8')));
    const { width, height } = place.bounds;
    const isUsable = width >= LEAST_WIDTH && height >= LEAST_HEIGHT && getIsReachable(place.bounds, displays);
    return isUsable ? place : null;
  } catch {
    return null;
  }
}

/** Keeps where the window is; that it cannot be kept is no loss worth a word. */
export async function writeWindowPlace(file: string, place: WindowPlace): Promise<void> {
  try {
    await mkdir(dirname(file), { recursive: true });
    await writeFileSafely(file, JSON.stringify(place));
  } catch {
    // The window opens in the usual place next time.
  }
}

function getIsReachable({ x, y, width }: Rectangle, displays: readonly Rectangle[]): boolean {
  return displays.some((display) => {
    const left = Math.max(x, display.x);
    const right = Math.min(x + width, display.x + display.width);
    return right - left >= GRASP && y >= display.y && y <= display.y + display.height - GRASP;
  });
}

/** Size of a window that was never opened before, and the least it may be made. */
export const WINDOW_SIZE = { width: 1440, height: 900, minWidth: LEAST_WIDTH, minHeight: LEAST_HEIGHT } as const;
