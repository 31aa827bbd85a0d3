import { type ReactNode, useEffect, useState } from 'react';
import type { App } from '../state/app';
import { createCalmDocuments } from '../state/calm-documents';
import { AppContext, useApp } from '../state/hooks';

const calmApps = new WeakMap<App, App>();

function getCalmApp(app: App): App {
  const known = calmApps.get(app);
  if (known !== undefined) return known;
  const documents = createCalmDocuments(app.documents, (run, delayMs) => {
    const timer = window.setTimeout(run, delayMs);
    return () => window.clearTimeout(timer);
  });
  const calm = { ...app, documents };
  calmApps.set(app, calm);
  return calm;
}

let isCanvasDrawn = false;

/**
 * What stands in it follows a drag a few times a second instead of on every frame, and at the start of the program comes
 * after the canvas.
 */
export function Calm({ children }: { children: ReactNode }) {
  const app = useApp();
  const [isShown, setShown] = useState(isCanvasDrawn);
  useEffect(() => {
    if (isCanvasDrawn) return;
    // The first frame draws the canvas; what is beside it is built after that has been shown.
    const frame = requestAnimationFrame(() =>
      setTimeout(() => {
        isCanvasDrawn = true;
        setShown(true);
      }),
    );
    return () => cancelAnimationFrame(frame);
  }, []);
  return isShown ? <AppContext value={getCalmApp(app)}>{children}</AppContext> : null;
}
