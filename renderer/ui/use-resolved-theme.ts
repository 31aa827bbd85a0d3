import { useSyncExternalStore } from 'react';
import { useView } from '../state/hooks';

const DARK = '(prefers-color-scheme: dark)';

function subscribe(notify: () => void): () => void {
  const query = window.matchMedia(DARK);
  query.addEventListener('change', notify);
  return () => query.removeEventListener('change', notify);
}

/** The theme in force: the user's choice, else the system's. */
export function useResolvedTheme(): 'light' | 'dark' {
  const theme = useView((view) => view.theme);
  const systemIsDark = useSyncExternalStore(subscribe, () => window.matchMedia(DARK).matches);
  if (theme !== 'system') return theme;
  return systemIsDark ? 'dark' : 'light';
}
