import type { ReactNode } from 'react';
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

/** What stands in it follows a drag a few times a second instead of on every frame. */
export function Calm({ children }: { children: ReactNode }) {
  return <AppContext value={getCalmApp(useApp())}>{children}</AppContext>;
}
