import { type ReactNode, startTransition, useEffect, useState } from 'react';

let isDrawn = false;
let tell: () => void = () => undefined;

/** Resolves once the first picture of the page stands; what that picture can do without waits for it. */
export const firstPicture = new Promise<void>((resolve) => {
  tell = resolve;
});

/** Tells of the first picture; for the outermost of what it shows. */
export function useFirstPicture(): void {
  useEffect(() => {
    // The frame that comes is the picture; the one after it may be shared.
    const frame = requestAnimationFrame(() => {
      isDrawn = true;
      tell();
    });
    return () => cancelAnimationFrame(frame);
  }, []);
}

/** Built once the first picture stands, so that the canvas does not wait for what lies around it. */
export function AfterFirstPicture({ children }: { children: ReactNode }) {
  const [isShown, setShown] = useState(isDrawn);
  useEffect(() => {
    if (!isDrawn) void firstPicture.then(() => startTransition(() => setShown(true)));
  }, []);
  return isShown ? children : null;
}
