import type { CDPSession, Page } from '@playwright/test';

export interface Finger {
  readonly x: number;
  readonly y: number;
}

/** Fingers on the screen, as the browser gets them from a touch screen. */
export interface Touch {
  down(...fingers: Finger[]): Promise<void>;
  move(...fingers: Finger[]): Promise<void>;
  up(): Promise<void>;
}

export async function createTouch(page: Page): Promise<Touch> {
  const session: CDPSession = await page.context().newCDPSession(page);
  const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', fingers: readonly Finger[]): Promise<unknown> =>
    session.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: fingers.map(({ x, y }, id) => ({ x, y, id })),
    });
  return {
    down: async (...fingers) => void (await send('touchStart', fingers)),
    move: async (...fingers) => void (await send('touchMove', fingers)),
    up: async () => void (await send('touchEnd', [])),
  };
}
