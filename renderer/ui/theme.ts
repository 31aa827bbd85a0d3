import type { Theme } from '../state/view';

export type ResolvedTheme = Exclude<Theme, 'system'>;

export const SYSTEM_IS_DARK = '(prefers-color-scheme: dark)';

/** The theme in force: the user's choice, else the system's. */
export function resolveTheme(theme: Theme, systemIsDark = window.matchMedia(SYSTEM_IS_DARK).matches): ResolvedTheme {
  if (theme !== 'system') return theme;
  return systemIsDark ? 'dark' : 'light';
}

/** Has the whole page shown in a theme. */
export function applyTheme(theme: ResolvedTheme): void {
  document.documentElement.dataset.theme = theme;
}
