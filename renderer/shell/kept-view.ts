import type { KeptView, Theme, ViewState } from '../state/view';

const KEY = 'kerfgrip.view';
const THEMES: readonly Theme[] = ['system', 'light', 'dark'];

/** What of the view was kept from last time; nothing when the browser keeps nothing or it cannot be read. */
export function readKeptView(): Partial<KeptView> {
  try {
    return parseKeptView(JSON.parse(localStorage.getItem(KEY) ?? '{}'));
  } catch {
    return {};
  }
}

export function keepView({ theme, leftOpen, rightOpen }: ViewState): void {
  try {
    localStorage.setItem(KEY, JSON.stringify({ theme, leftOpen, rightOpen } satisfies KeptView));
  } catch {
    // A browser that keeps nothing loses the theme, no work.
  }
}

function parseKeptView(kept: unknown): Partial<KeptView> {
  if (typeof kept !== 'object' || kept === null) return {};
  const { theme, leftOpen, rightOpen } = kept as Record<string, unknown>;
  const known = THEMES.find((candidate) => candidate === theme);
  return {
    ...(known === undefined ? {} : { theme: known }),
    ...(typeof leftOpen === 'boolean' ? { leftOpen } : {}),
    ...(typeof rightOpen === 'boolean' ? { rightOpen } : {}),
  };
}
