import { useSyncExternalStore } from 'react';
import { useView } from '../state/hooks';
import { type ResolvedTheme, resolveTheme, SYSTEM_IS_DARK } from './theme';

function subscribe(notify: () => void): () => void {
  const query = window.matchMedia(SYSTEM_IS_DARK);
  query.addEventListener('change', notify);
  return () => query.removeEventListener('change', notify);
}

/** The theme in force, followed. */
export function useResolvedTheme(): ResolvedTheme {
  const theme = useView((view) => view.theme);
  const systemIsDark = useSyncExternalStore(subscribe, () => window.matchMedia(SYSTEM_IS_DARK).matches);
  return resolveTheme(theme, systemIsDark);
}
